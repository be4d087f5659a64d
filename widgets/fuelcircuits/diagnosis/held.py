"""Readings held against what is expected of a suspect, with all that gauges and card leave open."""

from collections.abc import Sequence
from math import hypot, inf, isfinite
from typing import NamedTuple

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.table import Row
from fuelcircuits.physics.numerics.linear import dot, inverse, log_determinant

__all__ = ["Gauge", "Held", "Rows", "held"]

Rows = list[Row]


class Gauge(NamedTuple):
    """One reading that was made, and how far it may be doubted."""

    check: Check
    column: int
    value: float  # SI
    unit: float
    doubt: float
    rough: float
    first: float  # SI, what the first suspect shows

    def off(self, mean: float) -> float:
        """Return by how much the reading is off one that is expected."""
        return (self.value - mean) / self.unit

    def spread(self, mean: float) -> float:
        """Return the doubt of gauge and model at a reading that is expected."""
        whole = hypot(self.doubt * self.check.uncertainty(mean), self.rough * (mean - self.first))
        return whole / self.unit if isfinite(whole) else 1.0


class Held(NamedTuple):
    """The readings held against one suspect at one severity."""

    off: Row
    inverse: Rows
    square: float
    score: float  # logarithm of the density


def held(gauges: Sequence[Gauge], tied: Rows, expected: Row) -> Held:
    """Return the readings held against those expected; infinitely far where there are none."""
    means = [expected[gauge.column] for gauge in gauges]
    off = [gauge.off(mean) for gauge, mean in zip(gauges, means, strict=True)]
    covariance = [list(row) for row in tied]
    for i, (gauge, mean) in enumerate(zip(gauges, means, strict=True)):
        covariance[i][i] += gauge.spread(mean) ** 2
    rows = inverse(covariance)
    if not all(map(isfinite, off)):
        return Held(off, rows, inf, -inf)
    square = dot(off, [dot(row, off) for row in rows])
    return Held(off, rows, square, -0.5 * (square + log_determinant(covariance)))
