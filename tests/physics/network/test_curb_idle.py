"""The idle that the whole carburettor finds: where its plate stands, and what it drives."""

from itertools import pairwise
from math import degrees, radians

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.physics.engine.torque import brake_torque, torque_factor
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import curb_idle, solve
from fuelcircuits.physics.network.state import State

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
    assert idle.speed == rig.engine.idle_speed
    assert torque(rig, idle) == pytest.approx(0.0, abs=1e-4)


# A stop is screwed in from where the engine stalls (common practice, no source). This card leans
# out so much as its throttle opens that the engine would idle again on two angles further on.
def test_of_several_idles_it_is_that_of_the_least_throttle() -> None:
    card = OwnCard()
    sizes = {"engine.displacement": "1.6 L", "air_path.venturi_bore": "30 mm"}
    for entry, text in {**sizes, "high_speed.jet_bore": "2.2"}.items():
        card = card.with_entry(entry, text)
    rig, idle = card.rig, curb_idle(card.rig, AIR, Fuel())
    assert torque(rig, idle) == pytest.approx(0.0, abs=1e-4)
    steps = [idle.throttle_angle + radians(0.1) * each for each in range(-15, 46)]
    made = [torque(rig, solve(rig, AIR, Fuel(), idle.speed, angle)) for angle in steps]
    assert max(made[:15]) < 0.0 < made[16]
    assert sum(a * b < 0.0 for a, b in pairwise(made[16:])) == 2


def torque(rig: Rig, state: State) -> float:
    """Return what the engine makes at a state [N m]."""
    manifold, factor = state.pressures.manifold, torque_factor(min(state.mixture, 3.0))
    return brake_torque(
        rig.engine, state.speed, state.air_flow, manifold, AIR.pressure, mixture_factor=factor
    )
