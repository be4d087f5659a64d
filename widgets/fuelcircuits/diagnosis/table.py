"""What each suspect would show at each check, worked out by the model beforehand."""

from collections.abc import Iterable, Iterator, Sequence
from math import isnan, nan
from typing import NamedTuple

from fuelcircuits import faults
from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.march import March, finished
from fuelcircuits.diagnosis.subject import Subject, Warmed
from fuelcircuits.errors import CircuitError
from fuelcircuits.physics.numerics.interpolation import interpolate

__all__ = [
    "HEALTHY",
    "SEVERITIES",
    "SOLVED",
    "STEPS",
    "Row",
    "Table",
    "predict",
    "predicting",
    "spread",
]

Row = list[float]
"""A reading for each check [SI]."""

HEALTHY = "nothing-wrong"
"""The suspect that is no fault: a carburettor as on its card."""
SEVERITIES = tuple(tenths / 10 for tenths in range(1, 11))
"""How bad a suspect may be [1]; each is as likely as the next."""
SOLVED = (0.0, 0.3, 0.6, 1.0)
"""Severities at which the model is solved [1]; between them readings go in straight lines."""
STEPS = tuple(SEVERITIES.index(severity) for severity in SOLVED[1:])
"""Where these, but for none, stand among all."""


class Table(NamedTuple):
    """Readings to expect, for the suspects of one carburettor.

    A reading the model has no state for is not a number: such a suspect cannot be there while
    the engine can be read at all.
    """

    checks: tuple[Check, ...]
    suspects: tuple[str, ...]
    expected: list[list[Row]]
    """A row for each suspect and each of `SEVERITIES`."""

    def column(self, check: str) -> int:
        """Return where a check stands; raise `KeyError` if it is not in the table."""
        return {one.name: at for at, one in enumerate(self.checks)}[check]

    def rows(self, suspect: str) -> list[Row]:
        """Return the rows of a suspect; raise `ValueError` if it is not in the table."""
        return self.expected[self.suspects.index(suspect)]

    def narrowed(self, suspects: Iterable[str], checks: Iterable[str]) -> "Table":
        """Return the part of the table with these suspects and checks, in the order given."""
        names, columns = tuple(suspects), [self.column(name) for name in checks]
        kept = [[[row[at] for at in columns] for row in self.rows(name)] for name in names]
        return Table(tuple(self.checks[at] for at in columns), names, kept)


def predict(
    warmed: Warmed, checks: Sequence[Check], suspects: Iterable[str] | None = None
) -> Table:
    """Return what each suspect would show at each check.

    Parameters
    ----------
    warmed
        The healthy carburettor, as on its card.
    checks
        What will be read.
    suspects
        Names of faults; all that the rig can have if not given. No fault is always among them.

    Returns
    -------
    Table
        Each suspect at `SEVERITIES`.

    Raises
    ------
    RangeError
        If there is no such fault, or the rig has not the part.
    """
    return finished(predicting(warmed, checks, suspects))


def predicting(
    warmed: Warmed, checks: Sequence[Check], suspects: Iterable[str] | None = None
) -> March[Table]:
    """Return the march that ends with what each suspect would show at each check; see `predict`.

    It yields what share of the suspects is done [1].
    """
    known = faults.fitting(warmed.rig) if suspects is None else suspects
    names = (HEALTHY, *(name for name in known if name != HEALTHY))
    healthy = list(_read(Subject(warmed, warmed.rig), checks))
    solved = []
    for name in names:
        solved.append(_solved(warmed, name, checks, healthy))
        yield len(solved) / len(names)
    return spread(checks, names, solved)


def spread(
    checks: Sequence[Check], suspects: Sequence[str], solved: Sequence[Sequence[Row]]
) -> Table:
    """Return the table of readings solved at `SOLVED` severities, straight lines between.

    `solved` holds a row [SI] for each suspect and each of `SOLVED`.
    """
    expected = []
    for rows in solved:
        columns = [list(column) for column in zip(*rows, strict=True)]
        expected.append(
            [[interpolate(bad, SOLVED, column) for column in columns] for bad in SEVERITIES]
        )
    return Table(tuple(checks), tuple(suspects), expected)


def _solved(warmed: Warmed, name: str, checks: Sequence[Check], healthy: Row) -> list[Row]:
    """Return the readings of one suspect at each of `SOLVED`."""
    if name == HEALTHY:
        return [healthy] * len(SOLVED)
    rows = [healthy]
    for severity in SOLVED[1:]:
        car = Subject.with_fault(warmed, name, severity)
        rows.append(list(_read(car, checks, rows[-1])))
    return rows


def _read(car: Subject, checks: Sequence[Check], before: Iterable[float] = ()) -> Iterator[float]:
    """Yield each reading, not a number where the engine has no state to be read in.

    What could not be read with a smaller fault, `before`, cannot with a larger.
    """
    known = list(before) or [0.0] * len(checks)
    for check, last in zip(checks, known, strict=True):
        try:
            yield nan if isnan(last) else check.read(car)
        except CircuitError:
            yield nan
