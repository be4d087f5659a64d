"""The whole carburettor: mass conserved part by part, the same answers as another solver.

The balances are written out here once more, air and fuel apart, from the flows of the state.
"""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.engine.simple_carburettor import air_fuel_ratio
from fuelcircuits.physics.engine.venturi import booster_gain, venturi_area
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, density, viscosity
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.balance import residuals
from fuelcircuits.physics.network.posing import pose
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import LEANEST, State
from fuelcircuits.physics.openings import orifice
from fuelcircuits.physics.openings.plate import OPEN
from scipy.optimize import root

from tests.places import RIGS

PLOVER, DUNLIN = read_rig(RIGS / "plover.toml"), read_rig(RIGS / "dunlin.toml")
BOTH = pytest.mark.parametrize("rig", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
AIR, PETROL = Weather.at(temperature=293.15), Fuel()
RPM = 2 * np.pi / 60  # rad/s
SPEED, ANGLE = np.meshgrid(np.array([700, 1500, 2500, 4000]) * RPM, [0.24, 0.32, 0.5, 0.9, 1.57])


def balances(state: State) -> dict[str, tuple[np.ndarray, np.ndarray]]:
    """Return what is left over in each part, and the whole flow it is judged by [kg/s]."""
    f, total = state.flows, state.all_barrels
    air, fuel = state.air_flow, state.fuel_flow
    well_air = f.holes + f.pull_over + f.backflow
    left = {
        "horn": (f.cleaner - f.choke - total(f.idle_air.air + f.main_bleed) - f.inside_vent, air),
        "choke": (f.choke - total(f.venturi + f.bypass.air + f.valve.air), air),
        "bore": (
            f.venturi + f.nozzle.air + f.bubbles - f.backflow - f.slot_above.air - f.throttle,
            air,
        ),
        "manifold": (f.leak + total(f.throttle + f.slot_below.air + f.screw.air) - air, air),
        "tube": (f.main_bleed - f.holes, air),
        "well air": (well_air - f.bubbles - f.nozzle.air - f.idle_jet.air - f.jet_air, air),
        "well fuel": (f.main_jet - f.nozzle.fuel - f.idle_jet.fuel, fuel),
        "mix air": (
            f.idle_jet.air + f.bypass.air + f.idle_air.air - f.economizer.air - f.pull_over,
            air,
        ),
        "mix fuel": (
            f.idle_jet.fuel + f.bypass.fuel + f.idle_air.fuel - f.economizer.fuel,
            fuel,
        ),
    }
    for kind, whole in (("air", air), ("fuel", fuel)):
        parts = (f.economizer, f.slot_above, f.valve, f.slot_below, f.screw)
        into = [getattr(part, kind) for part in parts]
        left[f"chamber {kind}"] = (into[0] + into[1] + into[2] - into[3] - into[4], whole)
    return {name: (np.asarray(rest), np.asarray(whole)) for name, (rest, whole) in left.items()}


@BOTH
def test_air_and_fuel_are_conserved_in_every_part(rig: Rig) -> None:
    for name, (rest, whole) in balances(network.solve(rig, AIR, PETROL, SPEED, ANGLE)).items():
        assert np.all(np.abs(rest) <= 1e-9 * whole), name


@BOTH
def test_circuits_together_deliver_what_the_main_jets_pass(rig: Rig) -> None:
    state = network.solve(rig, AIR, PETROL, SPEED, ANGLE)
    np.testing.assert_allclose(sum(state.fuel_by_circuit.values()), state.fuel_flow, rtol=1e-9)


@BOTH
def test_answers_are_those_of_another_solver(rig: Rig) -> None:
    """scipy.optimize.root on the same residuals, from a start half a per cent off."""
    ours = network.solve(rig, AIR, PETROL, 2200 * RPM, 0.45)
    problem, points, _ = pose(rig, AIR, PETROL, Settings(), speed=2200 * RPM, angle=0.45)
    measure = residuals(problem, "", ours.unknowns[:, None, :], points)[1][:, 0]

    def left(unknowns: np.ndarray) -> np.ndarray:
        return residuals(problem, "", unknowns[:, None, None], points)[0][:, 0, 0] / measure

    outside = float(np.asarray(AIR.pressure))
    start = outside - 1.005 * (outside - ours.unknowns[:, 0])
    theirs = root(left, start, tol=1e-13)
    drop = outside - theirs.x
    np.testing.assert_allclose(outside - ours.unknowns[:, 0], drop, rtol=1e-6)


@BOTH
def test_many_points_at_once_are_the_points_one_by_one(rig: Rig) -> None:
    together = network.solve(rig, AIR, PETROL, SPEED, ANGLE)
    for place in ((0, 0), (2, 1), (4, 3)):
        single = network.solve(rig, AIR, PETROL, SPEED[place], ANGLE[place])
        assert single.ratio == pytest.approx(together.ratio[place], rel=1e-7)


@BOTH
def test_warm_start_finds_the_same_answer(rig: Rig) -> None:
    near = network.solve(rig, AIR, PETROL, 200.0, 0.4)
    cold = network.solve(rig, AIR, PETROL, 203.0, 0.41)
    warm = network.solve(rig, AIR, PETROL, 203.0, 0.41, start=near)
    assert warm.ratio == pytest.approx(cold.ratio, rel=1e-8)


@pytest.mark.parametrize("reading", ["air_flow", "manifold_vacuum"])
def test_angle_is_found_from_a_reading(reading: str) -> None:
    there = network.solve(PLOVER, AIR, PETROL, 210.0, 0.38)
    wanted = {reading: getattr(there, reading)}
    back = network.solve_for_angle(PLOVER, AIR, PETROL, 210.0, **wanted)
    assert back.throttle_angle == pytest.approx(0.38, rel=1e-7)
    assert back.ratio == pytest.approx(there.ratio, rel=1e-6)


def test_speed_and_angle_of_an_idle_agree() -> None:
    idle = network.curb_idle(PLOVER, AIR, PETROL)
    back = network.solve_for_speed(PLOVER, AIR, PETROL, idle.throttle_angle)
    assert back.speed == pytest.approx(PLOVER.engine.idle_speed, rel=1e-6)


def test_two_readings_at_once_are_refused() -> None:
    with pytest.raises(RangeError, match="just one of three, got 2"):
        network.solve_for_angle(PLOVER, AIR, PETROL, 210.0, air_flow=0.01, torque=0.0)


def test_air_flow_no_throttle_can_give_is_refused_by_name() -> None:
    with pytest.raises(ConvergenceError, match="must"):
        network.solve_for_angle(PLOVER, AIR, PETROL, 210.0, air_flow=0.5)


def test_barrels_told_apart_but_alike_change_nothing() -> None:
    one = network.solve(PLOVER, AIR, PETROL, SPEED, ANGLE)
    two = network.solve(PLOVER, AIR, PETROL, SPEED, ANGLE, other=PLOVER)
    np.testing.assert_allclose(two.ratio, one.ratio, rtol=1e-7)
    assert two.flows.main_jet.shape == (2, *SPEED.shape)


def test_blocked_jet_in_one_barrel_stays_there() -> None:
    blocked = replace(PLOVER, low_speed=replace(PLOVER.low_speed, jet_bore=0.3e-3))
    idle = network.curb_idle(PLOVER, AIR, PETROL)
    bad = network.solve(PLOVER, AIR, PETROL, idle.speed, idle.throttle_angle, other=blocked)
    healthy, starved = bad.flows.idle_jet.fuel
    assert healthy == pytest.approx(idle.flows.idle_jet.fuel[0], rel=0.02)
    assert starved < 0.5 * healthy
    assert idle.ratio < bad.ratio


def test_whole_sweep_runs_from_idle_to_wide_open() -> None:
    state = network.sweep(PLOVER, AIR, PETROL, count=60)
    assert state.throttle_angle[-1] == pytest.approx(OPEN)
    assert state.speed[0] == pytest.approx(PLOVER.engine.idle_speed)
    assert state.ratio.shape == (60,)


@pytest.mark.parametrize(
    ("speed", "angle", "name"),
    [(0.0, 0.3, "speed"), (np.nan, 0.3, "speed"), (100.0, -0.1, "angle"), (100.0, 2.0, "angle")],
)
def test_input_out_of_range_is_refused_by_name(speed: float, angle: float, name: str) -> None:
    with pytest.raises(RangeError, match=name):
        network.solve(PLOVER, AIR, PETROL, speed, angle)


def test_rig_without_a_circuit_is_refused_by_name() -> None:
    missing: Any = None
    with pytest.raises(RangeError, match="section low_speed, got none on plover"):
        network.solve(replace(PLOVER, low_speed=missing), AIR, PETROL, 100.0, 0.3)


def test_bowl_without_a_vent_is_refused_by_name() -> None:
    shut = replace(PLOVER, vents=replace(PLOVER.vents, inside_bore=0.0, outside_bore=0.0))
    with pytest.raises(ConvergenceError, match="bowl pressure"):
        network.solve(shut, AIR, PETROL, 200.0, 0.4)


@BOTH
def test_bowl_sucked_below_what_idle_needs_empties_the_wells(rig: Rig) -> None:
    """Air then follows the fuel back, under the drop that fuel had, as an orifice passes it."""
    idle = network.curb_idle(rig, AIR, PETROL)
    low = float(idle.pressures.bowl) - np.array([0.0, 100.0, 300.0, 1000.0])
    held = Settings(bowl_pressure=low)
    state = network.solve(rig, AIR, PETROL, idle.speed, idle.throttle_angle, settings=held)
    assert list(state.fuel_flow > 1e-8) == [True, True, False, False]
    assert list(state.ratio >= LEANEST) == [False, False, True, True]
    assert list(state.flows.jet_air[0] > 0.0) == [False, False, True, True]
    jet, rod = rig.high_speed, rig.power.lean_step
    area = np.pi / 4 * (np.asarray(jet.jet_bore) ** 2 - np.asarray(rod) ** 2)
    most = area * np.sqrt(2 * AIR.density * (state.pressures.well[0] - low)[2:])
    share = state.flows.jet_air[0, 2:] / most
    assert np.all((share > 0.5) & (share < 0.85))
    left = state.flows.jet_air + state.flows.idle_jet.air
    np.testing.assert_allclose(left, state.flows.backflow, atol=1e-8)


def bare(rig: Rig) -> Rig:
    """Return the rig as a textbook draws it: jet, plain nozzle without lip, nothing else."""
    absent: Any = None
    low = replace(rig.low_speed, jet_bore=0.05e-3, economizer_bore=0.05e-3, valve_bore=0.0)
    high = replace(rig.high_speed, lip=0.0, nozzle_bore=8e-3, air_bleed_bore=0.0)
    path = replace(rig.air_path, horn_bore=120e-3, horn_discharge=1.0)
    return replace(rig, air_path=path, low_speed=low, high_speed=high, power=absent)


@BOTH
def test_main_circuit_without_lip_and_bleed_is_the_textbook_carburettor(rig: Rig) -> None:
    """Jet and throat under one depression; the book's formula with our coefficients.

    At 1 kPa in the booster compressibility is worth 0.5 %, the low-speed jet that cannot be
    shut altogether and the wide nozzle 0.3 % together.
    """
    throat = venturi_area(rig.air_path) / np.sqrt(booster_gain(rig.air_path))
    heavy, thick = density(PETROL, 293.15), viscosity(PETROL, 293.15)
    flow = throat * np.sqrt(2 * AIR.density * 1000.0)
    state = network.solve_for_angle(bare(rig), AIR, PETROL, 250.0, air_flow=flow)
    bore, drop = np.asarray(rig.high_speed.jet_bore), float(state.booster_depression[0])
    reynolds = orifice.reynolds_number(bore, drop, heavy, thick)
    coefficient = orifice.discharge_coefficient(reynolds, rig.high_speed.jet_length / bore)
    expected = air_fuel_ratio(
        throat / 2, np.pi / 4 * bore**2, drop, (AIR.density, heavy), (1.0, coefficient)
    )
    assert drop == pytest.approx(1000, rel=0.02)
    assert state.ratio == pytest.approx(expected, rel=0.008)


def test_low_speed_circuit_without_air_is_plain_orifices_in_a_row() -> None:
    """All bleeds shut and the slot filed shut: fuel alone, jet after jet to the screw port."""
    low = replace(
        PLOVER.low_speed, bypass_bore=0.0, air_bleed_bore=0.0, slot_width=0.0, valve_bore=0.0
    )
    dry = replace(PLOVER, low_speed=replace(low, screw_turns=0.03))
    state = network.solve(dry, AIR, PETROL, 75.0, 0.23)
    p, heavy, thick = state.pressures, density(PETROL, 293.15), viscosity(PETROL, 293.15)
    head = heavy * 9.80665
    drop = p.well[0] - head * low.lift - p.mix[0]
    jet = orifice.mass_flow(low.jet_bore, low.jet_length, drop, heavy, thick)
    economizer = 0.7 * np.pi / 4 * np.asarray(low.economizer_bore) ** 2
    fall = p.mix[0] + head * low.fall - p.chamber[0]
    assert state.flows.idle_jet.air[0] == 0
    assert state.flows.idle_jet.fuel[0] == pytest.approx(jet, rel=1e-9)
    rounding = (1 + 1 / fall**2) ** 0.25  # laminar below 1 Pa
    assert economizer * np.sqrt(2 * heavy * fall) / rounding == pytest.approx(jet, rel=1e-6)
    assert state.flows.screw.fuel[0] == pytest.approx(jet, rel=1e-8)


def test_idle_speed_from_a_state_nearby_is_that_from_a_guess() -> None:
    stop = float(network.curb_idle(PLOVER, AIR, PETROL).throttle_angle)
    near, turned = stop + np.array([0.0, 0.02]), stop + np.array([0.005, 0.03])
    start = network.solve_for_speed(PLOVER, AIR, PETROL, near)
    found = network.solve_for_speed(PLOVER, AIR, PETROL, turned, start=start)
    fresh = network.solve_for_speed(PLOVER, AIR, PETROL, turned)
    np.testing.assert_allclose(found.speed, fresh.speed, rtol=1e-8)
    np.testing.assert_allclose(found.mixture, fresh.mixture, rtol=1e-6)
