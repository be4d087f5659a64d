"""The jobs that cars come to the shop with, and all that their tests show; kept beside the code."""

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any, NamedTuple

from fuelcircuits.diagnosis.shop_book import book_of
from fuelcircuits.diagnosis.table import HEALTHY, Table
from fuelcircuits.errors import RangeError

__all__ = ["RIG", "Garage", "garage"]

RIG = "plover"
"""The teaching rig that every car of the garage has."""


class Garage(NamedTuple):
    """The job that a car has come with, and all that its tests show."""

    complaint: str
    table: Table
    healthy: tuple[float, ...]
    """What each test shows on a healthy carburettor [SI], in the table's order."""
    readings: Mapping[str, float]
    """By the test's name [SI]."""
    told: tuple[str, float] | None
    """What was wrong and how badly, for a car to practise on."""


def garage(number: int) -> Garage:
    """Return the job of a car; raise `RangeError` if there is no such car."""
    kept = _kept()
    known = [int(each) for job in kept["jobs"].values() for each in job["cars"]]
    if number not in known:
        raise RangeError(f"car must be one of {', '.join(map(str, known))}, got {number!r}")
    job = next(job for job in kept["jobs"].values() if str(number) in job["cars"])
    book = book_of(RIG)
    healthy = tuple(book.narrowed([HEALTHY], job["checks"]).rows(HEALTHY)[0])
    told = job["told"].get(str(number))
    return Garage(
        complaint=job["complaint"],
        table=book.narrowed(job["suspects"], job["checks"]),
        healthy=healthy,
        readings=job["cars"][str(number)],
        told=tuple(told) if told else None,
    )


@cache
def _kept() -> Mapping[str, Any]:
    """Return the jobs as they lie beside the code."""
    return dict(json.loads(files(__package__).joinpath("jobs.json").read_text("utf-8")))
