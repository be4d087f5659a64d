"""The books of the teaching rigs: what faults show, worked out once and kept beside the code.

A rig's own book has its name, and that of the causes around plover is ``around``.

`write` makes it from the model; a test holds every entry against the model again.
"""

import json
from collections.abc import Iterable, Sequence
from functools import cache
from importlib.resources import files
from pathlib import Path

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.subject import Warmed
from fuelcircuits.diagnosis.table import HEALTHY, STEPS, Row, Table, predict, spread
from fuelcircuits.errors import CardError

__all__ = ["book_of", "write"]

DIGITS = 6


@cache
def book_of(name: str) -> Table:
    """Return the book of that name.

    Raises
    ------
    CardError
        If no book of that name comes with the package.
    """
    path = files(__package__) / f"{name}.json"
    if not path.is_file():
        raise CardError(f"rig must be one whose faults have been worked out, got {name!r}")
    kept = json.loads(path.read_text("utf-8"))
    checks = [find(each) for each in kept["checks"]]
    return spread(checks, tuple(kept["readings"]), list(kept["readings"].values()))


def write(
    warmed: Warmed, path: Path, checks: Sequence[Check], suspects: Iterable[str] | None = None
) -> None:
    """Work out suspects of a rig at some checks, all its own if none are named, and keep it."""
    table = predict(warmed, checks, suspects)
    healthy = table.rows(HEALTHY)[0]
    readings = {
        name: [_rounded(row) for row in (healthy, *(rows[step] for step in STEPS))]
        for name, rows in zip(table.suspects, table.expected, strict=True)
    }
    kept = {"rig": warmed.rig.name, "checks": [check.name for check in checks]}
    path.write_text(json.dumps({**kept, "readings": readings}, indent=1) + "\n", "utf-8")


def _rounded(row: Row) -> Row:
    return [float(f"{one:.{DIGITS}g}") for one in row]
