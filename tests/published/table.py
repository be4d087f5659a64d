"""Rows of the table of published check values, by topic.

The rows test arithmetic, units and conventions, not a measured carburettor. A row whose
`seen_or_memory` is "memory" was recalled; most textbook answers were seen in public companion
notebooks rather than in print.
"""

import csv
import re
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

__all__ = ["Row", "rows"]

TABLE = Path(__file__).with_name("published.csv")


@dataclass(frozen=True)
class Row:
    """One check value: what goes in, what should come out, how near, and who says so."""

    topic: str
    inputs: str
    printed: str
    unit: str
    tolerance: str
    kind: str
    source: str
    seen_or_memory: str

    def number(self, pattern: str) -> float:
        """Return the number that follows `pattern` in the inputs: ``row.number("RVP")``."""
        found = re.search(pattern + r"\s*([-+]?\d*\.?\d+(?:[eE][-+]?\d+)?)", self.inputs)
        if not found:
            raise LookupError(f"inputs must hold a number after {pattern}, got {self.inputs}")
        return float(found[1])

    @property
    def expected(self) -> float:
        """The expected value."""
        return float(self.printed)

    @property
    def allowed(self) -> float:
        """The table's tolerance, in the unit of the value."""
        kind, size = self.tolerance.split("=")
        return float(size) * (abs(self.expected) if kind == "rel" else 1.0)

    @property
    def approx(self) -> Any:
        """The expected value with the table's tolerance, to be compared with ``==``."""
        return pytest.approx(self.expected, rel=0.0, abs=self.allowed)

    @property
    def digits(self) -> Any:
        """The expected value to its last printed digit, or to the table's tolerance if finer."""
        half = 0.5000001 * 10.0 ** int(Decimal(self.printed).as_tuple().exponent)
        return pytest.approx(self.expected, rel=0.0, abs=min(self.allowed, half))


def rows(topic: str, inputs: str = "") -> list[Any]:
    """Return test parameters for the rows whose topic is `topic` and whose inputs hold `inputs`.

    Each is a `pytest.param` named after its inputs; an unknown topic is an error, so that a
    test cannot pass by finding nothing to check.
    """
    with TABLE.open(newline="", encoding="utf-8") as lines:
        table = [Row(printed=line.pop("expected"), **line) for line in csv.DictReader(lines)]
    found = [row for row in table if row.topic == topic and inputs in row.inputs]
    if not found:
        raise LookupError(f"table must have a row on {topic} with {inputs}, got none")
    return [pytest.param(row, id=re.sub(r"[^\w.#/=+-]+", "_", row.inputs)[:60]) for row in found]
