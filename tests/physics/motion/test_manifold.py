"""A filling manifold under the whole network: against scipy, and air that must not get lost."""

from dataclasses import replace
from itertools import pairwise
from math import exp

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.engine.engine import air_demand, manifold_temperature
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.manifold import Breath, breathed, held_air, holds, standing
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.network.settings import WARM
from fuelcircuits.physics.network.solving import curb_idle, path, solve
from fuelcircuits.physics.openings.plate import OPEN
from numpy.typing import NDArray
from scipy.integrate import solve_ivp
from scipy.interpolate import RegularGridInterpolator

from tests.places import RIGS

Floats = NDArray[np.float64]
PLOVER, DAY, PETROL = read_rig(RIGS / "plover.toml"), Weather.at(0.0, 298.15), Fuel()
SPEED = 157.08
STOP = curb_idle(PLOVER, DAY, PETROL).throttle_angle
BEFORE, AFTER = (STOP + (OPEN - STOP) * share for share in (0.02, 0.5))
OF = pose(PLOVER, DAY, PETROL, WARM)


def angle(now: float) -> float:
    return float(np.interp(now, [0.1, 0.4], [BEFORE, AFTER]))


def run(times: list[float], opened: bool = True) -> list[Breath]:
    """Return the breaths of a tip-in at a held speed, or of a throttle that stays."""
    state = solve(PLOVER, DAY, PETROL, SPEED, BEFORE)
    held, found = holds(OF) * state.pressures.manifold, list[Breath]()
    for before, now in pairwise(times):
        at = place(OF, SPEED, angle(now) if opened else BEFORE)
        found.append(breathed(OF, at, held, now - before, purge=0.0, start=state))
        held, state = found[-1].held, found[-1].state
    return found


def inflow(angles: Floats, pressures: Floats) -> RegularGridInterpolator:
    """Air through the carburettor by throttle angle and manifold pressure.

    A carburettor does not know its engine: steady states of a large one tell the whole curve.
    """
    large = replace(PLOVER.engine, displacement=9e-3, breathing_speed=600.0, breathing_width=2e3)
    rig, rows = replace(PLOVER, engine=large), []
    for each in angles.tolist():
        places = [(speed, each) for speed in np.geomspace(700.0, 0.3, 60).tolist()]
        states = path(rig, DAY, PETROL, places)
        pressure = [state.pressures.manifold for state in states]
        assert pressure == sorted(pressure)
        rows.append(np.interp(pressures, pressure, [state.air_flow for state in states]))
    return RegularGridInterpolator((angles, pressures), np.array(rows))


def test_the_pressure_through_a_tip_in_agrees_with_scipy() -> None:
    """Known to the first order of our steps of 5 ms and to the table that scipy looks up in."""
    warm = manifold_temperature(PLOVER.engine, 298.15)
    angles = np.linspace(BEFORE, AFTER, 30)
    table = inflow(angles, 101325.0 - np.geomspace(20.0, 8e4, 400)[::-1])
    held = 0.5 * 3.1e-3 / (287.05 * warm)

    def rate(now: float, state: Floats) -> Floats:
        came = table((min(max(angle(now), BEFORE), AFTER), float(state[0])))
        taken = air_demand(PLOVER.engine, SPEED, float(state[0]), warm, 101325.0)
        return np.asarray((came - taken) / held)

    times = np.linspace(0.0, 0.6, 121).tolist()
    ours = [each.pressure for each in run(times)]
    first = [solve(PLOVER, DAY, PETROL, SPEED, BEFORE).pressures.manifold]
    theirs = solve_ivp(rate, (0, 0.6), first, "LSODA", times, rtol=1e-7, max_step=2e-3).y[0]
    assert np.max(np.abs(ours - theirs[1:])) < 0.02 * np.ptp(theirs)


@pytest.mark.parametrize("step", [0.005, 0.02, 0.3])
def test_air_in_is_air_stored_and_air_out(step: float) -> None:
    times = np.arange(0.0, 0.61, step).tolist()
    held = holds(OF) * solve(PLOVER, DAY, PETROL, SPEED, BEFORE).pressures.manifold
    for each in run(times):
        assert each.inflow - each.taken == pytest.approx((each.held - held) / step, abs=1e-10)
        held = each.held


def test_while_it_fills_more_comes_in_than_the_engine_takes() -> None:
    breaths = run(np.linspace(0.0, 1.5, 76).tolist())
    assert max(each.inflow / each.taken for each in breaths) > 1.3
    assert breaths[-1].inflow == pytest.approx(breaths[-1].taken, rel=1e-3)


def test_a_steady_throttle_stays_where_it_was_however_long_the_step() -> None:
    first = solve(PLOVER, DAY, PETROL, SPEED, BEFORE)
    for each in run([0.0, 0.02, 1.0, 50.0], opened=False):
        assert each.pressure == pytest.approx(first.pressures.manifold, rel=1e-8)
        assert each.asked == pytest.approx(first.fuel_flow, rel=1e-6)


def test_an_engine_that_stands_lets_its_manifold_fill() -> None:
    state = solve(PLOVER, DAY, PETROL, SPEED, BEFORE)
    held = holds(OF) * state.pressures.manifold
    still = standing(OF, state, held, 0.1)
    assert still.pressure == DAY.pressure
    assert held + 0.1 * still.inflow == pytest.approx(still.held)
    assert still.taken == still.asked == 0.0


def test_the_engines_answer_to_speed_grows_with_the_step() -> None:
    # First principles: 1 - exp(-t / tau) begins as t / tau, tau the time that the air stays.
    short, long = (run([0.0, step], opened=False)[0] for step in (1e-3, 10.0))
    stays = holds(OF) / place(OF, SPEED, BEFORE).demand_rate
    assert short.answered == pytest.approx(1 - exp(-1e-3 / stays), rel=0.02)
    assert long.answered == pytest.approx(1.0, abs=0.02)


def test_the_manifold_holds_what_an_ideal_gas_would() -> None:
    # 1.55 litres at 101325 Pa and 323.15 K with 287.05 J/(kg K): 1.693 g, by hand.
    assert held_air(PLOVER.engine, 323.15) * 101325.0 == pytest.approx(1.693e-3, rel=1e-3)


def test_a_step_of_no_length_is_refused() -> None:
    with pytest.raises(RangeError, match="time step must be positive"):
        run([0.0, 0.0])


# A blocked exhaust, and exhaust let back, as unit 14 puts them in: areas and pressures judged.
@pytest.mark.parametrize(
    "around",
    [{"exhaust_resistance": 4e7}, {"recirculation": 12e-6}],
    ids=["blocked exhaust", "exhaust let back"],
)
def test_a_settled_breath_is_the_steady_network_with_the_exhaust_in_it(
    around: dict[str, float],
) -> None:
    rig = replace(PLOVER, engine=replace(PLOVER.engine, **around))
    of, steady = pose(rig, DAY, PETROL, WARM), solve(rig, DAY, PETROL, SPEED, AFTER)
    held = holds(of) * steady.pressures.manifold
    found = breathed(of, place(of, SPEED, AFTER), held, 10.0, purge=0.0, start=steady)
    plain = solve(PLOVER, DAY, PETROL, SPEED, AFTER)
    assert found.taken == pytest.approx(steady.air_flow, rel=1e-6)
    assert found.inflow == pytest.approx(found.taken, rel=1e-6)
    assert found.taken < 0.999 * plain.air_flow


def test_air_adds_up_while_a_manifold_fills_against_a_blocked_exhaust() -> None:
    engine = replace(PLOVER.engine, exhaust_resistance=4e7, recirculation=12e-6)
    rig = replace(PLOVER, engine=engine)
    of, state = pose(rig, DAY, PETROL, WARM), solve(rig, DAY, PETROL, SPEED, BEFORE)
    held = first = holds(of) * state.pressures.manifold
    gained = 0.0
    for _ in range(20):
        breath = breathed(of, place(of, SPEED, AFTER), held, 0.02, purge=0.0, start=state)
        held, state = breath.held, breath.state
        gained += 0.02 * (breath.inflow - breath.taken)
    assert held - first == pytest.approx(gained, rel=1e-6)
    assert held > 1.5 * first
