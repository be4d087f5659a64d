"""Every bench of the registry, made once, for the tests that hold for all of them."""

from functools import cache
from typing import Any

from fuelcircuits.benches import BENCHES, Bench, open_bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.table import Table, tabulate
from fuelcircuits.cards import read_rig

from tests.places import RIGS

__all__ = ["CARD", "MARCHED", "STEMS", "bench", "coarse", "table"]

CARD = RIGS / "plover.toml"
STEMS = tuple(BENCHES)
MARCHED = ("choke", "cold_start", "hot_soak", "pump")
"""Benches whose whole run is marched before they can tell most of what they show."""


@cache
def bench(stem: str) -> Bench:
    """Return the bench on the course's first rig."""
    return open_bench(stem, read_rig(CARD))


@cache
def table(stem: str) -> Table:
    """Return the table of the bench's page."""
    return tabulate(bench(stem))


def coarse(stem: str) -> Any:
    """Return a bench whose page has few places, for tests of the page and not of its numbers."""
    made: Any = bench(stem)
    few = {
        name: min(count, 3) if isinstance(made.inputs()[name], Control) else count
        for name, count in made.page_grid.items()
    }
    kind = type(type(made).__name__, (type(made),), {"page_grid": few})
    return kind(read_rig(CARD)) if made.needs_rig else kind()
