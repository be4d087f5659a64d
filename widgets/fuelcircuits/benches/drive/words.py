"""What a drive says: one short sentence that changes only with what happens."""

from collections.abc import Callable
from typing import NamedTuple

from fuelcircuits.benches.drive.row import Row

__all__ = ["DEAD", "Said", "said"]

DEAD = 26.2
"""Speed below which an engine does not run by itself [rad/s]."""
CRANKED = 2.0
"""Speed from which an engine turns [rad/s]."""
MISSING, LEAN, RICH = 0.95, 1.15, 0.75
"""Share of cycles that fire below which one hears it, and mixtures that a driver feels [1]."""
SHARE = 0.15
"""Share of the fuel from which on a circuit is named [1]."""


class Said(NamedTuple):
    """A sentence, whether it warns, and how the exhaust looks."""

    words: str
    alarm: bool
    exhaust: str


def said(row: Row) -> Said:
    """Return what happens at a moment."""
    for holds, words, alarm in STATES:
        if holds(row):
            return Said(words if alarm or "." in words else f"{words}.", alarm, _exhaust(row))
    return Said(f"{_feeding(row)} {_mixture(row)}", False, _exhaust(row))


def _misfires(row: Row) -> bool:
    return row.fires < MISSING


STATES: tuple[tuple[Callable[[Row], bool], str, bool], ...] = (
    (lambda row: row.speed < CRANKED, "The engine stands", False),
    (lambda row: not row.running and row.speed < DEAD, "The starter turns the engine", False),
    (lambda row: not row.running, "The engine turns without firing by itself", False),
    (
        lambda row: _misfires(row) and row.burnt > 1.0,
        "Too lean: part of the cycles do not fire.",
        True,
    ),
    (_misfires, "Too rich: part of the cycles do not fire.", True),
)
"""What is said first, if it holds; the circuits are named otherwise."""
CIRCUITS: tuple[tuple[str, str], ...] = (
    ("pump", "the pump"),
    ("screw", "mixture screws"),
    ("slot", "slots"),
    ("main", "main nozzles"),
    ("power", "metering rods"),
)


def _feeding(row: Row) -> str:
    """Return which circuits feed."""
    whole = max(row.fuel, 1e-9)
    names = [words for name, words in CIRCUITS if getattr(row, name) / whole > SHARE]
    listed = " and ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))
    if not listed:
        return "Next to no fuel comes."
    verb = "feeds" if listed == "the pump" else "feed"
    return f"{listed[0].upper()}{listed[1:]} {verb}."


def _mixture(row: Row) -> str:
    if row.mixture > LEAN:
        return "The mixture is lean."
    if row.mixture < RICH:
        return "The mixture is very rich."
    return "The mixture is rich." if row.mixture < 0.95 else "The mixture is near 1."


def _exhaust(row: Row) -> str:
    """Return how the exhaust looks (common practice, no source)."""
    if row.air < 1e-6:
        return "no exhaust"
    cold = row.coolant < 320.0
    if row.mixture < 0.68:
        return "black smoke, and steam" if cold else "black smoke"
    if row.mixture < 0.82:
        return "sooty, and steam" if cold else "sooty"
    return "white steam" if cold else "clear"
