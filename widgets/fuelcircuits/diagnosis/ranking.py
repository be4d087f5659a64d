"""How likely each suspect is after what has been read, and whether any of them explains it."""

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.diagnosis.away import columns
from fuelcircuits.diagnosis.chance import allowed
from fuelcircuits.diagnosis.prior import prior
from fuelcircuits.diagnosis.table import SEVERITIES, Table
from fuelcircuits.errors import RangeError

__all__ = ["HEALTHY_SHARE", "Misfit", "Suspicion", "Weighed", "rank", "weigh"]

Floats = NDArray[np.float64]

HEALTHY_SHARE = 0.5
"""How likely it is, before anything is read, that the carburettor is as on its card [1]: half of
the complaints come from elsewhere (common practice, no source)."""


class Misfit(NamedTuple):
    """One reading, and by how many of its doubts it is off what the others make of it."""

    check: str
    by: float


class Suspicion(NamedTuple):
    """One suspect: how likely, how bad it would be, and how far its readings are off."""

    name: str
    probability: float
    severity: float
    misfit: float
    """Root mean square of (read less expected) over the doubt, at its best severity."""


class Weighed(NamedTuple):
    """All suspects of a table, weighed against some readings.

    Everything is in units of `unit`, so that pascals and cubic metres can stand in one matrix.
    Axes: suspect, severity, and then one or two of readings.
    """

    table: Table
    columns: list[int]
    unit: Floats  # SI, of each check of the table
    leeway: Floats  # of the checks of the table, by what the card may be off
    off: Floats  # read less expected
    inverse: Floats  # of the covariance of that
    likely: Floats  # probability of each suspect at each severity

    @property
    def squares(self) -> Floats:
        """Return the squared misfit, readings weighed as they hang together [1]."""
        found = np.einsum("ski,skij,skj->sk", self.off, self.inverse, self.off)
        return np.asarray(np.where(np.isfinite(found), found, np.inf))

    @property
    def explained(self) -> bool:
        """Whether some suspect explains all readings within their doubt."""
        return bool(np.min(self.squares, initial=np.inf) <= allowed(len(self.columns)))

    def explains(self, name: str) -> bool:
        """Return whether a suspect explains all readings within their doubt."""
        at = self.table.suspects.index(name)
        return bool(np.min(self.squares[at]) <= allowed(len(self.columns)))

    def misfits(self, name: str) -> list[Misfit]:
        """Return how far each reading is off what a suspect at its best and the others make of it.

        The furthest comes first.
        """
        at = self.table.suspects.index(name)
        by = self._by()[at, int(np.argmin(self.squares[at]))]
        found = [
            Misfit(self.table.checks[column].name, float(one))
            for column, one in zip(self.columns, by, strict=True)
        ]
        return sorted(found, key=lambda one: -abs(one.by))

    def again(self) -> str:
        """Return the reading without which some suspect would fit the others best."""
        without = self.squares[..., None] - self._by() ** 2
        best = np.min(np.where(np.isnan(without), np.inf, without), axis=(0, 1))
        return self.table.checks[self.columns[int(np.argmin(best))]].name

    def _by(self) -> Floats:
        """Return how far each reading is off what the others make of it [1].

        Leaving a reading out lowers the squared misfit by the square of this: first principles,
        block inversion of the covariance.
        """
        pull = np.einsum("skij,skj->ski", self.inverse, self.off)
        return np.asarray(pull / np.sqrt(np.diagonal(self.inverse, axis1=-2, axis2=-1)))


def weigh(
    table: Table,
    readings: Mapping[str, float],
    leeway: Floats | None = None,
    *,
    healthy: float = HEALTHY_SHARE,
    doubt: float = 1.0,
    rough: float = 0.0,
    seen: Floats | None = None,
) -> Weighed:
    r"""Return the suspects, weighed against what has been read.

    .. math:: p_{s,k} \propto \pi_s \exp\left(-\tfrac12\, r^T C^{-1} r\right) |C|^{-1/2},
              \qquad C = \mathrm{diag}(u_{s,k}^2 + \rho^2 (m_{s,k} - m_0)^2) + L

    with r the readings less those m expected of suspect s at severity k, u the doubt of gauge and
    model, :math:`\rho` that of how far a fault moves a reading, and L what the card leaves open.

    Parameters
    ----------
    table
        What the suspects would show.
    readings
        What was read, by the check's name [SI]. Without any, only the prior speaks.
    leeway
        L: covariance of the table's checks by what the card may be off [SI]; none if not given.
    healthy
        Prior probability that nothing is wrong, where that is a suspect [1]; the others share
        the rest as `prior` says.
    doubt
        What every u is multiplied by [1].
    rough
        Doubt of how far a fault moves a reading from where the first suspect has it, as a part
        of that [1].
    seen
        Logarithm of how likely each suspect at each severity makes what was seen without a
        gauge; nothing was if not given.

    Raises
    ------
    RangeError
        If a check is not in the table, a reading is no finite number, or no suspect can have
        a state in which these checks are read.

    References
    ----------
    Bayes' rule with normal errors; first principles.
    """
    made = columns(table, readings)
    value = np.array(list(readings.values()), dtype=float)
    mean = np.array(table.expected, dtype=float)
    unit = np.array([_unit(table, readings, at) for at in range(len(table.checks))])
    apart = np.zeros((len(unit),) * 2) if leeway is None else leeway / np.outer(unit, unit)
    off = (value - mean[:, :, made]) / unit[made]
    moved = rough * (mean - mean[:1, :1])
    spread = np.hypot(doubt * _doubt(table, mean), moved)[:, :, made] / unit[made]
    there = np.isfinite(off).all(axis=-1)
    spread = np.where(np.isfinite(spread), spread, 1.0)
    covariance = spread[..., None] ** 2 * np.eye(len(made)) + apart[np.ix_(made, made)]
    inverse: Floats = np.asarray(np.linalg.inv(covariance), dtype=float)
    squares = np.einsum("ski,skij,skj->sk", off, inverse, off)
    score = -0.5 * (squares + np.linalg.slogdet(covariance)[1]) + _prior(table, healthy)[:, None]
    score = np.where(there, score + (0.0 if seen is None else seen), -np.inf)
    if not np.isfinite(score.max()):
        raise RangeError(f"readings must fit some suspect, got {dict(readings)}")
    likely = np.exp(score - score.max())
    return Weighed(table, made, unit, apart, off, inverse, likely / likely.sum())


def rank(weighed: Weighed) -> list[Suspicion]:
    """Return the suspects, the likeliest first; their probabilities add up to 1."""
    squares, count = weighed.squares, max(len(weighed.columns), 1)
    found = [
        Suspicion(
            name,
            float(row.sum()),
            float(row @ np.array(SEVERITIES) / max(row.sum(), 1e-300)),
            float(np.sqrt(squares[at].min() / count)),
        )
        for at, (name, row) in enumerate(zip(weighed.table.suspects, weighed.likely, strict=True))
    ]
    return sorted(found, key=lambda one: -one.probability)


def _unit(table: Table, readings: Mapping[str, float], at: int) -> float:
    """Return what a check is measured in: the doubt of its reading, or of the first suspect's."""
    check = table.checks[at]
    expected = np.array(table.expected, dtype=float)[:, :, at]
    usual = expected[np.isfinite(expected)]
    return check.uncertainty(readings.get(check.name, usual[0] if usual.size else 0.0))


def _doubt(table: Table, mean: Floats) -> Floats:
    """Return the doubt of gauge and model at every reading that is to be expected [SI]."""
    floor = np.array([check.floor for check in table.checks])
    share = np.array([check.share for check in table.checks])
    return np.asarray(np.hypot(floor, share * mean))


def _prior(table: Table, healthy: float) -> Floats:
    """Return the logarithm of how likely each suspect is beforehand."""
    return np.asarray(np.log(prior(table.suspects, healthy)))
