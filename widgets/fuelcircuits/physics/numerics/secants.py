"""The inverse of slopes, corrected by what each step of a search has shown."""

from fuelcircuits.physics.numerics.linear import dot

__all__ = ["Secants"]

Row = list[float]
Matrix = list[Row]


class Secants:
    r"""Broyden's second method: an inverse H of slopes that learns from steps.

    .. math:: H \leftarrow H + \frac{(\Delta x - H y)\, v^T}{v^T y}, \qquad v_i = y_i / m_i^2

    with :math:`\Delta x` a step, y the change of the rests r in it, and m what those are measured
    by. H y follows from the step that was asked for, -H r before it, and from H r behind it.

    Parameters
    ----------
    inverse
        H to begin with; it is copied.

    References
    ----------
    C. G. Broyden, Mathematics of Computation 19 (1965), pages 577-593.
    """

    def __init__(self, inverse: Matrix) -> None:
        self.inverse = [row.copy() for row in inverse]
        self._before: tuple[Row, Row, Row] | None = None
        self._late: tuple[Row, Row] | None = None

    def show(self, unknowns: Row, rest: Row, move: Row) -> None:
        """Take note of where a step began, and of what `step` had said there."""
        self._before = unknowns, rest, move

    def step(self, unknowns: Row, rest: Row, measure: Row) -> Row:
        """Return Newton's step, -H r, with H corrected by the step that was shown."""
        back, shown, self._before = self._times(rest), self._before, None
        if shown is None:
            return [-each for each in back]
        (begun, old, move), places = shown, range(len(rest))
        change = [rest[i] - old[i] for i in places]
        weighted = [change[i] / (measure[i] * measure[i]) for i in places]
        size = 1.0 / dot(change, weighted)
        ahead = size * dot(rest, weighted)
        off = [unknowns[i] - begun[i] - move[i] - back[i] for i in places]
        self._late = [size * each for each in off], weighted
        return [-back[i] - ahead * off[i] for i in places]

    def _times(self, rest: Row) -> Row:
        """Return H r; the correction before is written into H on the way."""
        if self._late is None:
            return [dot(row, rest) for row in self.inverse]
        (factors, weighted), self._late = self._late, None
        back, places = Row(), range(len(rest))
        for row, factor in zip(self.inverse, factors, strict=True):
            total = 0.0
            for i in places:
                row[i] = entry = row[i] + factor * weighted[i]
                total += entry * rest[i]
            back.append(total)
        return back
