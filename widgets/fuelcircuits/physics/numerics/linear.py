"""A few linear equations at once, for the handful of unknowns that a carburettor has."""

from collections.abc import Sequence
from operator import mul

from fuelcircuits.errors import ConvergenceError

__all__ = ["dot", "inverse", "solve"]

Row = Sequence[float]


def dot(a: Row, b: Row) -> float:
    """Return the sum of the products of two rows of one length."""
    total: float = sum(map(mul, a, b))
    return total


def solve(matrix: Sequence[Row], right: Row) -> list[float]:
    """Return x so that ``matrix`` times x is ``right``.

    Gaussian elimination; each step divides by the largest number left in its column.

    Raises
    ------
    ConvergenceError
        If the equations do not settle x: one follows from the others, or is not of numbers.

    References
    ----------
    G. H. Golub and C. F. Van Loan, Matrix Computations, 4th edition (2013), section 3.4.
    """
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    _to_triangle(rows)
    found: list[float] = []
    for i in range(len(rows) - 1, -1, -1):
        row = rows[i]
        found.insert(0, (row[-1] - sum(map(mul, row[i + 1 :], found))) / row[i])
    return found


def inverse(matrix: Sequence[Row]) -> list[list[float]]:
    """Return the rows of the inverse; raises and refers as `solve` does."""
    count = len(matrix)
    units = [[float(i == j) for j in range(count)] for i in range(count)]
    rows = [[*row, *unit] for row, unit in zip(matrix, units, strict=True)]
    _to_triangle(rows)
    for i in range(count - 1, -1, -1):
        pivot = rows[i][i]
        rows[i] = row = [value / pivot for value in rows[i][count:]]
        for above in rows[:i]:
            factor = above[i]
            if factor:
                above[count:] = [x - factor * y for x, y in zip(above[count:], row, strict=True)]
    return rows


def _to_triangle(rows: list[list[float]]) -> None:
    """Make the rows those of equations without what lies below the diagonal, which stays stale."""
    for i in range(len(rows)):
        best = max(range(i, len(rows)), key=lambda k: abs(rows[k][i]))
        rows[i], rows[best] = rows[best], rows[i]
        pivot, tail = rows[i][i], rows[i][i + 1 :]
        if not abs(pivot) > 0.0:
            raise ConvergenceError(f"equations must be independent, got pivot {pivot} in row {i}")
        for row in rows[i + 1 :]:
            if row[i]:
                factor = row[i] / pivot
                row[i + 1 :] = [x - factor * y for x, y in zip(row[i + 1 :], tail, strict=True)]
