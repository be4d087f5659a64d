"""A tip-in on a drive: the manifold against scipy, lambda at the cylinders, and purge air."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.engine.engine import air_demand, manifold_temperature
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.drive import Drive, Start, drive
from fuelcircuits.physics.motion.journey import Leg, journey
from fuelcircuits.physics.network.rig import ABSENT
from fuelcircuits.physics.network.solving import curb_idle, path
from numpy.typing import NDArray
from scipy.integrate import solve_ivp
from scipy.interpolate import RegularGridInterpolator

from tests.places import RIGS

Floats = NDArray[np.float64]
PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
DAY, PETROL = Weather.at(0.0, 298.15), Fuel()
LIGHT, HALF, ROAD, IDLE = 0.02, 0.5, 157.08, 75.0  # throttle shares; 1500 rpm and 716 rpm
RICHEST, LEANEST = 0.75, 1.15
"""Lambda between which a warm engine pulls without bog or stumble: common practice, no source."""


@cache
def tipped(name: str, *, speed: float = ROAD, shot: bool = True, step: float = 0.02) -> Drive:
    """A pedal that goes from light to half throttle in 0.3 s with the speed held."""
    rig = {"plover": PLOVER, "dunlin": DUNLIN}[name]
    rig = rig if shot else replace(rig, pump=replace(rig.pump, linkage_start=1.2))
    stop = curb_idle(rig, DAY, PETROL).throttle_angle
    legs = [Leg(0.2, LIGHT, speed), Leg(0.3, HALF, speed), Leg(1.5, HALF, speed)]
    trip = journey(legs, stop, start=(LIGHT, speed), step=step)
    return drive(rig, DAY, PETROL, trip, Start.warm(rig, DAY))


def test_without_the_shot_a_warm_tip_in_has_a_lean_spike() -> None:
    mixture = tipped("plover", shot=False).cylinder_mixture
    assert mixture[0] < LEANEST < np.max(mixture) - 0.2
    assert mixture[-1] < mixture[0]


def test_with_the_shot_a_warm_tip_in_stays_within_what_pulls() -> None:
    mixture = tipped("plover").cylinder_mixture
    assert np.min(mixture) > RICHEST
    assert np.max(mixture) < LEANEST


def test_half_the_step_moves_the_leanest_moment_by_little() -> None:
    coarse, fine = (tipped("plover", step=step).cylinder_mixture for step in (0.02, 0.01))
    assert np.max(coarse) == pytest.approx(np.max(fine), abs=0.05)
    assert np.min(coarse) == pytest.approx(np.min(fine), abs=0.02)


def test_at_idle_speed_the_same_shot_is_too_much() -> None:
    """The pump knows the pedal, not the speed: half the air must burn the same shot."""
    mixture = tipped("plover", speed=IDLE).cylinder_mixture
    assert np.min(mixture) < RICHEST
    assert np.max(mixture) < LEANEST


def test_while_the_manifold_fills_more_air_comes_in_than_the_engine_takes() -> None:
    run = tipped("plover").manifold
    rows = zip(run.times, run.inflow, run.taken, strict=True)
    assert max(came / taken for now, came, taken in rows if 0.22 < now < 0.4) > 1.3
    assert run.inflow[-1] == pytest.approx(run.taken[-1], rel=1e-3)


def inflow(angles: Floats, pressures: Floats) -> RegularGridInterpolator:
    """Air through the carburettor by throttle angle and manifold pressure.

    A carburettor does not know its engine: steady states of a large one tell the whole curve.
    """
    large = replace(PLOVER.engine, displacement=9e-3, breathing_speed=600.0, breathing_width=2e3)
    rig, rows = replace(PLOVER, engine=large), []
    for angle in angles.tolist():
        places = [(speed, angle) for speed in np.geomspace(700.0, 0.3, 60).tolist()]
        states = path(rig, DAY, PETROL, places)
        pressure = [each.pressures.manifold for each in states]
        assert pressure == sorted(pressure)
        rows.append(np.interp(pressures, pressure, [each.air_flow for each in states]))
    return RegularGridInterpolator((angles, pressures), np.array(rows))


def test_the_pressure_through_a_tip_in_agrees_with_scipy() -> None:
    """Known to the first order of our steps of 5 ms and to the table that scipy looks up in."""
    run = tipped("plover", step=0.005)
    trip, warm = run.journey, manifold_temperature(PLOVER.engine, 298.15)
    angles = np.linspace(trip.throttle[0], trip.throttle[-1], 40)
    table = inflow(angles, 101325.0 - np.geomspace(20.0, 7.5e4, 400)[::-1])
    held = 0.5 * 3.1e-3 / (287.05 * warm)

    def rate(now: float, state: Floats) -> Floats:
        angle = float(np.interp(now, trip.times, trip.throttle))
        came = table((min(angle, angles[-1]), float(state[0])))
        taken = air_demand(PLOVER.engine, ROAD, float(state[0]), warm, 101325.0)
        return np.asarray((came - taken) / held)

    end = 0.6
    shown = [now for now in trip.times if now <= end]
    ours = [each.pressures.manifold for each in run.states[: len(shown)]]
    theirs = solve_ivp(rate, (0, end), ours[:1], "LSODA", shown, rtol=1e-7, max_step=2e-3).y[0]
    assert np.max(np.abs(ours - theirs)) < 0.02 * np.ptp(theirs)


def test_a_canister_lends_the_manifold_air_and_leans_the_light_throttle() -> None:
    # Choked flow of 1.2 mm at 101325 Pa and 298.15 K: 0.0404 sqrt(K) s/m (Heywood 1988,
    # appendix C) times 0.65 of the area times pressure over root of temperature: 0.174 g/s.
    bare = replace(DUNLIN, canister=ABSENT)
    stop = curb_idle(bare, DAY, PETROL).throttle_angle
    trip = journey([Leg(0.2, LIGHT, ROAD)], stop, start=(LIGHT, ROAD))
    on, off = (drive(rig, DAY, PETROL, trip, Start.warm(rig, DAY)) for rig in (DUNLIN, bare))
    assert np.array(on.manifold.purge) == pytest.approx(1.743e-4, rel=5e-3)
    assert on.cylinder_mixture[-1] > off.cylinder_mixture[-1]
    assert set(off.manifold.purge) == {0.0}


def test_a_loaded_canister_gives_the_cylinders_what_its_bed_loses() -> None:
    # First principles: purge ratio 0.3 of 0.174 g/s of air from a bed that is full.
    stop = curb_idle(DUNLIN, DAY, PETROL).throttle_angle
    trip = journey([Leg(0.5, LIGHT, ROAD)], stop, start=(LIGHT, ROAD))
    start = Start.warm(DUNLIN, DAY)
    full, clean = (
        drive(DUNLIN, DAY, PETROL, trip, start._replace(load=load))
        for load in (DUNLIN.canister.capacity, 0.0)
    )
    gained = full.charge.drawn[-1] - clean.charge.drawn[-1]
    assert gained == pytest.approx(0.3 * 1.743e-4 * 0.5, rel=0.01)
    assert full.cylinder_mixture[-1] < clean.cylinder_mixture[-1]
