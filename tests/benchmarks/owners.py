"""Twenty invented owners' cars: how often the report is right, wrong, or rightly at a loss.

Each true car is a teaching rig scaled to some size, every entry off by chance, settled to run like
a healthy engine; then it may get a fault. Its owner has measured ten to fifteen entries, and has
read gauges with noise. What nobody measured is not in the card.
"""

import json
import random
import sys
from collections.abc import Iterator
from dataclasses import replace
from math import exp, pi
from pathlib import Path
from typing import NamedTuple

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.subject import Subject, warmed
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.own_car.entries import ENTRIES
from fuelcircuits.own_car.entry_text import entry_facts, shop_unit
from fuelcircuits.own_car.healthy import healthy
from fuelcircuits.own_car.leeway import dials, turned, value_of
from fuelcircuits.own_car.report import Report, diagnose
from fuelcircuits.own_car.scaling import nearest, rig_named, scaled
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Car", "cars", "judge"]

AIR, PETROL = Weather.at(), Fuel()
SIZES = ((1.1, 4, 900), (1.6, 4, 850), (2.0, 4, 800), (2.8, 6, 750), (3.5, 8, 650), (5.0, 8, 600))
ALWAYS = (
    *("engine.displacement", "engine.idle_speed", "air_path.venturi_bore"),
    *("air_path.throttle_bore", "high_speed.jet_bore", "low_speed.jet_bore"),
    *("float_bowl.specified_level", "float_bowl.fuel_pressure"),
)
GAUGES = (
    *("idle-vacuum", "idle-mixture", "off-idle-mixture", "cruise-mixture", "full-load-mixture"),
    *("fuel-pressure", "level-at-idle", "port-vacuum"),
)
FAULTS = (
    *(("blocked-idle-jet", 0.6), ("manifold-air-leak", 0.9), ("blocked-main-jet", 0.6)),
    *(("soaked-float", 0.8), ("power-rod-stuck-up", 1.0), ("low-fuel-pressure", 0.9)),
    *(("blocked-main-air-bleed", 1.0), ("choke-stuck-shut", 0.6), ("float-set-low", 1.0)),
    ("mixture-screw-out", 1.0),
)
PAIRS = (
    (("blocked-main-jet", 0.6), ("blocked-idle-air-bleed", 0.8)),
    (("manifold-air-leak", 0.9), ("main-jet-too-large", 1.0)),
    (("soaked-float", 0.9), ("low-fuel-pressure", 0.95)),
)
HEALTHY_CARS = 7


class Car(NamedTuple):
    """One owner's car: what is wrong, what the card says, what the gauges showed."""

    number: int
    wrong: tuple[tuple[str, float], ...]
    card: OwnCard
    readings: dict[str, str]


def cars() -> Iterator[Car]:
    """Yield the twenty: seven healthy, ten with a fault, three with two faults at once."""
    wrongs = [*((),) * HEALTHY_CARS, *((fault,) for fault in FAULTS), *PAIRS]
    for number, wrong in enumerate(wrongs):
        yield _car(number, tuple(wrong))


def judge(car: Car) -> Report:
    """Return the report on a car, as far as it ranks; nothing is weighed that could come next."""
    return diagnose(car.card.rig, car.readings, measured=car.card.measured, further=())


def _car(number: int, wrong: tuple[tuple[str, float], ...]) -> Car:
    """Return a car of its own, the same whenever it is asked for."""
    dice = random.Random(f"owner {number}")
    rig = _true(dice)
    home = warmed(rig, AIR, PETROL, by_vacuum=True)
    faulty = rig
    settings = Subject(home, rig).settings
    for name, severity in wrong:
        one = Subject.with_fault(replace(home, rig=faulty), name, severity)
        faulty, settings = one.rig, one.settings
    shown = Subject(home, faulty, settings)
    asked = [*GAUGES[:5], *dice.sample(GAUGES[5:], 2)]
    read = {name: text for name in asked if (text := _read(shown, name, dice))}
    return Car(number, wrong, _card(rig, dice), read)


def _true(dice: random.Random) -> Rig:
    """Return a healthy car nobody has measured through."""
    size, cylinders, idle = dice.choice(SIZES)
    known = {
        "engine.displacement": size * 1e-3,
        "engine.cylinders": float(cylinders),
        "engine.idle_speed": idle * pi / 30,
    }
    rig = scaled(rig_named(nearest(known)), known)
    free = [dial for dial in dials(rig, known) if dial.entry not in known]
    while True:
        try:
            other = turned(rig, free, [dice.gauss(0.0, 0.6) for _ in free])
            return healthy(other, AIR, PETROL, measured=known).warmed.rig
        except CircuitError:  # beyond what such an entry can be, or no engine: another draw
            continue


def _card(rig: Rig, dice: random.Random) -> OwnCard:
    """Return what the owner wrote down of a car: ten to fifteen entries, not quite exact."""
    others = [name for name in ENTRIES if name not in ALWAYS]
    chosen = [*ALWAYS, *dice.sample(others, dice.randint(2, len(others)))]
    card = OwnCard(name="an owner's car")
    for entry in chosen:
        label, one = shop_unit(entry)
        facts, error = entry_facts(entry), 0.0 if "engine" in entry else dice.gauss(0.0, 0.015)
        value = min(max(value_of(rig, entry) * exp(error), 1.01 * facts["low"]), facts["high"])
        card = card.with_entry(entry, f"{value / one:.3g} {label.replace('°', 'deg')}".strip())
    return card


def _read(car: Subject, name: str, dice: random.Random) -> str:
    """Return what a gauge showed, with its noise; nothing where the engine does not run."""
    check = find(name)
    try:
        value = check.read(car)
    except CircuitError:
        return ""
    value += 0.7 * check.uncertainty(value) * dice.gauss(0.0, 1.0)
    unit = {"fuel-pressure": "Pa", "idle-vacuum": "Pa", "port-vacuum": "Pa", "level-at-idle": "m"}
    least = 0.51 if "mixture" in name else 0.0
    return (
        f"{min(max(value, least), 2.9) if least else max(value, 1.0e-4):.5g} {unit.get(name, '')}"
    )


def main(out: Path | None = None) -> None:
    """Judge all cars and print what came of them; lay the cars down at `out` if it is given."""
    kept, found = [], []
    for car in cars():
        kept.append(
            {
                "number": car.number,
                "wrong": car.wrong,
                "entries": car.card.known,
                "readings": car.readings,
            }
        )
        report = judge(car)
        ranked = [one.name for one in report.suspicions if one.name != HEALTHY]
        names = [name for name, _ in car.wrong]
        place = min((ranked.index(name) + 1 for name in names if name in ranked), default=0)
        found.append((car, report.healthy, report.explained, place))
        first = report.suspicions[0]
        print(
            f"{car.number:2d} {', '.join(names) or 'healthy':45s} healthy={report.healthy!s:5s} "
            f"explained={report.explained!s:5s} place={place:2d} "
            f"first={first.name} {first.probability:.0%}",
            flush=True,
        )
    healthy_cars = [one for one in found if not one[0].wrong]
    single = [one for one in found if len(one[0].wrong) == 1]
    double = [one for one in found if len(one[0].wrong) == 2]
    print(
        "false alarms on healthy cars:",
        sum(not one[1] for one in healthy_cars),
        "of",
        len(healthy_cars),
    )
    print(
        "fault among the first three:", sum(1 <= one[3] <= 3 for one in single), "of", len(single)
    )
    print("called healthy though faulty:", sum(one[1] for one in single), "of", len(single))
    print("nothing fits, and two faults:", sum(not one[2] for one in double), "of", len(double))
    print("nothing fits, wrongly:", sum(not one[2] for one in (*healthy_cars, *single)))
    if out:
        out.write_text(json.dumps(kept, indent=1))


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else None)
