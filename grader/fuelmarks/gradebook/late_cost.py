"""What lateness takes from one submission, before and after the dates or the rule were changed."""

from dataclasses import dataclass
from datetime import timedelta

from fuelmarks.gradebook.lateness import lateness

__all__ = ["CostChange", "LateCost"]

ROUNDING = 1e-9


@dataclass(frozen=True)
class LateCost:
    """How late a submission is, the points that this takes, and those that were earned."""

    late: timedelta
    taken: float
    earned: float

    @property
    def words(self) -> str:
        """Return how late it is and what that takes."""
        taken = f"{self.taken:g}" if self.taken else "nothing"
        return f"{lateness(self.late)}: {taken} taken off"


@dataclass(frozen=True)
class CostChange:
    """What lateness took, and what it takes by now."""

    before: LateCost
    after: LateCost

    def __bool__(self) -> bool:
        """Say whether it takes other points than before."""
        return abs(self.after.taken - self.before.taken) > ROUNDING

    @property
    def words(self) -> str:
        """Return both, and both totals, as a sentence."""
        totals = " -> ".join(f"{one.earned - one.taken:g}" for one in (self.before, self.after))
        return f"{self.before.words} -> {self.after.words}; {totals}"
