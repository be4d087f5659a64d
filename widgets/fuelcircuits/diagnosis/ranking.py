"""How likely each suspect is, after what has been read."""

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.diagnosis.table import SEVERITIES, Table
from fuelcircuits.errors import RangeError

__all__ = ["Suspicion", "away", "rank", "weights"]

Floats = NDArray[np.float64]


class Suspicion(NamedTuple):
    """One suspect: how likely, how bad it would be, and how far its readings are off."""

    name: str
    probability: float
    severity: float
    misfit: float
    """Root mean square of (read less expected) over the standard uncertainty, at its best."""


def weights(table: Table, readings: Mapping[str, float]) -> Floats:
    r"""Return the probability of each suspect at each severity; they add up to 1.

    .. math:: p_{s,k} \propto \exp\left(-\tfrac12 \sum_i
              \left(\frac{y_i - m_{s,k,i}}{u_{s,k,i}}\right)^2\right) \prod_i \frac1{u_{s,k,i}}

    Parameters
    ----------
    table
        What the suspects would show.
    readings
        What was read, by the check's name [SI]. Without any, all suspects are alike.

    Returns
    -------
    numpy.ndarray
        Shape (suspects, severities).

    Raises
    ------
    RangeError
        If a check is not in the table, a reading is no finite number, or no suspect can have
        a state in which these checks are read.

    References
    ----------
    Bayes' rule with normal errors; first principles.
    """
    score = _score(table, readings)
    if not np.any(np.isfinite(score)):
        raise RangeError(f"readings must fit some suspect, got {dict(readings)}")
    likely = np.exp(score - score.max())
    return np.asarray(likely / likely.sum())


def rank(table: Table, readings: Mapping[str, float]) -> list[Suspicion]:
    """Return the suspects, the likeliest first.

    Parameters
    ----------
    table, readings
        As for `weights`.

    Returns
    -------
    list of Suspicion
        All suspects; the probabilities add up to 1.

    Raises
    ------
    RangeError
        As for `weights`.
    """
    likely = weights(table, readings)
    misfit = _misfit(table, readings).min(axis=1)
    severity = likely @ SEVERITIES / np.maximum(likely.sum(axis=1), 1e-300)
    order = np.argsort(-likely.sum(axis=1), kind="stable")
    return [
        Suspicion(table.suspects[s], float(likely[s].sum()), float(severity[s]), float(misfit[s]))
        for s in order
    ]


def away(table: Table, readings: Mapping[str, float]) -> tuple[Floats, Floats]:
    """Return how far each suspect is off at each reading, in uncertainties, and these.

    Both have the shape (suspects, severities, readings). Raises `RangeError` if a check is not
    in the table, or a reading is no finite number.
    """
    known = [check.name for check in table.checks]
    for name, value in readings.items():
        if name not in known:
            raise RangeError(f"check must be one of {', '.join(known)}, got {name!r}")
        if not np.isfinite(value):
            raise RangeError(f"{name} must be a finite number, got {value}")
    columns = [table.column(name) for name in readings]
    doubt = table.doubt[:, :, columns]
    off = np.array(list(readings.values())) - table.expected[:, :, columns]
    return off / doubt, doubt


def _score(table: Table, readings: Mapping[str, float]) -> Floats:
    """Return the logarithm of the likelihood, less a constant."""
    off, doubt = away(table, readings)
    score = -0.5 * np.sum(off**2, axis=-1) - np.sum(np.log(doubt), axis=-1)
    return np.asarray(np.where(np.isnan(score), -np.inf, score))


def _misfit(table: Table, readings: Mapping[str, float]) -> Floats:
    off, _ = away(table, readings)
    if not readings:
        return np.zeros(off.shape[:2])
    size = np.sqrt(np.mean(off**2, axis=-1))
    return np.asarray(np.where(np.isnan(size), np.inf, size))
