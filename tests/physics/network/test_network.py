"""The whole carburettor: mass conserved part by part, the same answers as another solver.

The balances are written out here once more, air and fuel apart, from the flows of the state.
"""

from dataclasses import replace
from functools import cache
from itertools import product
from math import inf, nan, pi, sqrt
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.circuits.high_speed import jet_coefficients, jet_flow
from fuelcircuits.physics.engine.venturi import booster_gain, venturi_area
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, density, stoichiometric_ratio, viscosity
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.balance import Balance
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import WARM, Settings
from fuelcircuits.physics.network.state import LEANEST, State
from fuelcircuits.physics.network.stream import Stream
from fuelcircuits.physics.openings.orifice import (
    ideal_flux,
    ultimate_coefficient,
    viscous_coefficient,
)
from fuelcircuits.physics.openings.plate import OPEN
from scipy.optimize import root

from tests.places import RIGS

PLOVER, DUNLIN = read_rig(RIGS / "plover.toml"), read_rig(RIGS / "dunlin.toml")
BOTH = pytest.mark.parametrize("rig", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
AIR, PETROL = Weather.at(temperature=293.15), Fuel()
RPM = 2 * pi / 60  # rad/s
PLACES = [
    (turns * RPM, angle)
    for turns, angle in product((700, 1500, 2500, 4000), (0.24, 0.32, 0.5, 0.9, 1.57))
]
STARVED = replace(PLOVER, low_speed=replace(PLOVER.low_speed, jet_bore=0.3e-3))


@cache
def states(rig: Rig, other: Rig | None = None) -> list[State]:
    return [network.solve(rig, AIR, PETROL, *at, other=other) for at in PLACES]


def rows(state: State) -> SimpleNamespace:
    """Return the flows with those of the barrels as arrays, to be added and taken away."""
    shown = {
        name: SimpleNamespace(air=np.array(each.air), fuel=np.array(each.fuel))
        if isinstance(each, Stream)
        else np.array(each)
        for name, each in state.flows._asdict().items()
    }
    return SimpleNamespace(**shown)


def balances(state: State) -> dict[str, tuple[Any, float]]:
    """Return what is left over in each part, and the whole flow it is judged by [kg/s]."""
    f, total = rows(state), state.all_barrels
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
    return left


@BOTH
def test_air_and_fuel_are_conserved_in_every_part(rig: Rig) -> None:
    for state in states(rig):
        for name, (rest, whole) in balances(state).items():
            assert np.all(np.abs(rest) <= 1e-9 * whole), name


def test_air_and_fuel_are_conserved_where_barrels_differ() -> None:
    for state in states(PLOVER, STARVED):
        assert len(state.flows.main_jet) == 2
        for name, (rest, whole) in balances(state).items():
            assert np.all(np.abs(rest) <= 1e-9 * whole), name


@BOTH
def test_circuits_together_deliver_what_the_main_jets_pass(rig: Rig) -> None:
    for state in states(rig):
        assert sum(state.fuel_by_circuit.values()) == pytest.approx(state.fuel_flow, rel=1e-9)


@BOTH
@pytest.mark.parametrize("other", [None, STARVED], ids=["alike", "unlike"])
def test_answers_are_those_of_another_solver(rig: Rig, other: Rig | None) -> None:
    """scipy.optimize.root on the same balances, from a start half a per cent off."""
    ours = network.solve(rig, AIR, PETROL, 2200 * RPM, 0.45, other=other)
    of = pose(rig, AIR, PETROL, WARM, other)
    balance = Balance(of, place(of, 2200 * RPM, 0.45))
    measure = np.array(balance.left(ours.unknowns).measure)
    drop = AIR.pressure - np.array(ours.unknowns)
    theirs = root(
        lambda drops: np.array(balance.left((AIR.pressure - drops).tolist()).level) / measure,
        1.005 * drop,
        tol=1e-13,
    )
    np.testing.assert_allclose(drop, theirs.x, rtol=1e-6)


@BOTH
@pytest.mark.parametrize("other", [None, STARVED], ids=["alike", "unlike"])
def test_slopes_are_those_of_central_differences(rig: Rig, other: Rig | None) -> None:
    """Slopes learnt over a millionth of a pascal are good to about 2e-5 of the largest in a row."""
    state = network.solve(rig, AIR, PETROL, 2200 * RPM, 0.45, other=other)
    of, x, shift = pose(rig, AIR, PETROL, WARM, other), state.unknowns, 1e-4
    balance = Balance(of, place(of, 2200 * RPM, 0.45))
    slopes = np.array(balance.slopes(x, balance.left(x)))
    for k in range(len(x)):
        up, down = (
            np.array(balance.left([*x[:k], x[k] + way * shift, *x[k + 1 :]]).level)
            for way in (1.0, -1.0)
        )
        off = np.abs((up - down) / (2 * shift) - slopes[:, k])
        assert np.all(off <= 1e-4 * np.abs(slopes).max(axis=1)), balance.names[k]


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
    with pytest.raises(ConvergenceError, match="must balance"):
        network.solve_for_angle(PLOVER, AIR, PETROL, 210.0, air_flow=0.5)


def test_barrels_told_apart_but_alike_change_nothing() -> None:
    for one, two in zip(states(PLOVER), states(PLOVER, PLOVER), strict=True):
        assert two.ratio == pytest.approx(one.ratio, rel=1e-7)
        first, second = two.flows.main_jet
        assert first == pytest.approx(second, rel=1e-9)


def test_blocked_jet_in_one_barrel_stays_there() -> None:
    idle = network.curb_idle(PLOVER, AIR, PETROL)
    bad = network.solve(PLOVER, AIR, PETROL, idle.speed, idle.throttle_angle, other=STARVED)
    healthy, starved = bad.flows.idle_jet.fuel
    assert healthy == pytest.approx(idle.flows.idle_jet.fuel[0], rel=0.02)
    assert starved < 0.5 * healthy
    assert idle.ratio < bad.ratio


def test_a_second_barrel_may_have_other_bleed_holes() -> None:
    high = replace(PLOVER.high_speed, hole_count=PLOVER.high_speed.hole_count - 1)
    state = network.solve(PLOVER, AIR, PETROL, 330.0, OPEN, other=replace(PLOVER, high_speed=high))
    assert state.flows.holes[0] != pytest.approx(state.flows.holes[1], rel=1e-3)


@pytest.mark.parametrize(
    ("speed", "angle", "name"),
    [
        (0.0, 0.3, "speed"),
        (nan, 0.3, "speed"),
        (inf, 0.3, "speed"),
        (100.0, -0.1, "angle"),
        (100.0, 2.0, "angle"),
        (100.0, nan, "angle"),
    ],
)
def test_input_out_of_range_is_refused_by_name(speed: float, angle: float, name: str) -> None:
    with pytest.raises(RangeError, match=name):
        network.solve(PLOVER, AIR, PETROL, speed, angle)
    with pytest.raises(RangeError, match=name):
        network.path(PLOVER, AIR, PETROL, [(speed, angle)])


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
    for below in (0.0, 100.0):
        state = held(rig, idle, below)
        assert state.fuel_flow > 1e-8
        assert state.ratio < LEANEST
        assert state.flows.jet_air[0] == 0.0
    jet, rod = rig.high_speed, rig.power.lean_step
    area = pi / 4 * (jet.jet_bore**2 - rod**2)
    for below in (300.0, 1000.0):
        state = held(rig, idle, below)
        assert state.fuel_flow < 1e-8
        assert state.ratio >= LEANEST
        most = area * sqrt(2 * AIR.density * (state.pressures.well[0] - state.pressures.bowl))
        assert 0.5 < state.flows.jet_air[0] / most < 0.85
        left = state.flows.jet_air[0] + state.flows.idle_jet.air[0]
        assert left == pytest.approx(state.flows.backflow[0], abs=1e-8)


def held(rig: Rig, idle: State, below: float) -> State:
    """Return an idle with the bowl held so much below its own pressure [Pa]."""
    settings = Settings(bowl_pressure=idle.pressures.bowl - below)
    return network.solve(rig, AIR, PETROL, idle.speed, idle.throttle_angle, settings=settings)


def bare(rig: Rig) -> Rig:
    """Return the rig as a textbook draws it: jet, plain nozzle without lip, nothing else."""
    absent: Any = None
    low = replace(rig.low_speed, jet_bore=0.05e-3, economizer_bore=0.05e-3, valve_bore=0.0)
    high = replace(rig.high_speed, lip=0.0, nozzle_bore=8e-3, air_bleed_bore=0.0)
    path = replace(rig.air_path, horn_bore=120e-3, horn_discharge=1.0)
    return replace(rig, air_path=path, low_speed=low, high_speed=high, power=absent)


def round_jet(bore: float, length: float, drop: float, heavy: float, thick: float) -> float:
    """Return the fuel that one jet passes [kg/s]."""
    coefficients = jet_coefficients(bore, length)
    return jet_flow(pi / 4 * bore**2, bore, coefficients, drop, heavy, viscosity=thick)


@BOTH
def test_main_circuit_without_lip_and_bleed_is_the_textbook_carburettor(rig: Rig) -> None:
    """Jet and throat under one depression; the book's formula with our coefficients.

    At 1 kPa in the booster compressibility is worth 0.5 %, the low-speed jet that cannot be
    shut altogether and the wide nozzle 0.3 % together.
    """
    throat = venturi_area(rig.air_path) / sqrt(booster_gain(rig.air_path))
    heavy, thick = density(PETROL, 293.15), viscosity(PETROL, 293.15)
    flow = throat * sqrt(2 * AIR.density * 1000.0)
    state = network.solve_for_angle(bare(rig), AIR, PETROL, 250.0, air_flow=flow)
    bore, drop = rig.high_speed.jet_bore, state.booster_depression[0]
    fuel = 2 * round_jet(bore, rig.high_speed.jet_length, drop, heavy, thick)
    assert drop == pytest.approx(1000, rel=0.02)
    assert state.ratio == pytest.approx(throat * ideal_flux(drop, AIR.density) / fuel, rel=0.008)


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
    jet = round_jet(low.jet_bore, low.jet_length, drop, heavy, thick)
    economizer = 0.7 * pi / 4 * low.economizer_bore**2
    fall = p.mix[0] + head * low.fall - p.chamber[0]
    assert state.flows.idle_jet.air[0] == 0
    assert state.flows.idle_jet.fuel[0] == pytest.approx(jet, rel=1e-9)
    rounding = (1 + 1 / fall**2) ** 0.25  # laminar below 1 Pa
    assert economizer * sqrt(2 * heavy * fall) / rounding == pytest.approx(jet, rel=1e-6)
    assert state.flows.screw.fuel[0] == pytest.approx(jet, rel=1e-8)


def test_water_in_the_air_burns_nothing() -> None:
    """Lambda counts dry air alone: 2.7 % of the air of a wet summer's day is water, by hand."""
    wet = Weather.at(temperature=303.15, humidity=1.0)
    state = network.solve(PLOVER, wet, PETROL, 200.0, 0.4)
    dry = state.ratio / 1.0272
    assert state.mixture == pytest.approx(dry / stoichiometric_ratio(PETROL), rel=2e-4)


@BOTH
def test_the_ring_round_a_rod_is_as_slender_as_its_gap(rig: Rig) -> None:
    """By the published coefficient of a drilled hole, the gap for its bore."""
    state = network.solve(rig, AIR, PETROL, 1800 * RPM, 0.38)
    high, thick = rig.high_speed, rig.power.lean_step
    gap, drop = high.jet_bore - thick, state.pressures.bowl - state.pressures.well[0]
    flux = sqrt(2 * density(PETROL, 293.15) * drop)
    reynolds = gap * flux / viscosity(PETROL, 293.15)
    area = pi / 4 * (high.jet_bore**2 - thick**2)
    slender = high.jet_length / gap
    filled = viscous_coefficient(reynolds, slender, ultimate_coefficient(slender))
    flow = filled * area * flux
    assert state.flows.main_jet[0] == pytest.approx(flow, rel=1e-6)
