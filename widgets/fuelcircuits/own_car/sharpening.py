"""Which entries of a card would sharpen a report most, had somebody measured them."""

from collections.abc import Collection, Sequence

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.own_car.healthy import Healthy
from fuelcircuits.physics.numerics.linear import dot

__all__ = ["sharpening"]

SHARPENS = 0.03
"""Least share that measuring an entry takes of what is open, to be worth naming [1]; common
practice, no source."""


def sharpening(card: Healthy, checks: Sequence[Check], among: Collection[str]) -> list[str]:
    r"""Return entries not measured that would sharpen some checks, the best first.

    With g what a check hangs on a dial, by what is left open of all, and v what a measurement
    leaves of the dial beside what was assumed, it takes from the check's variance

    .. math:: \frac{g^2}{c_{kk} + v}, \qquad v = \frac{1}{(s / s_m)^2 - 1}

    with s and s_m the dial's share as assumed and as measured. Entries that take less than
    `SHARPENS` of all are left out.

    Parameters
    ----------
    card
        The card of the healthy car.
    checks
        What was read.
    among
        Entries that somebody can measure.

    References
    ----------
    The normal distribution of some quantities, one of them being measured: first principles.
    """
    slope, left = card.left_open(checks)
    rows = [
        [one / check.uncertainty(0.0) for one in row]
        for row, check in zip(slope, checks, strict=True)
    ]
    whole = sum(dot(row, [dot(row, line) for line in left]) for row in rows)
    gained = {}
    for k, dial in enumerate(card.free):
        if not dial.measured and dial.entry in among and dial.share > dial.measurable:
            pulled = [dot(row, [line[k] for line in left]) for row in rows]
            spare = 1.0 / ((dial.share / dial.measurable) ** 2 - 1.0)
            gained[dial.entry] = dot(pulled, pulled) / (left[k][k] + spare)
    order = sorted(gained, key=lambda entry: -gained[entry])
    return [entry for entry in order if gained[entry] >= SHARPENS * whole]
