"""The cars that come to be diagnosed: each has one fault, known here and nowhere in a notebook.

Their readings are those of the teaching rig's book with the scatter of real gauges. Cars and
complaints are invented; the readings come out of the model. `write` lays the readings, without
the faults, where notebooks find them.
"""

import json
import random
import shutil
import sys
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import chain
from pathlib import Path
from types import MappingProxyType

from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis import shop_book
from fuelcircuits.diagnosis.checks import find, fitting
from fuelcircuits.diagnosis.shop_book import book_of
from fuelcircuits.diagnosis.subject import warmed
from fuelcircuits.diagnosis.table import SEVERITIES, Table
from fuelcircuits.errors import between
from fuelcircuits.own_car import scaling
from fuelcircuits.own_car.scaling import RIGS
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.numerics.interpolation import nearest

__all__ = ["JOBS", "Job", "job_of", "readings_of", "table_of", "write"]

RIG, AROUND = "plover", "around"
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
    book: str = RIG
    """The book that its readings come out of."""


IDLE = Job(
    complaint="It idles like a bag of nails and stalls at the lights. On the road it goes well.",
    suspects=(
        *("blocked-idle-jet", "blocked-economizer", "manifold-air-leak", "mixture-screw-in"),
        *("bleed-valve-stuck-open", "worn-throttle-shaft", "float-set-low"),
    ),
    checks=(
        *("idle-vacuum", "port-vacuum", "idle-mixture", "level-at-idle", "off-idle-mixture"),
        *("cruise-mixture", "fuel-pressure"),
    ),
    cars={
        101: ("blocked-idle-jet", 0.5),
        102: ("blocked-economizer", 0.4),
        103: ("manifold-air-leak", 0.8),
        104: ("bleed-valve-stuck-open", 0.3),
        105: ("blocked-economizer", 0.5),
        106: ("mixture-screw-in", 0.6),
        107: ("blocked-idle-jet", 0.4),
        108: ("manifold-air-leak", 0.7),
    },
)
RICH = Job(
    complaint="The garage smells of petrol, and by the test sheet it runs richer than last year.",
    suspects=(
        *("soaked-float", "float-set-high", "high-fuel-pressure", "cover-gasket-leak"),
        *("outside-vent-stuck-open", "main-jet-too-large", "power-rod-stuck-up"),
    ),
    checks=(
        *("fuel-pressure", "level-at-idle", "float-mass", "float-setting", "vent-gap-open"),
        *("cruise-mixture", "full-load-mixture", "full-load-bowl-pressure"),
    ),
    cars={
        201: ("soaked-float", 0.6),
        202: ("float-set-high", 0.7),
        203: ("high-fuel-pressure", 0.8),
        204: ("cover-gasket-leak", 1.0),
        205: ("outside-vent-stuck-open", 0.7),
        206: ("main-jet-too-large", 0.5),
        207: ("power-rod-stuck-up", 1.0),
        208: ("float-set-high", 0.9),
    },
)
WEAK = Job(
    complaint="I put my foot down to overtake, and it hangs back.",
    suspects=(
        *("torn-pump-cup", "blocked-pump-jet", "leaking-pump-discharge-check"),
        *("power-rod-stuck-down", "main-jet-too-small", "low-fuel-pressure"),
        *("clogged-inlet-strainer", "restricted-air-cleaner"),
    ),
    checks=(
        *("shot", "shot-time", "second-shot", "fuel-pressure", "inlet-flow"),
        *("full-load-mixture", "cruise-mixture", "full-load-vacuum", "full-load-level"),
    ),
    cars={
        301: ("torn-pump-cup", 0.9),
        302: ("blocked-pump-jet", 0.8),
        303: ("leaking-pump-discharge-check", 0.8),
        304: ("power-rod-stuck-down", 0.9),
        305: ("main-jet-too-small", 0.9),
        306: ("low-fuel-pressure", 1.0),
        307: ("clogged-inlet-strainer", 1.0),
        308: ("restricted-air-cleaner", 1.0),
    },
)
PRACTICE = Job(
    complaint="Something is not right with it. Please find out what.",
    suspects=(
        *("manifold-air-leak", "blocked-idle-jet", "blocked-economizer", "float-set-high"),
        *("high-fuel-pressure", "outside-vent-stuck-open", "main-jet-too-large"),
        *("power-rod-stuck-down", "torn-pump-cup", "restricted-air-cleaner"),
    ),
    checks=(
        *("idle-vacuum", "port-vacuum", "fuel-pressure", "shot", "idle-mixture"),
        *("vent-gap-open", "level-at-idle", "cruise-mixture", "full-load-mixture"),
        "full-load-vacuum",
    ),
    cars={
        1: ("blocked-economizer", 0.4),
        2: ("high-fuel-pressure", 0.9),
        3: ("torn-pump-cup", 0.8),
        4: ("main-jet-too-large", 0.4),
        5: ("manifold-air-leak", 0.8),
        6: ("outside-vent-stuck-open", 0.8),
    },
    told=True,
)
YARD = Job(
    complaint="Two garages have set the carburettor, and it is no better. What is it?",
    suspects=(
        *("late-ignition", "weak-cylinder", "vacuum-hose-off", "crankcase-valve-stuck-open"),
        *("recirculation-stuck-open", "exhaust-restricted", "blocked-idle-jet"),
        *("mixture-screw-in", "manifold-air-leak", "early-ignition"),
    ),
    checks=(
        *("free-vacuum", "needle-swing", "crankcase-hose-pinched", "held-vacuum"),
        *("hoses-pinched", "timing", "idle-mixture", "one-cylinder-out"),
        *("recirculation-blanked", "port-vacuum"),
    ),
    cars={
        11: ("late-ignition", 0.8),
        12: ("weak-cylinder", 0.9),
        13: ("crankcase-valve-stuck-open", 0.8),
        14: ("recirculation-stuck-open", 0.7),
        15: ("exhaust-restricted", 0.8),
        16: ("blocked-idle-jet", 0.4),
    },
    told=True,
    book=AROUND,
)
IN_VAIN = Job(
    complaint="It idles slowly and shakes. The screws have been set twice, and it is no better.",
    suspects=(
        *("late-ignition", "weak-cylinder", "vacuum-hose-off", "crankcase-valve-stuck-open"),
        *("recirculation-stuck-open", "blocked-idle-jet", "mixture-screw-in"),
        "manifold-air-leak",
    ),
    checks=(
        *("free-idle", "free-vacuum", "needle-swing", "crankcase-hose-pinched", "hoses-pinched"),
        *("timing", "port-vacuum", "idle-mixture", "one-cylinder-out", "recirculation-blanked"),
    ),
    cars={
        401: ("late-ignition", 0.7),
        402: ("weak-cylinder", 0.8),
        403: ("vacuum-hose-off", 0.5),
        404: ("crankcase-valve-stuck-open", 0.7),
        405: ("recirculation-stuck-open", 0.6),
        406: ("blocked-idle-jet", 0.3),
        407: ("late-ignition", 0.9),
        408: ("manifold-air-leak", 0.5),
    },
    book=AROUND,
)
UPHILL = Job(
    complaint="It has lost its pull uphill. New main jets made no difference.",
    suspects=(
        *("late-ignition", "weak-cylinder", "exhaust-restricted", "heat-riser-stuck-shut"),
        *("restricted-air-cleaner", "main-jet-too-small", "low-fuel-pressure", "stale-fuel"),
    ),
    checks=(
        *("needle-swing", "held-vacuum", "fuel-pressure", "fuel-density", "riser-heat"),
        *("timing", "inlet-flow", "exhaust-pressure", "full-load-mixture", "full-load-vacuum"),
    ),
    cars={
        17: ("exhaust-restricted", 0.7),
        18: ("heat-riser-stuck-shut", 0.8),
        19: ("late-ignition", 0.8),
        20: ("restricted-air-cleaner", 1.0),
        21: ("low-fuel-pressure", 1.0),
        22: ("stale-fuel", 0.9),
    },
    told=True,
    book=AROUND,
)
JOBS: Mapping[str, Job] = MappingProxyType(
    {
        **{"practice": PRACTICE, "rough-idle": IDLE, "rich": RICH, "no-pull": WEAK},
        **{"around": YARD, "set-in-vain": IN_VAIN, "slow-uphill": UPHILL},
    }
)


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
    return book_of(job.book).narrowed(job.suspects, job.checks)


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
        shop_book.write(warmed(rig, Weather.at(), Fuel()), kept / f"{name}.json", fitting(rig))
    beside = [job for job in JOBS.values() if job.book == AROUND]
    shop_book.write(
        warmed(read_rig(rigs / f"{RIG}.toml"), Weather.at(), Fuel()),
        kept / f"{AROUND}.json",
        [find(name) for name in _once(job.checks for job in beside)],
        _once(job.suspects for job in beside),
    )
    write(kept / "jobs.json")


def _once(names: Iterable[Iterable[str]]) -> list[str]:
    """Return every name once, in its first place."""
    return list(dict.fromkeys(chain.from_iterable(names)))


def _plain(job: Job) -> dict[str, object]:
    cars = {
        str(number): {name: float(f"{one:.5g}") for name, one in readings_of(number).items()}
        for number in job.cars
    }
    told = {str(number): list(fault) for number, fault in job.cars.items()} if job.told else {}
    lists = {"suspects": job.suspects, "checks": job.checks}
    return {"complaint": job.complaint, "book": job.book, **lists, "cars": cars, "told": told}


if __name__ == "__main__":
    main(Path(sys.argv[1]))
