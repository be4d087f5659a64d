"""Whether a drive has kept to what a task asks of it.

A drive that was saved is marched anew, step by step, so whoever marks it gets the numbers that the
driver saw, whatever else stood in the file.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from fuelcircuits.answer_sheet.record import LONGEST_DRIVE
from fuelcircuits.benches.drive.driven import STEP
from fuelcircuits.benches.drive.journeys import JOURNEYS
from fuelcircuits.benches.drive.limits import (
    AWAY,
    GASP,
    MISFIRE,
    SOUND,
    STALL,
    STARTED,
    VACUUM,
    Limit,
)
from fuelcircuits.benches.drive.outing import Outing
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.benches.drive.trace import Trace, drive, trace_in
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["TASKS", "Judged", "Task", "Verdict", "judged"]


class Task(NamedTuple):
    """A set journey to drive oneself: how long it may take [s], its goal, and its limits."""

    longest: float
    goal: Limit
    limits: tuple[Limit, ...]


TASKS: Mapping[str, Task] = {
    "pull-away": Task(15.0, AWAY, (STALL, MISFIRE, VACUUM)),
    "cold-start": Task(30.0, STARTED, (STALL, MISFIRE)),
    "complaint": Task(15.0, GASP, (STALL, SOUND)),
}
"""The set journeys that have limits, by name."""


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
    return _verdicts(told, rig, TASKS[task])


def _verdicts(trace: Trace, rig: Rig, task: Task) -> Judged:
    """Return what a drive comes to, its healthy twin's too where a limit asks for it."""
    limits = (task.goal, *task.limits)
    rows = {False: drive(trace, rig)}
    if any(each.healthy for each in limits):
        rows[True] = drive(trace._replace(outing=trace.outing._replace(fault="")), rig)
    found = tuple(_verdict(each, rows[each.healthy]) for each in limits)
    return Judged(found[0].kept, found)


def _check(outing: Outing, steps: int, task: str) -> None:
    """Raise `RangeError` unless this is a drive of the task, on its car."""
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
