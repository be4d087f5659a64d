"""How likely each suspect is, after what has been read."""

from collections.abc import Mapping
from math import exp, inf, isfinite, isnan, log, sqrt
from typing import NamedTuple

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.table import SEVERITIES, Row, Table
from fuelcircuits.errors import RangeError

__all__ = ["Suspicion", "away", "rank", "weights"]


class Suspicion(NamedTuple):
    """One suspect: how likely, how bad it would be, and how far its readings are off."""

    name: str
    probability: float
    severity: float
    misfit: float
    """Root mean square of (read less expected) over the standard uncertainty, at its best."""


def weights(table: Table, readings: Mapping[str, float]) -> list[list[float]]:
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
    list of list of float
        A row for each suspect, a number for each severity.

    Raises
    ------
    RangeError
        If a check is not in the table, a reading is no finite number, or no suspect can have
        a state in which these checks are read.

    References
    ----------
    Bayes' rule with normal errors; first principles.
    """
    scores = _scores(table, readings)
    best = max(map(max, scores))
    if not isfinite(best):
        raise RangeError(f"readings must fit some suspect, got {dict(readings)}")
    likely = [[exp(score - best) for score in row] for row in scores]
    whole = sum(map(sum, likely))
    return [[each / whole for each in row] for row in likely]


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
    likely, off = weights(table, readings), away(table, readings)
    found = [
        Suspicion(name, sum(row), _mean_severity(row), min(map(_root_mean_square, far)))
        for name, row, far in zip(table.suspects, likely, off, strict=True)
    ]
    return sorted(found, key=lambda one: -one.probability)


def away(table: Table, readings: Mapping[str, float]) -> list[list[Row]]:
    """Return by how many uncertainties each suspect is off at each reading.

    A row for each suspect and severity, as in the table; infinite where the suspect has no state
    to be read in. Raises `RangeError` if a check is not in the table, or a reading is no finite
    number.
    """
    made = _made(table, readings)
    return [
        [[_off(check, row[at], value) for at, check, value in made] for row in rows]
        for rows in table.expected
    ]


def _made(table: Table, readings: Mapping[str, float]) -> list[tuple[int, Check, float]]:
    """Return column, check and value of each reading."""
    known = [check.name for check in table.checks]
    for name, value in readings.items():
        if name not in known:
            raise RangeError(f"check must be one of {', '.join(known)}, got {name!r}")
        if not isfinite(value):
            raise RangeError(f"{name} must be a finite number, got {value}")
    columns = [known.index(name) for name in readings]
    return [(at, table.checks[at], readings[known[at]]) for at in columns]


def _off(check: Check, expected: float, value: float) -> float:
    return inf if isnan(expected) else (value - expected) / check.uncertainty(expected)


def _scores(table: Table, readings: Mapping[str, float]) -> list[list[float]]:
    """Return the logarithm of each likelihood, less a constant."""
    made = _made(table, readings)
    return [[_score(row, made) for row in rows] for rows in table.expected]


def _score(row: Row, made: list[tuple[int, Check, float]]) -> float:
    score = 0.0
    for at, check, value in made:
        if isnan(row[at]):
            return -inf
        score -= 0.5 * _off(check, row[at], value) ** 2 + log(check.uncertainty(row[at]))
    return score


def _mean_severity(likely: list[float]) -> float:
    """Return the severity to expect, by how likely each of `SEVERITIES` is."""
    weighed = sum(each * bad for each, bad in zip(likely, SEVERITIES, strict=True))
    return weighed / max(sum(likely), 1e-300)


def _root_mean_square(off: Row) -> float:
    return sqrt(sum(each**2 for each in off) / len(off)) if off else 0.0
