"""The cars that come to be diagnosed: each has one fault, known here and nowhere in a notebook.

Their readings are those of the teaching rig's book with the scatter of real gauges. Cars and
complaints are invented; the readings come out of the model. `write` lays the readings, without
the faults, where notebooks find them.
"""

import json
import random
import shutil
import sys
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from pathlib import Path
from types import MappingProxyType
from typing import Any

from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis import shop_book
from fuelcircuits.diagnosis.jobs import RIG
from fuelcircuits.diagnosis.shop_book import book_of
from fuelcircuits.diagnosis.subject import warmed
from fuelcircuits.diagnosis.table import SEVERITIES, Table
from fuelcircuits.errors import between
from fuelcircuits.own_car import scaling
from fuelcircuits.own_car.scaling import RIGS
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.numerics.interpolation import nearest

__all__ = ["JOBS", "RIG", "Job", "job_of", "readings_of", "table_of", "write"]

SCATTER = 0.5
"""Scatter of a reading as a part of its standard uncertainty; the rest is the gauge's own."""


@dataclass(frozen=True)
class Job:
    """A complaint, what may be behind it, what can be tested, and the cars that have it."""

    complaint: str
    suspects: tuple[str, ...]
    checks: tuple[str, ...]
    cars: Mapping[int, tuple[str, float]]
    """What is wrong with each car, and how badly [1]."""
    told: bool = False
    """Whether the notebook may tell what was wrong: for practice."""


def _listed() -> Mapping[str, Job]:
    """Return the jobs that `garage.toml` lists, by name."""
    listed = tomllib.loads(files(__package__).joinpath("garage.toml").read_text("utf-8"))
    return {name: _job(entry) for name, entry in listed.items()}


def _job(entry: Mapping[str, Any]) -> Job:
    cars = {int(number): (fault, bad) for number, (fault, bad) in entry["cars"].items()}
    lists = tuple(entry["suspects"]), tuple(entry["checks"])
    return Job(entry["complaint"], *lists, MappingProxyType(cars), entry.get("told", False))


JOBS: Mapping[str, Job] = MappingProxyType(_listed())
"""Every job by name."""


def job_of(number: int) -> Job:
    """Return the job that a car has come with; raise `KeyError` if there is no such car."""
    for job in JOBS.values():
        if number in job.cars:
            return job
    raise KeyError(f"car must be one of the garage's, got {number}")


@cache
def table_of(number: int) -> Table:
    """Return what the suspects of a car's job would show at the tests of that job."""
    job = job_of(number)
    return book_of(RIG).narrowed(job.suspects, job.checks)


@cache
def readings_of(number: int) -> Mapping[str, float]:
    """Return what every test of a car shows [SI], the same for ever."""
    fault, severity = job_of(number).cars[number]
    between("severity", severity, SEVERITIES[0], 1.0)
    table, dice = table_of(number), random.Random(f"car {number}")
    row = table.rows(fault)[nearest(severity, SEVERITIES)]
    return MappingProxyType(
        {
            check.name: _read(mean, SCATTER * check.uncertainty(mean), dice)
            for check, mean in zip(table.checks, row, strict=True)
        }
    )


def _read(mean: float, scatter: float, dice: random.Random) -> float:
    """Return one reading; what cannot be below nothing, as a gap, is not read so either."""
    value = mean + scatter * max(-2.0, min(2.0, dice.gauss(0, 1)))
    return max(0.0, value) if mean >= 0.0 else value


def write(path: Path) -> None:
    """Lay down every job with its cars' readings, and the faults of practice cars only."""
    jobs = {name: _plain(job) for name, job in JOBS.items()}
    path.write_text(json.dumps({"jobs": jobs}, indent=1) + "\n", "utf-8")


def main(rigs: Path) -> None:
    """Work the books of both teaching rigs out anew, and the cars' readings from them.

    Their cards are laid where own cars are scaled from them.
    """
    kept = Path(shop_book.__file__).parent
    for name in RIGS:
        rig = read_rig(rigs / f"{name}.toml")
        shutil.copyfile(rigs / f"{name}.toml", Path(scaling.__file__).parent / f"rigs/{name}.toml")
        shop_book.write(warmed(rig, Weather.at(), Fuel()), kept / f"{name}.json")
    write(kept / "jobs.json")


def _plain(job: Job) -> dict[str, object]:
    cars = {
        str(number): {name: float(f"{one:.5g}") for name, one in readings_of(number).items()}
        for number in job.cars
    }
    told = {str(number): list(fault) for number, fault in job.cars.items()} if job.told else {}
    lists = {"suspects": job.suspects, "checks": job.checks}
    return {"complaint": job.complaint, **lists, "cars": cars, "told": told}


if __name__ == "__main__":
    main(Path(sys.argv[1]))
