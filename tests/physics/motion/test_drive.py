"""A drive with every moving part: books that close, and what a driver feels."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.pump import effective_area
from fuelcircuits.physics.circuits.wall_film import film_time
from fuelcircuits.physics.engine.engine import air_demand, manifold_temperature
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, density
from fuelcircuits.physics.motion.drive import Drive, Start, drive
from fuelcircuits.physics.motion.journey import Journey, Leg, journey
from fuelcircuits.physics.motion.soak_run import soak_run
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import curb_idle, solve
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
DAY, FROST, PETROL = Weather.at(0.0, 298.15), Weather.at(0.0, 263.15), Fuel()
TOWN = [
    Leg(1.0, 0.0, 75.0),  # idle
    Leg(0.2, 0.45, 78.0),  # tip-in
    Leg(1.5, 0.45, 130.0),
    Leg(0.5, 0.15, 140.0),  # cruise
    Leg(3.0, 0.15, 180.0),
    Leg(0.3, 0.0, 178.0),  # overrun
    Leg(2.0, 0.0, 100.0),
]
FIRST = [Leg(1.5, 0.0, 16.0), Leg(0.5, 0.0, 110.0), Leg(20.0, 0.0, 120.0)]
TIP, LATER = slice(10, 20), slice(55, 65)


@cache
def stop(rig: Rig) -> float:
    return curb_idle(rig, DAY, PETROL).throttle_angle


def town(rig: Rig) -> Journey:
    return journey(TOWN, stop(rig), step=0.1)


def first(rig: Rig) -> Journey:
    return journey(FIRST, stop(rig), start=(0.0, 16.0), step=0.5)


@cache
def driven(name: str) -> Drive:
    rig, weather, start = PLOVER, DAY, Start.warm(PLOVER, DAY)
    if "no pump" in name:
        rig = replace(rig, pump=replace(rig.pump, cup_leak=5e-5))
    if "cool" in name:
        start = start._replace(coolant=305.0)
    if "frost" in name:
        rig, weather, start = DUNLIN, FROST, Start.cold(FROST)
    if "no timer" in name:
        rig = replace(rig, cold_start=replace(rig.cold_start, timer=0.0))
    if "hot" in name:
        start = Start.after(rig, weather, soak_run(rig, weather, PETROL, [0.0, 900.0]))
    starting = "frost" in name or "hot" in name
    return drive(rig, weather, PETROL, (first if starting else town)(rig), start)


@pytest.mark.parametrize("name", ["town", "no pump", "frost", "hot"])
def test_the_bowls_books_close_over_the_whole_drive(name: str) -> None:
    run = driven(name)
    rig = DUNLIN if name == "frost" else PLOVER
    warmth = {"frost": 263.15}.get(name, run.heat.temperature[0])
    chamber = effective_area(rig.pump) * (rig.pump.stroke - np.array(run.pump.plunger))
    chamber -= run.pump.air
    pumped = density(PETROL, warmth) * (run.pump.delivered + chamber - chamber[0])
    ways = (run.bowl.delivered, run.bowl.spilled, run.bowl.stored, pumped, run.heat.boiled)
    out = np.sum(ways, axis=0)
    np.testing.assert_allclose(run.bowl.inflow, out, rtol=1e-6, atol=1e-9)


@pytest.mark.parametrize("name", ["town", "frost", "hot"])
def test_metered_fuel_reaches_the_cylinders_or_wets_the_wall(name: str) -> None:
    """The film's own equation followed by scipy, which knows nothing of our sums."""
    run, film = driven(name), (DUNLIN if name == "frost" else PLOVER).wall_film
    times, metered, wet, burnt = run.journey.times, run.metered, run.film.mass[0], 0.0
    for i in range(1, len(times)):
        last = 1 / film_time(film, run.coolant[i])

        def rates(now: float, state: np.ndarray, last: float = float(last)) -> list[float]:
            flow = np.interp(now, times, metered)
            gone = state[0] * last
            return [film.wetting_share * flow - gone, (1 - film.wetting_share) * flow + gone]

        span = (times[i - 1], times[i])
        wet, burnt = solve_ivp(rates, span, [wet, burnt], rtol=1e-10, atol=1e-15).y[:, -1]
        assert run.film.mass[i] == pytest.approx(wet, rel=1e-7)
    assert run.film.delivered[-1] == pytest.approx(burnt, rel=1e-6)
    grown = run.film.mass[-1] - run.film.mass[0]
    assert burnt + grown == pytest.approx(np.trapezoid(metered, times), rel=1e-6)


@pytest.mark.parametrize("name", ["town", "frost", "hot"])
def test_what_leaves_the_bowl_and_the_pump_is_what_is_metered(name: str) -> None:
    run = driven(name)
    warmth = 263.15 if name == "frost" else run.heat.temperature[0]
    shot = density(PETROL, warmth) * run.pump.delivered[-1]
    metered = np.trapezoid(run.metered, run.journey.times)
    assert metered == pytest.approx(run.bowl.delivered[-1] + shot, rel=1e-6)


@pytest.mark.parametrize("name", ["town", "frost", "hot"])
def test_air_that_has_entered_is_air_stored_and_air_taken(name: str) -> None:
    """The inflow is added up from the network's flows; the engine's share from its own law."""
    run = driven(name)
    books, demand = run.manifold.books, (DUNLIN if name == "frost" else PLOVER).engine
    warm = 288.15 if name == "frost" else 323.15
    speed = np.interp(run.manifold.times, run.journey.times, run.journey.speed).tolist()
    pairs = zip(speed, run.manifold.pressure, strict=True)
    taken = np.array([air_demand(demand, *pair, warm, 101325.0) for pair in pairs])
    np.testing.assert_allclose(run.manifold.taken, taken, rtol=1e-9)
    out = np.cumsum(np.diff(run.manifold.times) * taken[1:])
    np.testing.assert_allclose(
        books.entered[1:], out + np.diff(books.stored).cumsum(), rtol=1e-9, atol=1e-12
    )


@pytest.mark.parametrize("name", ["town", "no pump", "frost", "hot"])
def test_fuel_off_the_wall_is_drawn_in_or_on_its_way(name: str) -> None:
    run = driven(name)
    rows = run.manifold.rows
    drawn, fuel = np.array(run.charge.drawn), np.array(run.charge.fuel)
    there = drawn[rows] + fuel[rows] - fuel[0]
    np.testing.assert_allclose(there, run.film.delivered, rtol=1e-9, atol=1e-15)


def steady_speed(pressure: float, flow: float) -> float:
    """The speed at which the engine takes a flow at a manifold pressure."""
    warm = manifold_temperature(PLOVER.engine, 298.15)

    def surplus(speed: float) -> float:
        return air_demand(PLOVER.engine, speed, pressure, warm, 101325.0) - flow

    return float(brentq(surplus, 1.0, 400.0, xtol=1e-10))


def test_the_settled_drive_is_a_steady_state_of_the_network_at_every_instant() -> None:
    """Carburettors do not know speed: an engine that took what the manifold takes looks alike."""
    run, rig = driven("town"), PLOVER
    card = rig.float_bowl.depth - rig.float_bowl.specified_level
    for at, row in enumerate(run.manifold.rows):
        settings = Settings(
            choke_angle=run.choke_angle[at],
            bowl_level=run.bowl.level[at] - card,
            vapour=run.heat.vapour[at],
            fuel_temperature=run.heat.temperature[at],
        )
        speed = steady_speed(run.manifold.pressure[row], run.manifold.inflow[row])
        again = solve(rig, DAY, PETROL, speed, run.journey.throttle[at], settings=settings)
        then = run.states[at]
        assert then.fuel_flow == pytest.approx(again.fuel_flow, rel=2e-4)
        assert then.manifold_vacuum == pytest.approx(again.manifold_vacuum, rel=2e-4)


def test_a_tip_in_without_a_pump_goes_lean_at_the_cylinder() -> None:
    bare, helped = driven("no pump"), driven("town")
    assert np.max(bare.cylinder_mixture[TIP]) > 1.1
    assert np.max(helped.cylinder_mixture[TIP]) < np.max(bare.cylinder_mixture[TIP]) - 0.1


def test_without_a_pump_a_cool_engine_hesitates() -> None:
    bare, helped = driven("cool, no pump"), driven("cool")
    leanest = np.argmax(bare.effective_mixture)
    assert TIP.start < leanest < TIP.stop
    assert bare.torque[leanest] < helped.torque[leanest] - 10


def test_lifting_off_is_rich_at_the_cylinder_while_the_film_dries() -> None:
    run = driven("town")
    assert np.min(run.cylinder_mixture[-20:]) < np.min(run.delivered_mixture[-20:]) - 0.1


def test_the_level_falls_under_load_and_comes_back() -> None:
    level = driven("town").bowl.level
    assert np.min(level) < level[0] - 3e-4
    assert level[-1] > np.min(level) + 2e-4


def test_in_frost_half_the_fuel_does_not_burn_and_the_choke_makes_up_for_it() -> None:
    run = driven("frost")
    running = slice(10, None)
    shares = np.array(run.burnable) / run.film.to_cylinder
    assert np.max(shares[running]) < 0.65
    assert np.max(run.delivered_mixture[running]) < 0.6
    assert np.max(run.effective_mixture[running]) < 1.25


def test_pull_off_and_warm_up_open_the_choke() -> None:
    run = driven("frost")
    assert run.choke_angle[0] < 0.25 < DUNLIN.choke.pull_off_angle <= run.choke_angle[-1] + 1e-9
    assert np.all(np.diff(run.coil) >= 0)


def test_the_cam_holds_the_throttle_until_the_pedal_lets_it_fall() -> None:
    held = np.array(driven("frost").journey.throttle)
    assert np.all(held == pytest.approx(stop(DUNLIN) + max(DUNLIN.choke.cam_openings)))


def test_a_dead_timer_starts_leaner() -> None:
    good, dead = driven("frost"), driven("frost, no timer")
    idling = slice(8, None)
    assert np.all(np.array(dead.metered[idling]) < good.metered[idling])


def test_after_a_hot_soak_the_first_turns_are_flooded_and_the_bowl_fills_up() -> None:
    run = driven("hot")
    assert run.cylinder_mixture[0] < 0.3
    assert run.cylinder_mixture[-1] == pytest.approx(run.delivered_mixture[-1], rel=0.02)
    assert run.bowl.level[-1] > run.bowl.level[0] + 2e-3
    assert run.heat.vapour[0] > run.heat.vapour[-1]
