"""How much a check can be expected to tell, before it is made."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.ranking import Weighed

__all__ = ["Worth", "worth"]

Floats = NDArray[np.float64]
_POINTS = 400
_REACH = 5.0  # doubts beyond the outermost reading that is to be expected


class Worth(NamedTuple):
    """One check: the bits it can be expected to tell, and the bits a minute."""

    check: Check
    bits: float

    @property
    def per_minute(self) -> float:
        """Bits for a minute's work."""
        return self.bits / self.check.minutes


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
    found = [
        Worth(weighed.table.checks[at], _bits(*_foreseen(weighed, at), weighed.likely))
        for at in further
    ]
    return sorted(found, key=lambda one: -one.per_minute)


def _foreseen(weighed: Weighed, at: int) -> tuple[Floats, Floats]:
    """Return mean and doubt of a check for each suspect and severity, in its unit.

    What has been read tells something of what the card left open: first principles, the normal
    distribution of one reading given others.
    """
    check, unit = weighed.table.checks[at], weighed.unit[at]
    mean = np.array(weighed.table.expected, dtype=float)[:, :, at]
    gauge = np.hypot(check.floor, check.share * mean) / unit
    tied, own = weighed.leeway[at, weighed.columns], weighed.leeway[at, at]
    drawn = np.einsum("i,skij->skj", tied, weighed.inverse)
    shift = np.einsum("skj,skj->sk", drawn, weighed.off)
    left = np.maximum(own - drawn @ tied, 0.0)
    return np.asarray(mean / unit + shift), np.asarray(np.sqrt(gauge**2 + left))


def _bits(mean: Floats, doubt: Floats, likely: Floats) -> float:
    """Return the mutual information between suspect and reading [bit]."""
    counted = np.where(np.isfinite(mean), likely, 0.0)
    if not counted.sum() > 0:
        return 0.0
    mean, doubt = np.nan_to_num(mean), np.where(np.isfinite(doubt), doubt, 1.0)
    places = _places(mean[counted > 1e-9], doubt[counted > 1e-9])
    shape = np.exp(-0.5 * ((places - mean[..., None]) / doubt[..., None]) ** 2)
    joint = np.einsum("sk,skp->sp", counted / counted.sum() / doubt, shape) / np.sqrt(2 * np.pi)
    own = joint.sum(axis=0)
    shares = counted.sum(axis=1, keepdims=True) / counted.sum()
    expected = np.broadcast_to(shares * own, joint.shape)
    there = (joint > 0) & (expected > 0)
    told = np.zeros_like(joint)
    told[there] = joint[there] * np.log2(joint[there] / expected[there])
    return max(float(np.trapezoid(told.sum(axis=0), places)), 0.0)


def _places(mean: Floats, doubt: Floats) -> Floats:
    """Return readings to integrate over: dense near every reading that is to be expected."""
    offsets = np.linspace(-_REACH, _REACH, 41)
    near = np.unique((mean[:, None] + doubt[:, None] * offsets).ravel())
    if near.size <= _POINTS:
        return near
    return np.asarray(np.quantile(near, np.linspace(0.0, 1.0, _POINTS)))
