"""What each suspect would show at each check, worked out by the model beforehand."""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits import faults
from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.subject import Subject, Warmed
from fuelcircuits.errors import CircuitError

__all__ = ["HEALTHY", "SEVERITIES", "SOLVED", "Table", "predict", "spread"]

Floats = NDArray[np.float64]

HEALTHY = "nothing-wrong"
"""The suspect that is no fault: a carburettor as on its card."""
SEVERITIES = np.linspace(0.1, 1.0, 10)
"""How bad a suspect may be [1]; each is as likely as the next."""
SOLVED = (0.0, 0.3, 0.6, 1.0)
"""Severities at which the model is solved [1]; between them readings go in straight lines."""


class Table(NamedTuple):
    """Readings to expect, for the suspects of one carburettor.

    A reading the model has no state for is not a number: such a suspect cannot be there while
    the engine can be read at all.
    """

    checks: tuple[Check, ...]
    suspects: tuple[str, ...]
    expected: Floats  # SI; suspect, severity, check
    doubt: Floats  # its standard uncertainty, same shape

    def column(self, check: str) -> int:
        """Return where a check stands; raise `KeyError` if it is not in the table."""
        return {one.name: at for at, one in enumerate(self.checks)}[check]

    def narrowed(self, suspects: Iterable[str], checks: Iterable[str]) -> "Table":
        """Return the part of the table with these suspects and checks, in the order given."""
        rows = [self.suspects.index(name) for name in suspects]
        columns = [self.column(name) for name in checks]
        cut = np.ix_(rows, range(SEVERITIES.size), columns)
        names = tuple(self.suspects[row] for row in rows)
        kept = tuple(self.checks[column] for column in columns)
        return Table(kept, names, self.expected[cut], self.doubt[cut])


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
    known = faults.fitting(warmed.rig) if suspects is None else suspects
    names = (HEALTHY, *(name for name in known if name != HEALTHY))
    healthy = _readings(Subject(warmed, warmed.rig), checks)
    solved = [_solved(warmed, name, checks, healthy) for name in names]
    return spread(checks, names, np.array(solved))


def spread(checks: Sequence[Check], suspects: Sequence[str], solved: Floats) -> Table:
    """Return the table of readings solved at `SOLVED` severities, straight lines between.

    `solved` has the shape (suspects, severities, checks), in SI.
    """
    flat = np.moveaxis(solved, 1, 0).reshape(len(SOLVED), -1)
    lines = np.stack([np.interp(SEVERITIES, SOLVED, column) for column in flat.T], axis=-1)
    shape = (SEVERITIES.size, len(suspects), len(checks))
    expected = np.moveaxis(lines.reshape(shape), 0, 1)
    doubt = [check.uncertainty(expected[..., at]) for at, check in enumerate(checks)]
    return Table(tuple(checks), tuple(suspects), expected, np.stack(doubt, axis=-1))


def _solved(warmed: Warmed, name: str, checks: Sequence[Check], healthy: Floats) -> Floats:
    """Return the readings of one suspect at each of `SOLVED`."""
    if name == HEALTHY:
        return np.tile(healthy, (len(SOLVED), 1))
    cars = [Subject.with_fault(warmed, name, severity) for severity in SOLVED[1:]]
    return np.array([healthy, *(_readings(car, checks) for car in cars)])


def _readings(car: Subject, checks: Sequence[Check]) -> Floats:
    return np.array(list(_read(car, checks)))


def _read(car: Subject, checks: Sequence[Check]) -> Iterator[float]:
    """Yield each reading, not a number where the engine has no state to be read in."""
    for check in checks:
        try:
            yield check.read(car)
        except CircuitError:
            yield np.nan
