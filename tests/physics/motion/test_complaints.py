"""What a driver complains of: pump, choke and vents with a fault, in motion, on both rigs.

What each part's fault does to a drive is common practice, no source; the bounds are judged.
"""

from functools import cache

import pytest
from fuelcircuits import faults
from fuelcircuits.physics.motion.drive import drive
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.motion.pedal import Leg
from fuelcircuits.physics.motion.start import Start, begun

from tests.physics.motion.journeys import DAY, RPM, car

EVERY = pytest.mark.parametrize("name", ["plover", "dunlin"])
FROST = 278.15


def with_fault(
    name: str, fault: str, outside: float = DAY.temperature, severity: float = 1.0
) -> Car:
    """Return a car with a fault, at its worst if not less; healthy if it has no name."""
    whole = car(name, outside=outside)
    return whole._replace(rig=faults.apply(whole.rig, fault, severity)) if fault else whole


@cache
def stabbed(name: str, fault: str = "") -> tuple[float, float]:
    """Return the leanest moments of two stabs at the pedal, one soon after the other."""
    whole, up, down = with_fault(name, fault), Controls(0.02, 800 * RPM), Controls(0.5, 800 * RPM)
    stab = [Leg(0.3, up), Leg(0.2, down), Leg(1.5, down), Leg(0.1, up), Leg(0.6, up)]
    run = drive(whole, begun(whole, Start.warm(whole.rig, DAY), up), [*stab, *stab], up)
    first, second = (
        [now.burning.mixture for now in run if begin < now.time < begin + 2.0]
        for begin in (0.0, 2.7)
    )
    return max(first), max(second)


@EVERY
@pytest.mark.parametrize(
    "fault", ["torn-pump-cup", "leaking-pump-inlet-check", "blocked-pump-jet", "pump-stroke-short"]
)
def test_a_bad_pump_stumbles(name: str, fault: str) -> None:
    healthy, faulty = stabbed(name)[0], stabbed(name, fault)[0]
    assert faulty > healthy + 0.03
    assert faulty > 1.2 or fault == "pump-stroke-short"


@EVERY
def test_a_leaking_discharge_check_is_felt_at_the_second_stab(name: str) -> None:
    healthy, faulty = stabbed(name), stabbed(name, "leaking-pump-discharge-check")
    assert faulty[0] == pytest.approx(healthy[0], abs=0.01)
    assert faulty[1] > healthy[1] + 0.1


@cache
def frosty(name: str, fault: str = "", severity: float = 1.0) -> list[Motion]:
    """Return a start at 5 degC, the pedal tapped after a minute, and then left alone."""
    whole = with_fault(name, fault, FROST, severity)
    key, off, tap = Controls(starter=True), Controls(), Controls(0.12)
    tapped = [Leg(0.4, tap), Leg(0.2, off), Leg(2.0, off, 0.04), Leg(60.0, off, 0.25)]
    legs = [Leg(1.5, key), Leg(4.0, off), Leg(54.0, off, 0.25), *tapped]
    return drive(whole, begun(whole, Start.cold(whole.weather)), legs, key)


def burnt_at(name: str, fault: str, seconds: float, severity: float = 1.0) -> float:
    """Return lambda of what burns at a time [s]."""
    run = frosty(name, fault, severity)
    return min(run, key=lambda now: abs(now.time - seconds)).burning.burnt


@EVERY
def test_a_choke_without_heat_stays_rich_for_good(name: str) -> None:
    assert frosty(name, "choke-heat-dead")[-1].choke < 0.7 < frosty(name)[-1].choke
    assert burnt_at(name, "choke-heat-dead", 120) < 0.75
    assert burnt_at(name, "", 120) > 1.0


@EVERY
def test_a_torn_pull_off_floods_the_engine_at_first(name: str) -> None:
    torn, sound = (
        [now.burning.burnt for now in frosty(name, each) if 1.5 < now.time < 5]
        for each in ("pull-off-torn", "")
    )
    assert min(torn) < 0.6
    assert min(sound) > 0.7
    assert frosty(name, "pull-off-torn")[-1].running is (name == "dunlin")


@EVERY
def test_a_slack_coil_leaves_the_engine_dead_in_the_cold(name: str) -> None:
    assert frosty(name)[-1].running
    assert not any(now.running for now in frosty(name, "choke-coil-slack") if now.time > 3)


@EVERY
def test_a_tight_coil_is_rich_and_late_to_open(name: str) -> None:
    assert burnt_at(name, "choke-coil-tight", 20, 0.5) < burnt_at(name, "", 20) - 0.1
    assert frosty(name, "choke-coil-tight", 0.5)[-1].choke < frosty(name)[-1].choke - 0.15


def test_at_its_worst_it_drowns_plover() -> None:
    run = frosty("plover", "choke-coil-tight")
    assert not run[-1].running
    assert min(now.burning.burnt for now in run if now.time > 1) < 0.5
