"""What the tests of a car in the shop leave of its suspects."""

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any, NamedTuple

from fuelcircuits.diagnosis.away import away
from fuelcircuits.diagnosis.check import minutes_of
from fuelcircuits.diagnosis.jobs import Garage, garage
from fuelcircuits.diagnosis.plan import APART, Plan, cheapest

__all__ = ["Found", "whole"]


class Found(NamedTuple):
    """One setting of the bench; suspects, tests and the fault by their names."""

    complaint: str
    suspects: tuple[str, ...]
    tests: tuple[str, ...]
    read: dict[str, float]  # SI, what each test that was made shows
    spent: list[float]  # min, before the first test and after each
    left: list[int]  # suspects left then
    off: list[float]  # uncertainties by which each suspect is off where it is furthest off
    longest: float  # min that all tests take
    proof: tuple[str, ...] = ()  # the cheapest tests that leave one suspect, once looked up
    least: float | None = None  # min that these take
    told: str = ""  # what was wrong, once looked up

    @property
    def remaining(self) -> list[str]:
        """The suspects that fit every reading."""
        pairs = zip(self.suspects, self.off, strict=True)
        return [name for name, far in pairs if far <= APART]


def whole(values: Mapping[str, Any]) -> Found:
    """Return what the tests made so far leave, and if asked for what was wrong."""
    number = int(values["car"])
    job = garage(number)
    made = [check for check in job.table.checks if values[check.name.replace("-", "_")]]
    read = {check.name: job.readings[check.name] for check in made}
    off = _furthest(job, read)
    found = Found(
        complaint=job.complaint,
        suspects=job.table.suspects,
        tests=tuple(check.name for check in job.table.checks),
        read=read,
        spent=[minutes_of(made[:count]) for count in range(len(made) + 1)],
        left=[sum(far <= APART for far in row) for row in off],
        off=off[-1],
        longest=minutes_of(job.table.checks),
    )
    return _told(found, job, _proof(number)) if values["look"] else found


@cache
def _proof(number: int) -> Plan:
    """Return the cheapest tests that leave one suspect of a car."""
    job = garage(number)
    return cheapest(job.table, job.readings)


def _told(found: Found, job: Garage, plan: Plan) -> Found:
    """Return what is seen when somebody opens it and looks."""
    told = job.told[0] if job.told else ""
    return found._replace(proof=plan.checks, least=plan.minutes, told=told)


def _furthest(job: Garage, read: Mapping[str, float]) -> list[list[float]]:
    """Return how far off each suspect is at its best severity, a row before and after each test."""
    far = away(job.table, read)
    return [[_at_best(rows, count) for rows in far] for count in range(len(read) + 1)]


def _at_best(rows: Sequence[Sequence[float]], count: int) -> float:
    return min(max(map(abs, row[:count]), default=0.0) for row in rows)
