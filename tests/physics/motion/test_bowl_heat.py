"""A running bowl's heat: against closed forms, scipy, and mass that must not get lost."""

from dataclasses import replace
from math import exp, log1p

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.hot_soak import LIQUID_HEAT, HotSoak
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, heat_of_vaporisation
from fuelcircuits.physics.motion.boiling import boiling_margin
from fuelcircuits.physics.motion.bowl_heat import BowlHeat, bowl_heat, coolant
from fuelcircuits.physics.numerics.interpolation import linspace
from scipy.integrate import solve_ivp

from tests.places import RIGS

SOAK = read_rig(RIGS / "plover.toml").hot_soak
DAY, PETROL, AIR = Weather.at(0.0, 298.15), Fuel(), 298.15
TIMES = linspace(0.0, 600.0, 31)


def run(soak: HotSoak, start: float, share: float = 0.0, flow: float = 4e-4) -> BowlHeat:
    return bowl_heat(
        soak,
        DAY,
        PETROL,
        TIMES,
        fuel_flow=[flow] * 31,
        coolant=[soak.block_temperature] * 31,
        mass=0.06,
        start=(start, share),
    )


def test_the_coolant_warms_up_exponentially() -> None:
    assert coolant(SOAK, 0.0, 263.15) == pytest.approx(263.15)
    warm = coolant(SOAK, SOAK.warm_up, 263.15)
    assert warm == pytest.approx(363 + (263.15 - 363) * exp(-1))


def test_with_no_fuel_through_it_the_bowl_keeps_the_cards_rise() -> None:
    calm = run(replace(SOAK, spread_rate=0.0), AIR + SOAK.bowl_rise, flow=0.0)
    assert calm.temperature == pytest.approx([AIR + SOAK.bowl_rise] * 31, rel=1e-9)


def test_fuel_that_flows_through_cools_the_bowl() -> None:
    still, flowing = (run(SOAK, 320.0, flow=flow).temperature[-1] for flow in (0.0, 5e-3))
    assert AIR < flowing < still - 3


def test_a_hot_bowl_agrees_with_scipy() -> None:
    def rates(t: float, x: list[float]) -> list[float]:
        margin = boiling_margin(PETROL, x[0], x[1], DAY.pressure)
        share = min(max(margin / DAY.pressure + 1, 0), 0.95)
        made = -SOAK.spread_rate * log1p(-share) + SOAK.boil_rate * max(margin, 0)
        cooling = SOAK.block_to_bowl * (363.0 - AIR - SOAK.bowl_rise) / SOAK.bowl_rise
        heat = SOAK.block_to_bowl * (363.0 - x[0]) - made * heat_of_vaporisation(PETROL)
        heat -= (cooling + LIQUID_HEAT * 4e-4) * (x[0] - AIR)
        capacity = SOAK.bowl_heat + LIQUID_HEAT * 0.06
        return [heat / capacity, (made - x[1] * 4e-4) / 0.06, made]

    theirs = solve_ivp(
        rates, (0, 600), [340.0, 0.02, 0.0], "LSODA", TIMES, rtol=1e-10, atol=1e-13
    ).y.tolist()
    ours = run(SOAK, 340.0, 0.02)
    assert ours.temperature == pytest.approx(theirs[0], rel=1e-6)
    assert ours.lost_share == pytest.approx(theirs[1], rel=1e-4, abs=1e-7)
    assert ours.boiled == pytest.approx(theirs[2], rel=1e-4, abs=1e-9)


def test_a_hotter_bowl_makes_more_vapour_and_fresh_fuel_makes_it_good() -> None:
    cool, hot = run(SOAK, 315.0), run(SOAK, 345.0)
    assert hot.vapour[0] > 5 * cool.vapour[0]
    assert hot.lost_share[-1] < max(hot.lost_share)
