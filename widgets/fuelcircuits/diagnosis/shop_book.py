"""The book of a teaching rig: what its faults show, worked out once and kept beside the code.

`write` makes it from the model; a test holds every entry against the model again.
"""

import json
from functools import cache
from importlib.resources import files
from pathlib import Path

from fuelcircuits.diagnosis.checks import find, fitting
from fuelcircuits.diagnosis.subject import Warmed
from fuelcircuits.diagnosis.table import HEALTHY, STEPS, Row, Table, predict, spread
from fuelcircuits.errors import CardError

__all__ = ["book_of", "write"]

DIGITS = 6


@cache
def book_of(rig_name: str) -> Table:
    """Return the book of a teaching rig.

    Raises
    ------
    CardError
        If no book of a rig of that name comes with the package.
    """
    path = files(__package__) / f"{rig_name}.json"
    if not path.is_file():
        raise CardError(f"rig must be one whose faults have been worked out, got {rig_name!r}")
    kept = json.loads(path.read_text("utf-8"))
    checks = [find(name) for name in kept["checks"]]
    return spread(checks, tuple(kept["readings"]), list(kept["readings"].values()))


def write(warmed: Warmed, path: Path) -> None:
    """Work out every fault of a rig at every check that it has the parts for, and keep it."""
    checks = fitting(warmed.rig)
    table = predict(warmed, checks)
    healthy = table.rows(HEALTHY)[0]
    readings = {
        name: [_rounded(row) for row in (healthy, *(rows[step] for step in STEPS))]
        for name, rows in zip(table.suspects, table.expected, strict=True)
    }
    kept = {"rig": warmed.rig.name, "checks": [check.name for check in checks]}
    path.write_text(json.dumps({**kept, "readings": readings}, indent=1) + "\n", "utf-8")


def _rounded(row: Row) -> Row:
    return [float(f"{one:.{DIGITS}g}") for one in row]
