"""What a good driver keeps to on a set journey, and whether a drive has kept to it.

A drive that was saved is marched anew, step by step, so whoever marks it gets the numbers that the
driver saw, whatever else stood in the file. The limits are common practice (no source); their
numbers are ours, wide enough that a careful foot keeps all of them on a healthy car.
"""

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from fuelcircuits.answer_sheet.record import LONGEST_DRIVE
from fuelcircuits.benches.drive.driven import STEP
from fuelcircuits.benches.drive.journeys import JOURNEYS
from fuelcircuits.benches.drive.outing import Outing
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.benches.drive.trace import Trace, drive, trace_in
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["TASKS", "Judged", "Limit", "Task", "Verdict", "judged", "verdicts"]

NOUGHT = 6773.0
"""Vacuum under which next to nothing lifts fuel off the wall: 2 inHg [Pa]."""
MOVING = 30 / 3.6
"""Road speed of a car that has pulled away [m/s]; in top gear it creeps at idle with 23 km/h."""
FIRES = 0.9
"""Share of cycles that fire, below which a driver feels that some do not [1]."""
RUN_ALONE = 3.0
"""For how long an engine has to run by itself to have started [s]."""


class Limit(NamedTuple):
    """One thing to keep to: `broken` returns when it was not kept [s], None if it was."""

    words: str
    slip: str
    """What went wrong where it was not kept, and what to do instead."""
    broken: Callable[[Sequence[Row]], float | None]


class Task(NamedTuple):
    """A set journey to drive oneself: how long it may take [s], its goal, and its limits."""

    longest: float
    goal: Limit
    limits: tuple[Limit, ...]


class Verdict(NamedTuple):
    """Whether a limit was kept, and what to say."""

    kept: bool
    words: str


class Judged(NamedTuple):
    """What a drive comes to: whether its goal was reached, and every limit, the goal first."""

    reached: bool
    verdicts: tuple[Verdict, ...]

    @property
    def share(self) -> float:
        """Share of the limits that were kept [1]; nought where the goal was not reached."""
        kept = sum(one.kept for one in self.verdicts)
        return kept / len(self.verdicts) if self.reached else 0.0


def judged(trace: Trace | str, rig: Rig, task: str) -> Judged:
    """Drive a trace again and hold it to the limits of a task.

    Parameters
    ----------
    trace
        A trace, or its text.
    rig
        The healthy rig that was driven.
    task
        One of TASKS, which is the name of a set journey.

    Raises
    ------
    RangeError
        If the text is no trace, the rig or the outing another, or the drive too long.
    ConvergenceError
        If the network has no balance at some step.

    Examples
    --------
    >>> judged(Path("drive.json").read_text(), rig, "pull-away").share
    """
    if isinstance(trace, str) and len(trace) > LONGEST_DRIVE:
        raise RangeError(f"drive must have {LONGEST_DRIVE:,} characters or fewer, got more")
    told = trace_in(trace) if isinstance(trace, str) else trace
    _check(told.outing, len(told.feet), task)
    return verdicts(drive(told, rig), task)


def verdicts(rows: Sequence[Row], task: str) -> Judged:
    """Return what the rows of a whole drive come to; the first is its beginning."""
    asked = TASKS[task]
    found = [_verdict(one, rows) for one in (asked.goal, *asked.limits)]
    return Judged(found[0].kept, tuple(found))


def _check(outing: Outing, steps: int, task: str) -> None:
    """Raise `RangeError` unless this is a drive of the task, on a healthy car."""
    if task not in TASKS:
        raise RangeError(f"task must be one of {', '.join(TASKS)}, got {task}")
    wanted = JOURNEYS[task].outing._replace(rig=outing.rig)
    for name, value in wanted.named.items():
        if outing.named[name] != value:
            rule = f"{name} of a drive of {task} must be {value or 'nothing'}"
            raise RangeError(f"{rule}, got {outing.named[name]}")
    if steps * STEP > TASKS[task].longest + STEP / 2:
        longest = f"{TASKS[task].longest:g} s"
        raise RangeError(f"drive of {task} must take {longest} or less, got {steps * STEP:g} s")


def _verdict(limit: Limit, rows: Sequence[Row]) -> Verdict:
    time = limit.broken(rows)
    if time is None:
        return Verdict(True, limit.words)
    return Verdict(False, f"{limit.words} At {time:.1f} s: {limit.slip}")


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


STALL = Limit(
    "The engine does not stall.",
    "it stopped. In gear the road holds the engine fast: give it more pedal before the gear "
    "goes in, or take the gear out before it drops under its idle.",
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
TASKS: Mapping[str, Task] = {
    "pull-away": Task(
        15.0,
        Limit(
            "The car comes to 30 km/h (19 mph).",
            "the drive ended before. Put a gear in, and press the pedal.",
            _unless(lambda row: row.road_speed >= MOVING),
        ),
        (STALL, MISFIRE, VACUUM),
    ),
    "cold-start": Task(
        30.0,
        Limit(
            "The engine runs by itself for 3 s.",
            "the drive ended before. Hold the starter until it runs.",
            _not_started,
        ),
        (STALL, MISFIRE),
    ),
}
"""The set journeys that have limits, by name."""
