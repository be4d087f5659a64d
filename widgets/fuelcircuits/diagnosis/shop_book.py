"""The book of a teaching rig: what its faults show, worked out once and kept beside the code.

`write` makes it from the model; a test holds every entry against the model again.
"""

import json
from functools import cache
from importlib.resources import files
from pathlib import Path

import numpy as np

from fuelcircuits.diagnosis.checks import find, fitting
from fuelcircuits.diagnosis.subject import Warmed
from fuelcircuits.diagnosis.table import SEVERITIES, SOLVED, Table, predict, spread
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
    return spread(checks, tuple(kept["readings"]), np.array(list(kept["readings"].values())))


def write(warmed: Warmed, path: Path) -> None:
    """Work out every fault of a rig at every check that it has the parts for, and keep it."""
    checks = fitting(warmed.rig)
    table = predict(warmed, checks)
    healthy = np.broadcast_to(table.expected[:1, :1], (len(table.suspects), 1, len(checks)))
    at = [int(np.argmin(np.abs(SEVERITIES - one))) for one in SOLVED[1:]]
    steps = np.concatenate([healthy, table.expected[:, at]], axis=1)
    readings = {
        name: [[float(f"{one:.{DIGITS}g}") for one in row] for row in rows]
        for name, rows in zip(table.suspects, steps, strict=True)
    }
    kept = {"rig": warmed.rig.name, "checks": [check.name for check in checks]}
    path.write_text(json.dumps({**kept, "readings": readings}, indent=1) + "\n", "utf-8")
