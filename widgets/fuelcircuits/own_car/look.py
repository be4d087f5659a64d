"""A yes-or-no test: what it shows, how surely, how often it misleads, and what it can tell."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import log

from fuelcircuits.diagnosis.ranking import Weighed
from fuelcircuits.diagnosis.table import SEVERITIES, Row
from fuelcircuits.faults.second_barrel import PREFIX
from fuelcircuits.physics.numerics.linear import dot

__all__ = ["Look", "look_bits"]

_SLIGHT, _PLAIN = 0.1, 0.5
"""Severities up to which nobody sees it, and from which anybody does [1]."""


@dataclass(frozen=True)
class Look:
    """A yes-or-no test."""

    name: str
    """Words joined by hyphens."""
    label: str
    """The question, asked the way round in which people ask it."""
    how: str
    shows: Mapping[str, float] = field(repr=False)
    """Faults that make the answer `bad`, each with how surely a plain one does [1]."""
    misleads: float
    """How often it says so of a car that has none of these [1]."""
    minutes: float
    """What it takes [min]."""
    caution: str = ""
    needs: str = "nothing"
    """What one has to own for it."""
    bad: bool = True
    """The answer that a fault gives: yes, or no."""
    answered_by: tuple[str, ...] = ()
    """Readings that nobody could have taken had the answer been `bad`."""

    def yes(self, suspects: Sequence[str]) -> list[Row]:
        """Return how likely yes is for each suspect at each of `SEVERITIES` [1]."""
        bad = [min(max((one - _SLIGHT) / (_PLAIN - _SLIGHT), 0.0), 1.0) for one in SEVERITIES]
        sure = (self.shows.get(name.removeprefix(PREFIX), 0.0) for name in suspects)
        more = (max(one - self.misleads, 0.0) for one in sure)
        said = [[self.misleads + by * one for one in bad] for by in more]
        return said if self.bad else [[1.0 - one for one in row] for row in said]


def look_bits(weighed: Weighed, look: Look) -> float:
    r"""Return how much a look can be expected to tell [bit].

    .. math:: I = H(p) - \sum_s p_s H(p_{yes|s})

    References
    ----------
    C. E. Shannon, A mathematical theory of communication, 1948: mutual information.
    """
    shares, yes = weighed.shares, look.yes(weighed.table.suspects)
    both = list(map(dot, yes, weighed.likely))
    each = (one / max(share, 1e-300) for one, share in zip(both, shares, strict=True))
    return max(_entropy(sum(both)) - dot(shares, list(map(_entropy, each))), 0.0)


def _entropy(yes: float) -> float:
    """Return the entropy of a yes-or-no answer [bit]."""
    return sum(-part * log(part, 2) for part in (yes, 1.0 - yes) if part > 0)
