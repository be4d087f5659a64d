"""How much a check can be expected to tell, before it is made."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping
from itertools import pairwise
from math import exp, isfinite, log2, pi, sqrt
from typing import NamedTuple

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.ranking import Weighed
from fuelcircuits.diagnosis.table import Row
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.numerics.linear import dot

__all__ = ["Worth", "worth"]

_POINTS = 400
_REACH = 5.0  # doubts beyond the outermost reading that is to be expected
_OFFSETS = linspace(-_REACH, _REACH, 41)
_SEEN = 1e-9  # share of a reading that is looked at more closely
_COUNTED, _FAR = 1e-17, 8.5  # share and doubts beyond which nothing is left of 16 digits


class Worth(NamedTuple):
    """One check: the bits it can be expected to tell, and the bits a minute."""

    check: Check
    bits: float

    @property
    def per_minute(self) -> float:
        """Bits for a minute's work."""
        return self.bits / self.check.minutes


class _Bell(NamedTuple):
    """A reading that is to be expected, in the check's unit."""

    mean: float
    doubt: float


Bells = dict[_Bell, float]
"""Readings that one suspect may show, each with its probability."""


def worth(weighed: Weighed) -> list[Worth]:
    r"""Return the checks not yet made, the one that tells most a minute first.

    .. math:: I = \sum_s p_s \int p(y|s) \log_2 \frac{p(y|s)}{p(y)}\,\mathrm{d}y

    Parameters
    ----------
    weighed
        The suspects after what has been read.

    Returns
    -------
    list of Worth
        Bits between nothing and the logarithm of the number of suspects [1].

    References
    ----------
    C. E. Shannon, A mathematical theory of communication, 1948: mutual information.
    """
    further = [at for at in range(len(weighed.table.checks)) if at not in weighed.columns]
    found = [Worth(weighed.table.checks[at], bits(weighed, at)) for at in further]
    return sorted(found, key=lambda one: -one.per_minute)


def bits(weighed: Weighed, at: int) -> float:
    """Return the mutual information between suspect and the reading of a check [bit].

    Parameters
    ----------
    weighed
        The suspects after what has been read.
    at
        Where the check stands in the table.
    """
    suspects = [_foreseen(weighed, at, suspect) for suspect in range(len(weighed.likely))]
    total = sum(sum(bells.values()) for bells in suspects)
    if not total > 0:
        return 0.0
    places = _places(bell for bells in suspects for bell, share in bells.items() if share > _SEEN)
    joint = [_density(bells, total, places) for bells in suspects]
    own = _summed(joint)
    told = _summed(
        _told(row, own, sum(bells.values()) / total)
        for row, bells in zip(joint, suspects, strict=True)
    )
    return max(_area(places, told), 0.0)


def _foreseen(weighed: Weighed, at: int, suspect: int) -> Bells:
    """Return what a suspect may show at a check, alike severities together.

    What has been read tells something of what the card left open: first principles, the normal
    distribution of one reading given others.
    """
    check, unit = weighed.table.checks[at], weighed.unit[at]
    tied, own = [weighed.leeway[at][column] for column in weighed.columns], weighed.leeway[at][at]
    found: Bells = {}
    for k, share in enumerate(weighed.likely[suspect]):
        mean = weighed.table.expected[suspect][k][at]
        drawn = [dot(tied, column) for column in weighed.inverse[suspect][k]]
        shifted = mean / unit + dot(drawn, weighed.off[suspect][k])
        if isfinite(shifted):
            left = max(own - dot(drawn, tied), 0.0)
            bell = _Bell(shifted, sqrt((check.uncertainty(mean) / unit) ** 2 + left))
            found[bell] = found.get(bell, 0.0) + share
    return found


def _density(bells: Mapping[_Bell, float], total: float, places: Row) -> Row:
    """Return how likely suspect and reading are together, at each place."""
    found = [0.0] * len(places)
    for (mean, doubt), share in bells.items():
        if share > _COUNTED:
            height, bend = share / total / doubt / sqrt(2 * pi), -0.5 / doubt**2
            near = slice(
                bisect_left(places, mean - _FAR * doubt), bisect_right(places, mean + _FAR * doubt)
            )
            found[near] = [
                one + height * exp(bend * (off := place - mean) * off)
                for one, place in zip(found[near], places[near], strict=True)
            ]
    return found


def _told(joint: Row, own: Row, share: float) -> Row:
    """Return what each reading tells of a suspect, weighed by how likely both are [bit]."""
    return [
        both * log2(both / expected) if both > 0 and (expected := share * one) > 0 else 0.0
        for both, one in zip(joint, own, strict=True)
    ]


def _summed(rows: Iterable[Row]) -> Row:
    """Return the sum of rows, place by place."""
    return list(map(sum, zip(*rows, strict=True)))


def _area(places: Row, heights: Row) -> float:
    """Return the area below straight lines between heights."""
    steps = zip(pairwise(places), pairwise(heights), strict=True)
    return sum((after - before) * (low + high) / 2 for (before, after), (low, high) in steps)


def _places(bells: Iterable[_Bell]) -> Row:
    """Return readings to integrate over: dense near every reading that is to be expected."""
    near = sorted({mean + doubt * offset for mean, doubt in bells for offset in _OFFSETS})
    if len(near) <= _POINTS:
        return near
    return [_quantile(near, share) for share in linspace(0.0, 1.0, _POINTS)]


def _quantile(rising: Row, share: float) -> float:
    """Return the number below which a share of rising numbers lies, by straight lines between."""
    at = share * (len(rising) - 1)
    low = min(int(at), len(rising) - 2)
    return rising[low] + (at - low) * (rising[low + 1] - rising[low])
