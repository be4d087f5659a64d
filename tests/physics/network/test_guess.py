"""First guesses: what the air path alone gives is what was asked for."""

from dataclasses import replace

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.bowl_vents import Vents
from fuelcircuits.physics.engine import breathing
from fuelcircuits.physics.engine.breathing import AirState
from fuelcircuits.physics.engine.torque import brake_torque
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.guess import angle_guess, first_guess, speed_guess
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.network.problem import Problem
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import WARM, Settings

from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BOTH = pytest.mark.parametrize("rig", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
AIR, PETROL = Weather.at(temperature=293.15), Fuel()


def posed(rig: Rig, settings: Settings = WARM) -> Problem:
    return pose(rig, AIR, PETROL, settings)


def breathed(of: Problem, speed: float, angle: float) -> AirState:
    return breathing.solve(of.engine, of.air_path, AIR, speed, angle)


def torque(of: Problem, speed: float, angle: float) -> float:
    air = breathed(of, speed, angle)
    return brake_torque(of.engine, speed, air.engine_flow, air.manifold_pressure, AIR.pressure)


@BOTH
@pytest.mark.parametrize("angle", [0.27, 0.5, 0.9])
def test_angle_gives_what_is_wanted(rig: Rig, angle: float) -> None:
    of, speed = posed(rig), 180.0
    air = breathed(of, speed, angle)
    wanted = {
        "air flow": air.engine_flow,
        "manifold pressure": air.manifold_pressure,
        "torque": torque(of, speed, angle),
    }
    for name, target in wanted.items():
        assert angle_guess(of, speed, name, target) == pytest.approx(angle, rel=0.01), name


@BOTH
def test_angle_stays_between_closed_and_wide_open(rig: Rig) -> None:
    of = posed(rig)
    assert angle_guess(of, 180.0, "air flow", 1.0) == pytest.approx(1.3)
    assert angle_guess(of, 180.0, "air flow", 0.0) == of.air_path.throttle_closed_angle
    assert angle_guess(of, 180.0, "manifold pressure", 2e5) == pytest.approx(1.3)


@BOTH
@pytest.mark.parametrize("angle", [0.25, 0.3, 0.4])
def test_speed_gives_the_torque_and_falls_beyond(rig: Rig, angle: float) -> None:
    of = posed(rig)
    speed = speed_guess(of, angle, 20.0)
    assert torque(of, 0.97 * speed, angle) > 20.0 > torque(of, 1.03 * speed, angle)


def test_speed_of_a_torque_that_cannot_be_had_is_the_nearest() -> None:
    of = posed(PLOVER)
    assert speed_guess(of, 0.25, 1e4) == 0.5 * PLOVER.engine.idle_speed
    assert speed_guess(of, 1.5, -1e4) == 1.2 * PLOVER.engine.highest_speed


def test_bowl_stands_where_its_vents_leave_it() -> None:
    """Two like vents and no vapour: half way between horn and canister."""
    vents = Vents(inside_bore=6e-3, canister_bore=6e-3, solenoid_pull=0.0)
    of = posed(replace(PLOVER, vents=vents), Settings(canister_pressure=98e3))
    horn, _, _, bowl, *_ = first_guess(of, place(of, 200.0, 0.5))
    assert bowl == pytest.approx(0.5 * (horn + 98e3), abs=20.0)


def test_bowl_held_is_left_where_it_is() -> None:
    of = posed(PLOVER, Settings(bowl_pressure=99e3))
    assert first_guess(of, place(of, 200.0, 0.5))[3] == 99e3
