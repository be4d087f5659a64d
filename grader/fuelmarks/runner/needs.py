"""Libraries that take long to load and that few notebooks ask for: loaded once one does.

What a notebook asks for is guessed from the words in its cells. Where the guess is wrong it loads
the library itself, in its own time: that is slower, and changes nothing else.
"""

from collections.abc import Iterable, Mapping

from fuelmarks.runner.protocol import Cell

__all__ = ["SIGNS", "needs"]

WIDGETS = ("widget", "OwnCar", "side_by_side")
SIGNS: Mapping[str, tuple[str, ...]] = {
    "matplotlib.pyplot": ("matplotlib", "pyplot", "figure"),
    "ipywidgets": WIDGETS,
    "anywidget": WIDGETS,
}
"""Modules, each with the words by which one knows that it will be asked for."""


def needs(cells: Iterable[Cell]) -> list[str]:
    """Return the modules among `SIGNS` that `cells` will ask for, as it seems."""
    text = "\n".join(cell.source for cell in cells)
    return [module for module, signs in SIGNS.items() if any(sign in text for sign in signs)]
