"""A few linear equations at once, for the handful of unknowns that a carburettor has."""

from collections.abc import Sequence
from math import log
from operator import mul

from fuelcircuits.errors import ConvergenceError

__all__ = ["dot", "inverse", "log_determinant", "solve"]

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
    for i in range(len(rows)):
        best = _largest(rows, i)
        rows[i], rows[best] = rows[best], rows[i]
        top = rows[i]
        for k, row in enumerate(rows[i + 1 :], i + 1):
            if row[i]:
                factor = row[i] / top[i]
                rows[k] = [row[j] - factor * top[j] for j in range(len(row))]
    found: list[float] = []
    for i in range(len(rows) - 1, -1, -1):
        row = rows[i]
        found.insert(0, (row[-1] - dot(row[i + 1 : -1], found)) / row[i])
    return found


def inverse(matrix: Sequence[Row]) -> list[list[float]]:
    """Return the rows of the inverse; raises and refers as `solve` does.

    Gauss and Jordan's elimination in place: once a column is cleared, that of the inverse
    takes its room. Exchanged rows of the matrix are exchanged columns of the inverse.
    """
    rows, places = [list(row) for row in matrix], range(len(matrix))
    order = list(places)
    for i in places:
        best = _largest(rows, i)
        rows[i], rows[best] = rows[best], rows[i]
        order[i], order[best] = order[best], order[i]
        pivot, rows[i][i] = rows[i][i], 1.0
        rows[i] = top = [value / pivot for value in rows[i]]
        for k, row in enumerate(rows):
            factor = row[i]
            if factor and k != i:
                row[i] = 0.0
                rows[k] = [row[j] - factor * top[j] for j in places]
    columns = sorted(places, key=order.__getitem__)
    return [[row[column] for column in columns] for row in rows]


def log_determinant(matrix: Sequence[Row]) -> float:
    """Return the logarithm of the determinant of a symmetric, positive definite matrix.

    Gaussian elimination without exchanges; the determinant is the product of the pivots.

    Raises
    ------
    ConvergenceError
        If the matrix is not positive definite, or not of numbers.

    References
    ----------
    G. H. Golub and C. F. Van Loan, Matrix Computations, 4th edition (2013), section 4.2.
    """
    rows, total = [list(row) for row in matrix], 0.0
    for i, top in enumerate(rows):
        if not top[i] > 0.0:
            raise ConvergenceError(f"matrix must be positive definite, got pivot {top[i]}")
        total += log(top[i])
        for k, row in enumerate(rows[i + 1 :], i + 1):
            factor = row[i] / top[i]
            rows[k] = [x - factor * y for x, y in zip(row, top, strict=True)]
    return total


def _largest(rows: list[list[float]], i: int) -> int:
    """Return which row from i on has the largest number in column i."""
    sizes = [abs(row[i]) for row in rows[i:]]
    largest = max(sizes)
    if not largest > 0.0:
        raise ConvergenceError(f"equations must be independent, got pivot {largest} in row {i}")
    return i + sizes.index(largest)
