"""How likely each suspect is after what has been read, and whether any of them explains it."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from math import exp, inf, isfinite, log, sqrt
from typing import NamedTuple

from fuelcircuits.diagnosis.away import columns
from fuelcircuits.diagnosis.chance import allowed
from fuelcircuits.diagnosis.held import Gauge, Rows, held
from fuelcircuits.diagnosis.prior import prior
from fuelcircuits.diagnosis.table import SEVERITIES, Row, Table
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.numerics.linear import dot

__all__ = ["HEALTHY_SHARE", "Misfit", "Suspicion", "Weighed", "rank", "weigh"]

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
    Lists go by suspect, severity, and then one or two of readings.
    """

    table: Table
    columns: list[int]
    unit: Row  # SI, of each check of the table
    leeway: Rows  # of the checks of the table, by what the card may be off
    off: list[Rows]  # read less expected
    inverse: list[list[Rows]]  # of the covariance of that
    squares: Rows  # squared misfit, readings weighed as they hang together; infinite if none
    likely: Rows  # probability of each suspect at each severity

    @property
    def shares(self) -> Row:
        """Return the probability of each suspect [1]."""
        return [sum(row) for row in self.likely]

    @property
    def explained(self) -> bool:
        """Whether some suspect explains all readings within their doubt."""
        return min(map(min, self.squares)) <= allowed(len(self.columns))

    def explains(self, name: str) -> bool:
        """Return whether a suspect explains all readings within their doubt."""
        at = self.table.suspects.index(name)
        return min(self.squares[at]) <= allowed(len(self.columns))

    def misfits(self, name: str) -> list[Misfit]:
        """Return how far each reading is off what a suspect at its best and the others make of it.

        The furthest comes first.
        """
        at = self.table.suspects.index(name)
        best = self.squares[at].index(min(self.squares[at]))
        pairs = zip(self.columns, self._by(at, best), strict=True)
        found = [Misfit(self.table.checks[column].name, by) for column, by in pairs]
        return sorted(found, key=lambda one: -abs(one.by))

    def again(self) -> str:
        """Return the reading without which some suspect would fit the others best."""
        left = [inf] * len(self.columns)
        for at, row in enumerate(self.squares):
            for k, square in enumerate(row):
                if isfinite(square):
                    without = (square - by**2 for by in self._by(at, k))
                    left = list(map(min, left, without))
        return self.table.checks[self.columns[left.index(min(left))]].name

    def among(self, names: Collection[str]) -> "Weighed":
        """Return the same as if it were certain that one of these suspects is right."""
        kept = [
            [one * (name in names) for one in row]
            for name, row in zip(self.table.suspects, self.likely, strict=True)
        ]
        whole = sum(map(sum, kept))
        return self._replace(likely=[[one / whole for one in row] for row in kept])

    def _by(self, at: int, k: int) -> Row:
        """Return how far each reading is off what the others make of it [1].

        Leaving a reading out lowers the squared misfit by the square of this: first principles,
        block inversion of the covariance.
        """
        rows, off = self.inverse[at][k], self.off[at][k]
        return [dot(row, off) / sqrt(row[i]) for i, row in enumerate(rows)]


def weigh(
    table: Table,
    readings: Mapping[str, float],
    leeway: Sequence[Sequence[float]] | None = None,
    *,
    healthy: float = HEALTHY_SHARE,
    doubt: float = 1.0,
    rough: float = 0.0,
    seen: Sequence[Sequence[float]] | None = None,
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
    unit = [_unit(table, readings, at) for at in range(len(table.checks))]
    apart = _in_units(leeway, unit)
    gauges = [
        Gauge(table.checks[at], at, value, unit[at], doubt, rough, table.expected[0][0][at])
        for at, value in zip(made, readings.values(), strict=True)
    ]
    tied = [[apart[i][k] for k in made] for i in made]
    each = [[held(gauges, tied, row) for row in rows] for rows in table.expected]
    prior = _prior(table, healthy)
    score = [[at + one.score for one in row] for at, row in zip(prior, each, strict=True)]
    if seen is not None:
        score = [list(map(sum, zip(*both, strict=True))) for both in zip(score, seen, strict=True)]
    if not isfinite(max(map(max, score))):
        raise RangeError(f"readings must fit some suspect, got {dict(readings)}")
    return Weighed(
        *(table, made, unit, apart),
        off=[[one.off for one in row] for row in each],
        inverse=[[one.inverse for one in row] for row in each],
        squares=[[one.square for one in row] for row in each],
        likely=_shared(score),
    )


def rank(weighed: Weighed) -> list[Suspicion]:
    """Return the suspects, the likeliest first; their probabilities add up to 1."""
    count = max(len(weighed.columns), 1)
    found = [
        Suspicion(
            *(name, share, dot(row, SEVERITIES) / max(share, 1e-300)),
            sqrt(min(squares) / count),
        )
        for name, share, row, squares in zip(
            *(weighed.table.suspects, weighed.shares, weighed.likely, weighed.squares), strict=True
        )
    ]
    return sorted(found, key=lambda one: -one.probability)


def _shared(score: Rows) -> Rows:
    """Return probabilities that add up to 1, from their logarithms less something."""
    most = max(map(max, score))
    parts = [[exp(one - most) for one in row] for row in score]
    whole = sum(map(sum, parts))
    return [[one / whole for one in row] for row in parts]


def _in_units(leeway: Sequence[Sequence[float]] | None, unit: Row) -> Rows:
    """Return a covariance in units of the checks; nothing is open if there is none."""
    if leeway is None:
        return [[0.0] * len(unit) for _ in unit]
    return [
        [one / (first * second) for one, second in zip(row, unit, strict=True)]
        for row, first in zip(leeway, unit, strict=True)
    ]


def _unit(table: Table, readings: Mapping[str, float], at: int) -> float:
    """Return what a check is measured in: the doubt of its reading, or of the first suspect's."""
    check = table.checks[at]
    usual = next(_readable(table, at), 0.0)
    return check.uncertainty(readings.get(check.name, usual))


def _readable(table: Table, at: int) -> Iterator[float]:
    """Yield what a check is expected to read, wherever it can be read."""
    return (row[at] for rows in table.expected for row in rows if isfinite(row[at]))


def _prior(table: Table, healthy: float) -> Row:
    """Return the logarithm of how likely each suspect is beforehand."""
    return [log(one) if one else -inf for one in prior(table.suspects, healthy)]
