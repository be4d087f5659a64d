"""The books of the teaching rigs: what faults show, worked out once and kept beside the code.

A book has its rig's name, and knows the causes around the carburettor too.

`write` makes it from the model; a test holds every entry against the model again.
"""

import json
from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from pathlib import Path

from fuelcircuits import faults
from fuelcircuits.diagnosis.checks import find, fitting
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


def write(warmed: Warmed, path: Path) -> None:
    """Work out every suspect of a rig at every check, and keep it: a line for each row."""
    checks = fitting(warmed.rig, around=True)
    table = predict(warmed, checks, faults.fitting(warmed.rig, around=True))
    healthy = table.rows(HEALTHY)[0]
    readings = ",\n".join(
        f"{json.dumps(name)}: [\n{_lines([healthy, *(rows[step] for step in STEPS)])}\n]"
        for name, rows in zip(table.suspects, table.expected, strict=True)
    )
    names = json.dumps([check.name for check in checks])
    path.write_text(f'{{"checks": {names},\n"readings": {{\n{readings}\n}}}}\n', "utf-8")


def _lines(rows: Iterable[Row]) -> str:
    """Return rows as JSON, each on a line of its own."""
    return ",\n".join(json.dumps([float(f"{one:.{DIGITS}g}") for one in row]) for row in rows)
