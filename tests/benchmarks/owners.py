"""Twenty invented owners' cars, twice: how often the report is right, wrong, or rightly at a loss.

Each true car is a teaching rig scaled to some size, every entry off by chance, settled to run like
a healthy engine; then it may get a fault. Its owner has measured ten to fifteen entries, and has
read gauges with noise. What nobody measured is not in the card.

Where gauges cannot tell, "cannot be told apart yet, read this next" is the right answer. It is
neither an alarm nor an all-clear, and is counted apart. A fault that moves no reading further than
healthy engines differ cannot be told from these readings by anybody: of what is then called
healthy it is counted how often a reading was plainly off. The second twenty are drawn with another
random seed; nothing of the report was ever set by them.

    python -m tests.benchmarks.owners            # both, twenty minutes
    python -m tests.benchmarks.owners held-out   # the second twenty
"""

import random
import sys
from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from math import exp, isclose, pi
from typing import NamedTuple

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.subject import Subject, warmed
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.own_car.entries import ENTRIES
from fuelcircuits.own_car.entry_text import entry_facts, shop_unit
from fuelcircuits.own_car.healthy import LEVEL, LEVEL_SPREAD, Healthy, healthy
from fuelcircuits.own_car.leeway import dials, turned, value_of
from fuelcircuits.own_car.report import Report, diagnose
from fuelcircuits.own_car.scaling import nearest, rig_named, scaled
from fuelcircuits.own_car.usual import USUAL
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Car", "Judged", "cars", "counted", "judge", "judged"]

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
SHOWN = 3
"""Suspects that an owner is thought to look at."""
HEALTHY_WITHIN = 2.0
"""Spreads of healthy engines that a healthy car is within at every usual reading [1]."""
SPREADS = {name: one.spread for name, one in USUAL.items()} | {LEVEL: LEVEL_SPREAD}
"""Spreads of what healthy engines read [SI]."""
DRAW, HELD_OUT = "owner", "another owner"
"""Random seeds of the twenty that the report was worked on with, and of twenty it never saw."""


class Car(NamedTuple):
    """One owner's car: what is wrong, what the card says, what the gauges showed."""

    number: int
    wrong: tuple[tuple[str, float], ...]
    card: OwnCard
    readings: dict[str, str]
    moved: float
    """By how much the faults moved the reading that they moved most, in spreads of healthy
    engines, or in doubts of a gauge of which these have none [1]."""


def cars(draw: str = DRAW) -> Iterator[Car]:
    """Yield the twenty of a draw: seven healthy, ten with a fault, three with two at once."""
    wrongs = [*((),) * HEALTHY_CARS, *((fault,) for fault in FAULTS), *PAIRS]
    for number, wrong in enumerate(wrongs):
        yield _car(draw, number, tuple(wrong))


def judge(car: Car) -> Report:
    """Return the report on a car, as far as it ranks; nothing is weighed that could come next."""
    return diagnose(car.card.rig, car.readings, measured=car.card.measured, further=())


def _car(draw: str, number: int, wrong: tuple[tuple[str, float], ...]) -> Car:
    """Return a car of its own, the same whenever it is asked for."""
    dice = random.Random(f"{draw} {number}")
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
    return Car(number, wrong, _card(rig, dice), read, _moved(Subject(home, rig), shown, read))


def _moved(home: Subject, shown: Subject, read: Collection[str]) -> float:
    """Return how far the faults moved any of the readings; see `Car`."""
    apart = 0.0
    for name in read:
        check, sound = find(name), find(name).read(home)
        by = SPREADS.get(name) or check.uncertainty(sound)
        apart = max(apart, abs(check.read(shown) - sound) / by)
    return apart


def _true(dice: random.Random) -> Rig:
    """Return a healthy car nobody has measured through.

    A draw whose engine cannot be brought to read like a healthy one is no healthy car: it is drawn
    again.
    """
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
            found = healthy(other, AIR, PETROL, measured=known)
        except CircuitError:  # beyond what such an entry can be, or no engine: another draw
            continue
        if max(map(abs, found.settled.off)) <= HEALTHY_WITHIN and _idles_so(found):
            return found.warmed.rig


def _idles_so(found: Healthy) -> bool:
    """Return whether the engine idles as it was settled, whoever sets it from anew.

    Some draws idle in two ways, rich with the plate nearly shut and lean with it far open.
    """
    anew = warmed(found.warmed.rig, AIR, PETROL, by_vacuum=True)
    return isclose(anew.stop, found.warmed.stop, rel_tol=0.02)


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


class Judged(NamedTuple):
    """What a report came to on one car."""

    wrong: tuple[str, ...]
    verdict: str
    places: tuple[int, ...]
    """Where each thing that is wrong stands among the suspects; the first is 1."""
    unseen: bool
    """Whether the report says of what is wrong that these readings cannot show it."""
    moved: float
    """As of the car."""
    mentioned: bool
    """Whether what is wrong is mentioned as not ruled out."""

    @property
    def named(self) -> int:
        """How many things that are wrong stand among the first three."""
        return sum(place <= SHOWN for place in self.places)


def judged(car: Car) -> Judged:
    """Return what the report on a car comes to."""
    report = judge(car)
    ranked = [one.name for one in report.suspicions if one.name != HEALTHY]
    names = tuple(name for name, _ in car.wrong)
    places = tuple(ranked.index(name) + 1 if name in ranked else len(ranked) for name in names)
    hidden = any(name in report.hidden for name in names)
    mentioned = any(name in report.mentioned for name in names)
    return Judged(names, report.verdict, places, hidden, car.moved, mentioned)


def counted(found: Sequence[Judged]) -> Iterator[str]:
    """Yield how often the reports were right, a line each."""
    healthy, single, double = ([one for one in found if len(one.wrong) == n] for n in range(3))

    def of(kind: Sequence[Judged], *verdicts: str) -> str:
        return f"{sum(one.verdict in verdicts for one in kind)} of {len(kind)}"

    told = sum(one.verdict == "nothing fits" or one.named == 2 for one in double)
    first = sum(min(one.places) == 1 for one in double)
    called = [one for one in single if one.verdict == "healthy"]
    plain = sum(one.moved > HEALTHY_WITHIN for one in called)
    unsaid = sum(not one.unseen for one in called)
    mentioned = sum(one.mentioned for one in called)
    yield f"healthy: false alarms {of(healthy, 'fault', 'nothing fits')}"
    yield f"healthy: cannot be told apart yet {of(healthy, 'open')}"
    yield f"one fault: among the first three {sum(one.named for one in single)} of {len(single)}"
    yield f"one fault: nothing speaks against the card {of(single, 'healthy')}"
    yield f"  where a reading was off like none of a healthy engine: {plain}"
    yield f"  where that fault is mentioned as not ruled out: {mentioned}"
    yield f"  without a word that such readings cannot show that fault: {unsaid}"
    yield f"one fault: cannot be told apart yet {of(single, 'open')}"
    yield f"two faults: nothing fits, or both named {told} of {len(double)}"
    yield f"two faults: one of them comes first {first} of {len(double)}"
    yield f"nothing fits, wrongly: {of([*healthy, *single], 'nothing fits')}"


def main(draws: Sequence[str]) -> None:
    """Judge the cars of each draw, and print what came of them."""
    for draw in draws:
        print(f"\n{draw}")
        found = []
        for car in cars(draw):
            found.append(judged(car))
            words = ", ".join(found[-1].wrong) or "healthy"
            print(
                f"{car.number:2d} {words:45s} {found[-1].verdict:12s} {found[-1].places} "
                f"moved {car.moved:.1f}",
                flush=True,
            )
        print(*counted(found), sep="\n")


if __name__ == "__main__":
    main([HELD_OUT] if sys.argv[1:] == ["held-out"] else [DRAW, HELD_OUT])
