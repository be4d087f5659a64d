"""A running bowl: level against the whole run of it, heat against scipy, and books that close."""

from dataclasses import replace
from itertools import pairwise
from math import log1p
from typing import Any

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.bowl_filling import fill
from fuelcircuits.physics.circuits.bowl_vents import Vents
from fuelcircuits.physics.circuits.float_balance import WARM
from fuelcircuits.physics.circuits.float_bowl import steady
from fuelcircuits.physics.circuits.float_lever import supply_to
from fuelcircuits.physics.circuits.hot_soak import LIQUID_HEAT, HotSoak
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, heat_of_vaporisation
from fuelcircuits.physics.motion.boiling import (
    Boiler,
    boiler,
    boiling_margin,
    remaining_pressure,
    vapour_line,
)
from fuelcircuits.physics.motion.bowl import Bowl, Filled, bowl_level, bowl_vapour, bowl_warmth
from fuelcircuits.physics.numerics.interpolation import linspace
from scipy.integrate import solve_ivp

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
BOWL, SOAK = PLOVER.float_bowl, PLOVER.hot_soak
DAY, PETROL, AIR = Weather.at(0.0, 298.15), Fuel(), 298.15
LINE = vapour_line(PETROL)
SUPPLY = supply_to(BOWL, PETROL, None, WARM, 0.0)
MASS = BOWL.bowl_area * SUPPLY.density  # kg for a metre of level


def level(start: float, asked: float, duration: float = 0.02, **more: float) -> Filled:
    given: dict[str, Any] = {"away": 0.0} | more
    return bowl_level(BOWL, SUPPLY, start, asked=asked, duration=duration, **given)


def test_the_level_settles_where_the_float_holds_it() -> None:
    height = 0.025
    for _ in range(200):
        height = level(height, 2e-3, 0.5).level
    assert height == pytest.approx(steady(BOWL, PETROL, 2e-3).level, abs=2e-6)


def test_a_fall_of_the_level_agrees_with_the_whole_run_of_it() -> None:
    begin, times = steady(BOWL, PETROL, 1e-4).level, linspace(0.0, 3.0, 7)
    height, ours = begin, [begin]
    for _ in times[1:]:
        for _ in range(100):
            height = level(height, 5e-3, 0.005).level
        ours.append(height)
    theirs = fill(BOWL, PETROL, 5e-3, begin, times)
    assert ours == pytest.approx(theirs.level, abs=0.02 * (begin - theirs.level[-1]))


@pytest.mark.parametrize("start", [0.0, 0.5e-3, 0.02, 0.031, BOWL.depth])
@pytest.mark.parametrize("asked", [0.0, 1e-3, 0.1])
@pytest.mark.parametrize("away", [-1e-4, 0.0, 2e-4])
def test_what_comes_in_goes_out_or_stays(start: float, asked: float, away: float) -> None:
    found = level(start, asked, 0.1, away=away)
    leaving = found.covered * asked + away + found.spilled
    stored = MASS * (found.level - start)
    assert 0.1 * (found.inflow - leaving) == pytest.approx(stored, abs=1e-12)
    assert 0.0 <= found.level <= BOWL.depth


def test_an_empty_bowl_gives_only_what_comes_in() -> None:
    found, height = level(0.0, 0.1, 1.0), 0.0
    for _ in range(50):
        found = level(height, 0.1, 1.0)
        height = found.level
    assert found.covered < 1
    assert found.covered * 0.1 == pytest.approx(found.inflow, rel=1e-6)


def test_without_the_pump_nothing_comes_in() -> None:
    still = bowl_level(BOWL, SUPPLY, 0.02, asked=1e-3, away=0.0, duration=0.1, pumping=False)
    assert still.inflow == pytest.approx(0.0, abs=1e-12)
    assert MASS * (0.02 - still.level) == pytest.approx(1e-4, rel=1e-6)


def warmed(soak: HotSoak, start: float, lost: float = 0.0, flow: float = 4e-4) -> list[Bowl]:
    bowl, under_the_sky = Bowl(0.03, start, lost), Boiler(soak, LINE, DAY.pressure, 0.0)
    bowl = bowl._replace(vapour=bowl_vapour(under_the_sky, bowl))
    run = [bowl]
    for _ in range(2400):
        bowl = bowl_warmth(
            under_the_sky,
            DAY,
            PETROL,
            bowl,
            mass=0.06,
            fuel_flow=flow,
            coolant=soak.block_temperature,
            duration=0.25,
        )
        run.append(bowl)
    return run


def test_with_no_fuel_through_it_the_bowl_keeps_the_cards_rise() -> None:
    calm = warmed(replace(SOAK, spread_rate=0.0), AIR + SOAK.bowl_rise, flow=0.0)
    assert calm[-1].temperature == pytest.approx(AIR + SOAK.bowl_rise, rel=1e-9)


def test_fuel_that_flows_through_cools_the_bowl() -> None:
    still, flowing = (warmed(SOAK, 320.0, flow=flow)[-1].temperature for flow in (0.0, 5e-3))
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
        return [heat / capacity, (made - x[1] * 4e-4) / 0.06]

    times = linspace(0.0, 600.0, 7)
    theirs = solve_ivp(
        rates, (0, 600), [340.0, 0.02], "LSODA", times, rtol=1e-10, atol=1e-13
    ).y.tolist()
    ours = warmed(SOAK, 340.0, 0.02)[::400]
    assert [each.temperature for each in ours] == pytest.approx(theirs[0], abs=0.02)
    assert [each.lost for each in ours] == pytest.approx(theirs[1], abs=1e-4)


def test_a_hotter_bowl_makes_more_vapour_and_fresh_fuel_makes_it_good() -> None:
    cool, hot = warmed(SOAK, 315.0), warmed(SOAK, 345.0)
    assert hot[0].vapour > 5 * cool[0].vapour
    lost = [each.lost for each in hot]
    assert lost[-1] < max(lost)
    assert all(before >= after for before, after in pairwise([each.vapour for each in hot]))


@pytest.mark.parametrize("ignition", [0.0, 1.0])
def test_a_bowl_whose_vents_are_blocked_boils_against_its_own_vapour(ignition: float) -> None:
    blocked = Vents(inside_bore=0.5e-3)
    flows = [
        bowl_vapour(boiler(SOAK, vents, PETROL, DAY.pressure, ignition=ignition), Bowl(0.03, 335.0))
        for vents in (blocked, Vents(inside_bore=5e-3))
    ]
    over = boiler(SOAK, blocked, PETROL, DAY.pressure).back * 335.0 * flows[0] ** 2
    assert flows[0] < 0.5 * flows[1]
    assert 0 < over < remaining_pressure(LINE, 335.0, 0.0) - DAY.pressure
