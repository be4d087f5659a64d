"""Two benches beside each other, to compare, with controls that move together."""

from collections.abc import Iterable

from ipywidgets import HBox, Layout, link

from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.errors import RangeError

__all__ = ["side_by_side"]


def side_by_side(first: Bench, second: Bench, linked: Iterable[str] = ()) -> HBox:
    """Return two benches in one row; show it as the last line of a cell.

    ::

        side_by_side(LowSpeedBench(plover), LowSpeedBench(dunlin), linked=["jet_bore"])

    Parameters
    ----------
    first, second
        The benches, of one kind or of two.
    linked
        Names of controls that both have, or "system": from now on both stand at the same, at
        first where the first bench stands.

    Raises
    ------
    RangeError
        If one of the benches has no such control, or cannot stand where the other does.
    """
    for name in linked:
        for bench in (first, second):
            if name != "system" and name not in bench.inputs():
                raise RangeError(f"linked must name controls of both benches, got {name}")
        link((first.widget(), name), (second.widget(), name))
    shown = [first.widget(), second.widget()]
    for each in shown:
        each.layout = Layout(flex="1 1 0", min_width="0")
    return HBox(shown)
