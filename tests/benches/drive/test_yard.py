"""Cars to practise on, at the wheel: what the shop's readings say of an idle, the drive shows.

What a cause around the carburettor does to an engine is common practice, no source; the bounds are
judged.
"""

from collections.abc import Callable
from functools import cache

import pytest
from fuelcircuits.benches.drive.driven import away
from fuelcircuits.benches.drive.outing import HIDDEN, Outing, cars, wrong_with
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.diagnosis.subject import Subject, Warmed, warmed
from fuelcircuits.faults import AROUND
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel

from tests.benches.drive.outings import CARDS, journey

PLOVER = CARDS["plover"]
RPM = 2 * 3.14159265 / 60


@cache
def stand() -> Warmed:
    return warmed(PLOVER, Weather.at(), Fuel())


def idle(fault: str) -> Row:
    """Return the idle, two seconds after the drive began."""
    return journey("lights", "plover", fault, 2.0)[-1]


@pytest.mark.parametrize("car", [f"car-{number}" for number in (1, 2, 5, 7, 11, 12, 13, 14, 16)])
def test_a_car_that_is_read_at_idle_idles_at_the_wheel_as_fast(car: str) -> None:
    wrong = wrong_with(Outing(rig="plover", fault=car), PLOVER)
    read = Subject.with_fault(stand(), *wrong).left_alone
    assert read is not None
    assert idle(car).running
    assert idle(car).speed == pytest.approx(read.speed, rel=0.1)  # its warm bowl is 2 % richer


@pytest.mark.parametrize("fault", ["manifold-air-leak", "vacuum-hose-off", "blocked-idle-jet"])
def test_a_car_that_stalls_in_the_shop_stalls_at_the_wheel(fault: str) -> None:
    assert Subject.with_fault(stand(), fault, 1.0).left_alone is None
    assert not idle(fault).running


def pulls(fault: str) -> Row:
    """Return a second of overtaking in which the pedal is down."""
    return journey("overtake", "plover", fault, 4.0)[-1]


def cold(fault: str) -> Row:
    """Return a frosty morning, a second and a half after the starter was let go."""
    return journey("cold-start", "plover", fault, 4.0)[-1]


SHOWN: dict[str, tuple[Callable[[str], Row], str, float]] = {
    "late-ignition": (idle, "speed", -50 * RPM),
    "early-ignition": (idle, "speed", 30 * RPM),
    "weak-cylinder": (idle, "speed", -50 * RPM),
    "vacuum-hose-off": (idle, "speed", -100 * RPM),
    "crankcase-valve-stuck-open": (idle, "speed", -100 * RPM),
    "recirculation-stuck-open": (idle, "speed", -50 * RPM),
    "heat-riser-stuck-shut": (pulls, "torque", -10.0),
    "heat-riser-stuck-open": (pulls, "torque", 10.0),
    "exhaust-restricted": (pulls, "torque", -40.0),
    "stale-fuel": (cold, "burnt", 0.1),
}
"""Where the drive shows each cause around the carburettor, what of it, and by how much at least."""


@pytest.mark.parametrize("fault", AROUND)
def test_each_cause_around_the_carburettor_shows_somewhere(fault: str) -> None:
    where, what, least = SHOWN[fault]
    moved = getattr(where(fault), what) - getattr(where(""), what)
    assert moved / least > 1.0


def test_a_blocked_exhaust_pulls_badly_and_idles_well() -> None:
    assert idle("exhaust-restricted").speed == pytest.approx(idle("").speed, rel=0.02)
    assert pulls("car-9").torque < 0.9 * pulls("").torque


def test_a_hidden_fault_may_lie_around_the_carburettor() -> None:
    drawn = {wrong_with(Outing(fault=HIDDEN, draw=at), PLOVER).name for at in range(300)}
    assert set(AROUND) <= drawn


def test_every_car_to_practise_on_can_be_driven_and_none_tells_what_it_has() -> None:
    assert list(cars(PLOVER).values()) == [*range(1, 10), *range(11, 23)]
    outing = Outing(rig="plover", fault="car-15")
    assert outing.hidden
    assert away(outing, PLOVER)[0].fault == "exhaust-restricted"
