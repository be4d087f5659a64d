"""What is known about an owner's car once its readings have been weighed."""

from collections.abc import Mapping
from typing import NamedTuple

from fuelcircuits.diagnosis.ranking import Suspicion, Weighed
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.diagnosis.worth import Worth
from fuelcircuits.own_car.doubtful import Correction
from fuelcircuits.own_car.healthy import Healthy
from fuelcircuits.own_car.tools import Step

__all__ = ["Band", "Findings"]


class Band(NamedTuple):
    """Least and most of a probability, as far as prior and doubts can be argued about [1]."""

    least: float
    most: float


class Findings(NamedTuple):
    """The card, the readings, and what they say."""

    card: Healthy
    weighed: Weighed
    readings: Mapping[str, float]
    """By the check's name [SI]."""
    suspicions: list[Suspicion]
    """The likeliest first; their probabilities add up to 1."""
    bands: Mapping[str, Band]
    seen: Mapping[str, bool]
    """What was seen without a gauge, by the look's name."""
    hidden: tuple[str, ...]
    """Faults that none of these readings would show."""
    mendings: list[Correction]
    """The least changes that make the card as entered one of a healthy engine, if it is none."""
    corrections: list[Correction]
    """The least changes of the card after which nothing need be wrong, if any is needed."""
    next_checks: list[Worth]
    """Readings not yet taken, with what each can be expected to tell."""
    steps: list[Step]
    """Readings and looks that could come next, most for their cost first."""

    @property
    def explained(self) -> bool:
        """Whether anything on the list explains all readings within their doubt."""
        return self.weighed.explained

    @property
    def healthy(self) -> bool:
        """Whether all is as on the card, as far as these readings can see."""
        if not self.weighed.explains(HEALTHY):
            return False
        nothing = (HEALTHY, *self.hidden)
        seen = [one.probability for one in self.suspicions if one.name not in nothing]
        whole = sum(self.likely(name) for name in nothing)
        return whole > 0.5 or self.likely(HEALTHY) > max(seen, default=0.0)

    def likely(self, name: str) -> float:
        """Return how likely a suspect is [1]."""
        return next(one.probability for one in self.suspicions if one.name == name)

    @property
    def most_telling(self) -> Step | None:
        """The step that tells most, where the first tells less than half of that."""
        most = max(self.steps, key=lambda one: one.bits, default=None)
        return most if most and self.steps[0].bits < 0.5 * most.bits else None
