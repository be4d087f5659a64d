"""The idle that the whole carburettor finds: where its plate stands, and what it drives."""

from math import degrees

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.engine.torque import brake_torque, torque_factor
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import curb_idle

from tests.places import RIGS

BOTH = pytest.mark.parametrize(
    "rig",
    [read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin")],
    ids=lambda rig: rig.name,
)
AIR = Weather.at()


@BOTH
def test_plate_is_a_few_degrees_off_the_closed_one(rig: Rig) -> None:
    """Common practice, no source."""
    idle = curb_idle(rig, AIR, Fuel())
    assert 1 < degrees(idle.throttle_angle - rig.air_path.throttle_closed_angle) < 6


@BOTH
def test_engine_turns_at_its_idle_speed_with_nothing_left_to_drive(rig: Rig) -> None:
    idle = curb_idle(rig, AIR, Fuel())
    left = brake_torque(
        rig.engine,
        idle.speed,
        idle.air_flow,
        idle.pressures.manifold,
        AIR.pressure,
        mixture_factor=torque_factor(idle.mixture),
    )
    assert idle.speed == rig.engine.idle_speed
    assert left == pytest.approx(0.0, abs=1e-4)
