"""The carburettor driven: a pedal, a gear and a hill, and all that moves, step by step."""
