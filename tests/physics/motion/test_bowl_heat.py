"""A running bowl's heat: against closed forms, scipy, and mass that must not get lost."""

from dataclasses import replace

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.hot_soak import LIQUID_HEAT, HotSoak
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, heat_of_vaporisation
from fuelcircuits.physics.motion.boiling import boiling_margin
from fuelcircuits.physics.motion.bowl_heat import BowlHeat, bowl_heat, coolant
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from tests.places import RIGS

SOAK = read_rig(RIGS / "plover.toml").hot_soak
DAY, PETROL, AIR = Weather.at(0.0, 298.15), Fuel(), 298.15
TIMES = np.linspace(0.0, 600.0, 31)


def run(soak: HotSoak, start: float, share: float = 0.0, flow: float = 4e-4) -> BowlHeat:
    return bowl_heat(
        soak,
        DAY,
        PETROL,
        TIMES,
        fuel_flow=np.full(31, flow),
        coolant=np.full(31, soak.block_temperature),
        mass=0.06,
        start=(start, share),
    )


def test_the_coolant_warms_up_exponentially() -> None:
    warm = coolant(SOAK, [0.0, SOAK.warm_up], 263.15)
    assert warm[0] == 263.15
    assert warm[1] == pytest.approx(363 + (263.15 - 363) * np.exp(-1))


def test_with_no_fuel_through_it_the_bowl_keeps_the_cards_rise() -> None:
    calm = run(replace(SOAK, spread_rate=0.0), AIR + SOAK.bowl_rise, flow=0.0)
    np.testing.assert_allclose(calm.temperature, AIR + SOAK.bowl_rise, rtol=1e-9)


def test_fuel_that_flows_through_cools_the_bowl() -> None:
    still, flowing = (run(SOAK, 320.0, flow=flow).temperature[-1] for flow in (0.0, 5e-3))
    assert AIR < flowing < still - 3


def test_a_hot_bowl_agrees_with_scipy() -> None:
    def rates(t: float, x: NDArray[np.float64]) -> NDArray[np.float64]:
        margin = float(boiling_margin(PETROL, x[0], x[1], DAY.pressure))
        share = min(max(margin / float(DAY.pressure) + 1, 0), 0.95)
        made = -SOAK.spread_rate * np.log1p(-share) + SOAK.boil_rate * max(margin, 0)
        cooling = SOAK.block_to_bowl * (363.0 - AIR - SOAK.bowl_rise) / SOAK.bowl_rise
        heat = SOAK.block_to_bowl * (363.0 - x[0]) - made * float(heat_of_vaporisation(PETROL))
        heat -= (cooling + LIQUID_HEAT * 4e-4) * (x[0] - AIR)
        capacity = SOAK.bowl_heat + LIQUID_HEAT * 0.06
        return np.array([heat / capacity, (made - x[1] * 4e-4) / 0.06, made])

    theirs = solve_ivp(
        rates, (0, 600), [340.0, 0.02, 0.0], "LSODA", TIMES, rtol=1e-10, atol=1e-13
    ).y
    ours = run(SOAK, 340.0, 0.02)
    np.testing.assert_allclose(ours.temperature, theirs[0], rtol=1e-6)
    np.testing.assert_allclose(ours.lost_share, theirs[1], rtol=1e-4, atol=1e-7)
    np.testing.assert_allclose(ours.boiled, theirs[2], rtol=1e-4, atol=1e-9)


def test_a_hotter_bowl_makes_more_vapour_and_fresh_fuel_makes_it_good() -> None:
    cool, hot = run(SOAK, 315.0), run(SOAK, 345.0)
    assert hot.vapour[0] > 5 * cool.vapour[0]
    assert hot.lost_share[-1] < np.max(hot.lost_share)
