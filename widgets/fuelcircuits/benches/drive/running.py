"""One drive as it goes on: the car, everything now, and what the driver has done."""

from typing import Any

from fuelcircuits.benches.drive.dials import needles
from fuelcircuits.benches.drive.drawing import place
from fuelcircuits.benches.drive.driven import STEP, away, onward
from fuelcircuits.benches.drive.foot import Foot
from fuelcircuits.benches.drive.outing import Outing
from fuelcircuits.benches.drive.row import Row, row_of
from fuelcircuits.benches.drive.taken import Seen
from fuelcircuits.benches.drive.trace import LONGEST, Trace
from fuelcircuits.benches.drive.words import said
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["EVERY", "Running", "Told"]

EVERY = 2
"""Steps from one row that is told to the next."""
Told = list[float | None]
"""A row as the browser takes it."""


class Running:
    """A drive that has begun."""

    def __init__(self, outing: Outing, rig: Rig) -> None:
        self.driven, self.now = away(outing, rig)
        self.feet: list[Foot] = []
        self.speeds = [self.now.motion.speed]  # rad/s, at the beginning and after every step

    @property
    def trace(self) -> Trace:
        """The drive so far, on paper."""
        return Trace(self.driven.outing, tuple(self.feet))

    @property
    def tells(self) -> bool:
        """Whether this is a moment of which a row is told."""
        return len(self.feet) % EVERY == 0

    @property
    def row(self) -> Told:
        """What the drive comes to now."""
        return _wire(row_of(self.driven, self.now))

    def step(self, foot: Foot) -> None:
        """Go one step on."""
        if len(self.feet) >= LONGEST:
            raise RangeError(f"drive must have at most {LONGEST} steps, got more")
        self.now = onward(self.driven, self.now, foot)
        self.feet.append(foot)
        self.speeds.append(self.now.motion.speed)

    def seen(self, row: Row) -> Seen:
        """Return a moment of the drive, of which its row is known, and how it came to it."""
        steps = round(row.time / STEP)
        return Seen(self.driven, row, self.feet[:steps], self.speeds[: steps + 1])

    @property
    def told(self) -> dict[str, Any]:
        """How the drive stands: all that its picture takes."""
        row = row_of(self.driven, self.now)
        spoken = said(row)
        numbers = place(row, self._plunger).items()
        return {
            "now": _wire(row),
            "numbers": {name: round(value, 3) for name, value in numbers},
            "needles": needles(row),
            "foot": list(self.now.foot),
            "said": spoken.words,
            "alarm": spoken.alarm,
            "exhaust": spoken.exhaust,
            "steps": len(self.feet),
        }

    @property
    def _plunger(self) -> float:
        """How far the pump's plunger is down, share of its stroke."""
        return self.now.motion.pump.travel / self.driven.car.rig.pump.stroke


def _wire(row: Row) -> Told:
    """Return a row as the browser takes it."""
    return [float(f"{each:.6g}") for each in row]
