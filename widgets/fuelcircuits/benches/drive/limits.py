"""What a good driver keeps to on a set journey.

The limits are common practice (no source); their numbers are ours, wide enough that a careful foot
keeps all of them on a healthy car.
"""

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple

from fuelcircuits.benches.drive.driven import STEP
from fuelcircuits.benches.drive.row import Row

__all__ = ["AWAY", "GASP", "MISFIRE", "SOUND", "STALL", "STARTED", "VACUUM", "Limit"]

NOUGHT = 6773.0
"""Vacuum under which next to nothing lifts fuel off the wall: 2 inHg [Pa]."""
MOVING = 30 / 3.6
"""Road speed of a car that has pulled away [m/s]; in top gear it creeps at idle with 23 km/h."""
FIRES = 0.9
"""Share of cycles that fire, below which a driver feels that some do not [1]."""
RUN_ALONE = 3.0
"""For how long an engine has to run by itself to have started [s]."""
LEAN = 1.15
"""Lambda in the cylinders above which the engine hangs back [1]."""
GASPS = 0.2
"""For how long it has to hang back for everybody to feel it [s]."""


class Limit(NamedTuple):
    """One thing to keep to: `broken` returns when it was not kept [s], None if it was."""

    words: str
    slip: str
    """What went wrong where it was not kept, and what to do instead."""
    broken: Callable[[Sequence[Row]], float | None]
    healthy: bool = False
    """Whether it is the healthy car that has to keep to it, under the same foot."""


def _first(holds: Callable[[Row], bool]) -> Callable[[Sequence[Row]], float | None]:
    """Return what finds when something first held while the engine ran."""

    def found(rows: Sequence[Row]) -> float | None:
        return next((row.time for row in rows if row.running and holds(row)), None)

    return found


def _unless(holds: Callable[[Row], bool]) -> Callable[[Sequence[Row]], float | None]:
    """Return what gives the end of a drive in which something never held."""

    def found(rows: Sequence[Row]) -> float | None:
        return None if any(holds(row) for row in rows) else rows[-1].time

    return found


def _stalled(rows: Sequence[Row]) -> float | None:
    """Return when an engine that ran stopped running by itself."""
    pairs = pairwise(rows)
    return next((after.time for row, after in pairs if row.running and not after.running), None)


def _not_started(rows: Sequence[Row]) -> float | None:
    """Return the end of a drive in which the engine never ran by itself for a while."""
    since: float | None = None
    for row in rows:
        since = None if not row.running else row.time if since is None else since
        if since is not None and row.time - since >= RUN_ALONE:
            return None
    return rows[-1].time


def _never_gasped(rows: Sequence[Row]) -> float | None:
    """Return the end of a drive in which the engine hardly hung back for lack of fuel."""
    lean = sum(row.running and row.burnt > LEAN for row in rows)
    return None if STEP * lean >= GASPS else rows[-1].time


STALL = Limit(
    "The engine does not stall.",
    "it stopped. In gear the road holds the engine fast: give it more pedal before the gear "
    "goes in, or press the clutch before it drops under its idle.",
    _stalled,
)
VACUUM = Limit(
    "The vacuum never falls under 2 inHg.",
    "it did. The throttle opened faster than the engine could turn up, so the wall drinks and "
    "the slots fall silent: half as much pedal, and more as the engine picks up.",
    _first(lambda row: row.vacuum < NOUGHT),
)
MISFIRE = Limit(
    "All cycles fire.",
    "some did not. Look at lambda there: too lean, and the pedal went down at a jerk; too rich, "
    "and it went down often, and the pump gave a shot each time.",
    _first(lambda row: row.fires < FIRES),
)
AWAY = Limit(
    "The car comes to 30 km/h (19 mph).",
    "the drive ended before. Put a gear in, and press the pedal.",
    _unless(lambda row: row.road_speed >= MOVING),
)
STARTED = Limit(
    "The engine runs by itself for 3 s.",
    "the drive ended before. Hold the starter until it runs.",
    _not_started,
)
GASP = Limit(
    "The complaint shows: for 0.2 s or longer so little fuel comes (lambda above 1.15) that the "
    "engine hangs back.",
    "the drive ended, and it had not. Try what you have not tried yet: idle, a gentle foot, a "
    "quick one, each in gear and out of it.",
    _never_gasped,
)
SOUND = Limit(
    "A healthy car, under the same foot, fires all its cycles.",
    "it did not, so this drive accuses any car. Leave out what hurts a good one as well, as a foot "
    "that comes up or goes down again and again.",
    _first(lambda row: row.fires < FIRES),
    healthy=True,
)
