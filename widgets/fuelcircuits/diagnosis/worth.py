"""How much a check can be expected to tell, before it is made."""

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.ranking import weights
from fuelcircuits.diagnosis.table import Table

__all__ = ["Worth", "worth"]

Floats = NDArray[np.float64]
_POINTS = 400
_REACH = 5.0  # standard uncertainties beyond the outermost reading that is to be expected


class Worth(NamedTuple):
    """One check: the bits it can be expected to tell, and the bits a minute."""

    check: Check
    bits: float

    @property
    def per_minute(self) -> float:
        """Bits for a minute's work."""
        return self.bits / self.check.minutes


def worth(table: Table, readings: Mapping[str, float]) -> list[Worth]:
    r"""Return the checks not yet made, the one that tells most a minute first.

    .. math:: I = \sum_s p_s \int p(y|s) \log_2 \frac{p(y|s)}{p(y)}\,\mathrm{d}y

    Parameters
    ----------
    table, readings
        As for `fuelcircuits.diagnosis.ranking.weights`.

    Returns
    -------
    list of Worth
        Bits between nothing and the logarithm of the number of suspects [1].

    Raises
    ------
    RangeError
        As for `weights`.

    References
    ----------
    C. E. Shannon, A mathematical theory of communication, 1948: mutual information.
    """
    likely, means = np.array(weights(table, readings)), np.array(table.expected)
    found = [
        Worth(check, _bits(check, means[:, :, column], likely))
        for column, check in enumerate(table.checks)
        if check.name not in readings
    ]
    return sorted(found, key=lambda one: -one.per_minute)


def _bits(check: Check, mean: Floats, likely: Floats) -> float:
    """Return the mutual information between suspect and reading [bit]."""
    doubt = np.hypot(check.floor, check.share * mean)
    counted = np.where(np.isfinite(mean), likely, 0.0)
    if not counted.sum() > 0:
        return 0.0
    mean, doubt = np.nan_to_num(mean), np.where(np.isfinite(doubt), doubt, 1.0)
    places = _places(mean[counted > 1e-9], doubt[counted > 1e-9])
    shape = np.exp(-0.5 * ((places - mean[..., None]) / doubt[..., None]) ** 2)
    joint = np.einsum("sk,skp->sp", counted / counted.sum() / doubt, shape) / np.sqrt(2 * np.pi)
    own = joint.sum(axis=0)
    shares = counted.sum(axis=1, keepdims=True) / counted.sum()
    with np.errstate(divide="ignore", invalid="ignore"):
        told = np.where(joint > 0, joint * np.log2(joint / (shares * own)), 0.0)
    return max(float(np.trapezoid(told.sum(axis=0), places)), 0.0)


def _places(mean: Floats, doubt: Floats) -> Floats:
    """Return readings to integrate over: dense near every reading that is to be expected."""
    offsets = np.linspace(-_REACH, _REACH, 41)
    near = np.unique((mean[:, None] + doubt[:, None] * offsets).ravel())
    if near.size <= _POINTS:
        return near
    return np.asarray(np.quantile(near, np.linspace(0.0, 1.0, _POINTS)))
