"""The wells' fuel: what goes down comes out, and what fills up is taken back."""

from dataclasses import replace
from itertools import pairwise
from math import exp

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.high_speed import GRAVITY
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.well import SETTLING, WellStep, well_depths, well_step
from fuelcircuits.physics.network.solving import solve
from fuelcircuits.physics.openings.plate import OPEN

from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
HIGH, DENSITY = PLOVER.high_speed, 740.0


def step(depth: float, settled: float, nozzle: float = 1e-3, duration: float = 0.02) -> WellStep:
    return well_step(HIGH, depth, settled, nozzle, density=DENSITY, duration=duration)


def test_the_depth_follows_with_its_time_constant() -> None:
    depth = 0.0
    for _ in range(1000):
        depth = step(depth, 10e-3, duration=SETTLING / 1000).depth
    assert depth == pytest.approx(10e-3 * (1 - exp(-1)), rel=1e-3)


@pytest.mark.parametrize(("depth", "settled"), [(2e-3, 15e-3), (15e-3, 2e-3), (5e-3, 5e-3)])
@pytest.mark.parametrize("nozzle", [0.0, 1e-4, 1e-2])
def test_what_the_store_loses_the_nozzle_gives(depth: float, settled: float, nozzle: float) -> None:
    after = step(depth, settled, nozzle)
    lost = DENSITY * HIGH.well_area * (after.depth - depth)
    assert 0.02 * (after.extra - after.refill) == pytest.approx(lost, abs=1e-15)


def test_a_well_that_fills_takes_no_more_than_the_nozzle_gives_and_the_rest_by_the_jet() -> None:
    filling = step(20e-3, 0.0, nozzle=1e-5)
    assert filling.extra == pytest.approx(-1e-5)
    assert filling.refill > 0


def test_a_harder_pull_pushes_the_fuel_further_down_the_tube() -> None:
    states = [solve(PLOVER, Weather.at(), Fuel(), speed, OPEN) for speed in (60.0, 80.0, 100.0)]
    depths = [well_depths([HIGH], state, DENSITY)[0] for state in states]
    assert all(before < after for before, after in pairwise(depths))
    pull = states[0].pressures.tube[0] - states[0].pressures.well[0]
    assert depths[0] == pytest.approx(pull / (DENSITY * GRAVITY), rel=1e-12)


def test_a_nozzle_without_a_bleed_has_no_store() -> None:
    full = solve(DUNLIN, Weather.at(), Fuel(), 300.0, OPEN)
    assert well_depths([DUNLIN.high_speed], full, DENSITY) == (0.0,)


def test_a_well_without_room_gives_nothing() -> None:
    tight = replace(HIGH, well_area=0.0)
    after = well_step(tight, 0.0, 10e-3, 0.0, density=DENSITY, duration=0.02)
    assert after.extra == after.refill == 0.0
