"""A check: something that can be read on a car, what it costs, and how well it can be read."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from math import hypot

from fuelcircuits.diagnosis.subject import Subject
from fuelcircuits.physics.network.rig import Rig

__all__ = ["ENGINE_RUNS", "PETROL_OPEN", "Check", "minutes_of"]

ENGINE_RUNS = "Engine runs: keep clear of fan and belts, lead the exhaust outside."
PETROL_OPEN = "Open petrol: no flame, no spark, moving air, an extinguisher within reach."


@dataclass(frozen=True)
class Check:
    """One reading; `floor` and `share` make up its standard uncertainty.

    The uncertainty covers the gauge and what the model leaves out; both, and the minutes, are
    common practice, no source.
    """

    name: str
    """Words joined by hyphens."""
    label: str
    """What is read, for people."""
    unit: str
    """The unit people read it in."""
    low: float
    """The least that can be believed, in that unit; common practice, no source."""
    high: float
    """The most."""
    minutes: float
    """Time in the shop [min]."""
    floor: float
    """Standard uncertainty that is always there [SI]."""
    read: Callable[[Subject], float] = field(repr=False)
    """The reading of a subject [SI]."""
    share: float = 0.0
    """Standard uncertainty as a part of the reading [1]."""
    needs: tuple[str, ...] = ()
    """Sections of the card that it needs."""
    caution: str = ""
    """What can hurt while it is read."""
    opening: str = ""
    """What is opened or taken off for it; checks that share it do so once."""
    slow: bool = False
    """Whether the model takes its time to work it out for every suspect."""

    def fits(self, rig: Rig) -> bool:
        """Return whether the rig has the parts that this check is read on."""
        return all(getattr(rig, name) is not None for name in self.needs)

    def uncertainty(self, reading: float) -> float:
        """Return the standard uncertainty of a reading [SI]."""
        return hypot(self.floor, self.share * reading)


def minutes_of(checks: Iterable[Check]) -> float:
    """Return the minutes of some checks one after another.

    What one of them has opened is open for the others: those that share an opening take as long as
    the longest of them (common practice, no source).
    """
    longest: dict[str, float] = {}
    for check in checks:
        opened = check.opening or check.name
        longest[opened] = max(check.minutes, longest.get(opened, 0.0))
    return sum(longest.values())
