"""The browser's part: modules that stand alone, put together into one where one file is needed."""

import re
from collections.abc import Iterable
from importlib.resources import files
from importlib.resources.abc import Traversable

__all__ = ["NOTEBOOK", "PAGE", "SCRIPTS", "STATIC", "STYLES", "bundle", "styles"]

STATIC = files(__package__) / "static"
SCRIPTS = (
    "keep.js",
    "link.js",
    "measure.js",
    "rules.js",
    "drawing.js",
    "controls.js",
    "plot.js",
    "picture.js",
    "sharing.js",
    "gauge.js",
    "player.js",
    "switches.js",
    "bench.js",
)
"""The modules of a live bench, each after those that it imports."""
NOTEBOOK = (*SCRIPTS, "notebook.js")
"""The modules of a live bench in a notebook."""
PAGE = (*SCRIPTS, "blend.js", "model.js", "page.js")
"""The modules of a page that carries a table."""
STYLES = ("drawing.css", "bench.css", "plot.css")
JOINTS = re.compile(r"^import .*\n|^export (?=const|function|async)", flags=re.M)


def bundle(names: Iterable[str], folder: Traversable = STATIC) -> str:
    """Return modules of a folder as one, without what joins them; a default export stays."""
    return "\n".join(JOINTS.sub("", (folder / name).read_text("utf-8")) for name in names)


def styles(names: Iterable[str]) -> str:
    """Return style sheets as one."""
    return "\n".join((STATIC / name).read_text("utf-8") for name in names)
