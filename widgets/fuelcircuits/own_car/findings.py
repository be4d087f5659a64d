"""What is known about an owner's car once its readings have been weighed."""

from collections.abc import Mapping, Sequence
from math import inf
from typing import NamedTuple

from fuelcircuits.diagnosis.pairs import Pair
from fuelcircuits.diagnosis.prior import prior
from fuelcircuits.diagnosis.ranking import HEALTHY_SHARE, Suspicion, Weighed
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.diagnosis.worth import Worth
from fuelcircuits.own_car.doubtful import Correction
from fuelcircuits.own_car.healthy import Healthy
from fuelcircuits.own_car.tools import Step

__all__ = ["NAMED", "Band", "Findings"]

PLAIN = 0.5
"""Probability from which a suspect is named as the likeliest [1]."""
POSITIVE = 3.0
"""Evidence from which it is worth more than a bare mention [1]; R. E. Kass, A. E. Raftery, Bayes
factors, J. Am. Stat. Assoc. 90, 1995."""

BARE = 1.5
"""Evidence from which it is worth that bare mention [1]; common practice, no source."""
NAMED = 4
"""How many outcomes a verdict names side by side, besides that nothing is wrong."""


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
    pairs: Sequence[Pair] = ()
    """Two suspects at once that explain the readings, where no single one does; the best first."""

    @property
    def explained(self) -> bool:
        """Whether anything on the list explains all readings within their doubt."""
        return self.weighed.explained

    @property
    def healthy(self) -> bool:
        """Whether all is as on the card, as far as these readings can see.

        It is likelier than any suspect, and no suspect that the readings can see speaks against it.
        """
        return self._leads and not self.rivals

    @property
    def verdict(self) -> str:
        """What it comes to: ``healthy``, ``fault``, ``open`` or ``nothing fits``."""
        if not self.explained:
            return "nothing fits"
        if self.healthy:
            return "healthy"
        first = self.fitting[0]
        return "fault" if first.name != HEALTHY and first.probability >= PLAIN else "open"

    @property
    def apart(self) -> list[str]:
        """Outcomes that the verdict leaves open side by side; the next step is to tell them apart.

        None if it leaves none so.
        """
        if self.verdict == "healthy":
            found = [HEALTHY, *self.mentioned]
        elif self.verdict == "open" and self.fitting[0].name == HEALTHY:
            found = [HEALTHY, *self.rivals[:NAMED]]
        else:
            found = [one.name for one in self.fitting[:NAMED] if self.verdict == "open"]
        return found if len(found) > 1 else []

    @property
    def fitting(self) -> list[Suspicion]:
        """Suspects that explain all readings within their doubt, the likeliest first."""
        return [one for one in self.suspicions if self.weighed.explains(one.name)]

    @property
    def rivals(self) -> list[str]:
        """Suspects that make these readings so much more readily that they cannot be left out.

        The one that the readings speak for most comes first.
        """
        return self._spoken_for(POSITIVE)

    @property
    def mentioned(self) -> list[str]:
        """Suspects that too little speaks for, and nothing rules out; the first few."""
        return self._spoken_for(BARE)[:NAMED]

    def _spoken_for(self, least: float) -> list[str]:
        names = [one.name for one in self.suspicions if one.name not in (HEALTHY, *self.hidden)]
        found = [name for name in names if self.evidence(name) >= least]
        return sorted(found, key=self.evidence, reverse=True)

    def evidence(self, name: str) -> float:
        r"""Return how many times as readily a suspect makes what was read as a healthy car [1].

        .. math:: B = \frac{p_s / \pi_s}{p_0 / \pi_0}

        with p after and :math:`\pi` before the readings: how likely one thought the suspect
        beforehand does not count in it.

        References
        ----------
        H. Jeffreys, Theory of probability, 1961: the factor that a prior is multiplied by.
        """
        names = [one.name for one in self.suspicions]
        shares = dict(zip(names, prior(names, HEALTHY_SHARE), strict=True))
        before, healthy = shares[name] / shares[HEALTHY], self.likely(HEALTHY)
        return self.likely(name) / (before * healthy) if healthy > 0 else inf

    @property
    def _leads(self) -> bool:
        """Whether that nothing is wrong explains the readings and is likelier than any suspect."""
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
