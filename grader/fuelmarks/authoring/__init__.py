"""From a unit's text to its notebook: directives, cells, build, and the proof of its questions."""
