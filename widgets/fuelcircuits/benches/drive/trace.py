"""A drive on paper: what was settled before, and what the driver did in every step.

As text it is JSON, with equal steps told once::

    {"drive": 1, "step": 0.02, "outing": {"rig": "plover", ...},
     "feet": [[150, 0.0, "neutral", 0.0, true, false], [10, 0.4, "low", 0.0, true, false]]}

Each row of feet says for how many steps, then pedal, gear, slope, key and starter; clutch and brake
follow where one of them is pressed. The same trace on the same rig gives the same numbers.
"""

import json
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import Any, NamedTuple

from fuelcircuits.benches.drive.driven import STEP, away, onward
from fuelcircuits.benches.drive.foot import Foot, foot_in
from fuelcircuits.benches.drive.outing import Outing, outing_in
from fuelcircuits.benches.drive.row import Row, row_of
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["KIND", "LONGEST", "Trace", "drive", "feet_in", "packed", "trace_in"]

KIND = 1
"""Number of the form in which a trace is written."""
LONGEST = 90_000
"""Most steps of a trace: half an hour."""


class Trace(NamedTuple):
    """A drive on paper."""

    outing: Outing
    feet: tuple[Foot, ...]  # one for each step

    @property
    def text(self) -> str:
        """Return the trace as JSON."""
        head = {"drive": KIND, "step": STEP, "outing": self.outing.named}
        rows = ",\n".join(f"  {json.dumps(row)}" for row in packed(self.feet))
        return f'{json.dumps(head)[:-1]}, "feet": [\n{rows}\n]}}\n'

    @property
    def line(self) -> str:
        """Return the same on one line, to be handed in as an answer."""
        told = {"drive": KIND, "step": STEP, "outing": self.outing.named, "feet": packed(self.feet)}
        return json.dumps(told, separators=(",", ":"))


def packed(feet: Iterable[Foot]) -> list[list[Any]]:
    """Return rows of a count and a foot, equal ones that follow each other told once."""
    return [[len(list(same)), *foot.told] for foot, same in groupby(feet)]


def feet_in(rows: Sequence[Sequence[Any]]) -> Iterator[Foot]:
    """Yield the foot of every step that rows tell.

    Raises
    ------
    RangeError
        If a row says no whole number of steps, or a value that there is not.
    """
    for at, row in enumerate(rows, 1):
        if not isinstance(row, list | tuple) or not row:
            raise RangeError(f"row {at} of feet must be a count and a foot, got {row!r}")
        count, *said = row
        if isinstance(count, bool) or not isinstance(count, int) or not 0 < count <= LONGEST:
            raise RangeError(f"count in row {at} of feet must be 1 to {LONGEST}, got {count!r}")
        try:
            foot = foot_in(said)
        except RangeError as error:
            raise RangeError(f"row {at} of feet: {error}") from None
        for _ in range(count):
            yield foot


def trace_in(text: str) -> Trace:
    """Return the trace that JSON tells.

    Raises
    ------
    RangeError
        If it is no trace, or one of another form or step, or too long.
    """
    try:
        told = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise RangeError(f"trace must be JSON, got a text that is not: {error}") from None
    if not isinstance(told, dict) or told.get("drive") != KIND:
        raise RangeError('trace must say "drive": 1, got a table that does not')
    if told.get("step") != STEP:
        raise RangeError(f"step of a trace must be {STEP} s, got {told.get('step')!r}")
    parts = {"outing": dict, "feet": list}
    for name, kind in parts.items():
        if not isinstance(told.get(name), kind):
            raise RangeError(f"trace must have {name}, got {told.get(name)!r}")
    feet: list[Foot] = []
    for foot in feet_in(told["feet"]):
        feet.append(foot)
        if len(feet) > LONGEST:
            raise RangeError(f"trace must have at most {LONGEST} steps, got more")
    return Trace(outing_in(told["outing"]), tuple(feet))


def drive(trace: Trace | str, rig: Rig) -> list[Row]:
    """Drive a trace again, and return what it comes to: at the beginning, and after every step.

    Parameters
    ----------
    trace
        A trace, or its text.
    rig
        The rig that was driven, without its fault.

    Returns
    -------
    list of Row
        One more than there are steps. The same trace and rig give the same numbers, to the bit
        on one machine.

    Raises
    ------
    RangeError
        If the text is no trace, or the rig another.
    ConvergenceError
        If the network has no balance at some step.

    Examples
    --------
    >>> rows = drive(Path("pull-away.json").read_text(), rig)
    >>> max(row.mixture for row in rows)
    """
    told = trace_in(trace) if isinstance(trace, str) else trace
    driven, now = away(told.outing, rig)
    rows = [row_of(driven, now)]
    for foot in told.feet:
        now = onward(driven, now, foot)
        rows.append(row_of(driven, now))
    return rows
