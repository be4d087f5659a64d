"""Both teaching rigs behave as such carburettors do.

The bands are common practice, no source, unless one is named. Rigs and bands are for teaching;
nothing here was measured on a real carburettor.
"""

from dataclasses import replace

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN

from tests.places import RIGS

PLOVER, DUNLIN = read_rig(RIGS / "plover.toml"), read_rig(RIGS / "dunlin.toml")
BOTH = pytest.mark.parametrize("rig", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
AIR, PETROL = Weather.at(temperature=293.15), Fuel()
RPM = 2 * np.pi / 60  # rad/s
INHG, INH2O = 3386.389, 249.08891  # Pa; NIST SP 811
SPEEDS = np.array([1200, 1800, 2400, 3000, 3600]) * RPM
IDLES = {rig.name: network.curb_idle(rig, AIR, PETROL) for rig in (PLOVER, DUNLIN)}
SWEEPS = {rig.name: network.sweep(rig, AIR, PETROL) for rig in (PLOVER, DUNLIN)}


def at(rig: Rig, speed: object, angle: object, **now: float) -> State:
    speed, angle = np.asarray(speed), np.asarray(angle)
    return network.solve(rig, AIR, PETROL, speed, angle, settings=Settings(**now))


def stop(rig: Rig) -> float:
    return float(IDLES[rig.name].throttle_angle)


@BOTH
def test_warm_idle_is_steady_and_a_little_rich(rig: Rig) -> None:
    idle = IDLES[rig.name]
    assert 600 * RPM <= idle.speed <= 800 * RPM
    assert 16 * INHG <= idle.manifold_vacuum <= 20 * INHG
    assert 12.5 <= idle.ratio <= 14.5


@BOTH
def test_cruise_is_lean(rig: Rig) -> None:
    speed, vacuum = np.meshgrid(np.array([1700, 2000, 2300]) * RPM, np.array([12, 14, 16]) * INHG)
    cruise = network.solve_for_angle(rig, AIR, PETROL, speed, manifold_vacuum=vacuum)
    assert np.all((cruise.ratio >= 14.5) & (cruise.ratio <= 16))


@BOTH
def test_wide_open_throttle_is_rich(rig: Rig) -> None:
    full = at(rig, SPEEDS, OPEN)
    assert np.all((full.ratio >= 12) & (full.ratio <= 13))


@BOTH
def test_sweep_has_no_lean_hole(rig: Rig) -> None:
    assert np.all(SWEEPS[rig.name].ratio < 17)


@BOTH
def test_no_steady_angle_is_a_lean_hole_at_any_speed(rig: Rig) -> None:
    speed, angle = np.meshgrid(SPEEDS, stop(rig) + (OPEN - stop(rig)) * np.linspace(0, 1, 60) ** 2)
    assert np.all(at(rig, speed, angle).ratio < 17)


@BOTH
def test_chamber_vacuum_at_curb_idle_is_3_to_4_inches_of_water(rig: Rig) -> None:
    assert 3 * INH2O <= IDLES[rig.name].chamber_vacuum[0] <= 4 * INH2O


@BOTH
def test_bleed_valve_is_shut_at_idle_and_opens_off_idle_at_7_to_12_inches(rig: Rig) -> None:
    angle = stop(rig) + np.radians(np.linspace(0, 8, 161))
    rising = at(rig, 1200 * RPM, angle)
    lift, vacuum = rising.valve_lift[0], rising.chamber_vacuum[0]
    assert lift[0] == 0
    assert lift[-1] > 0.1
    assert 7 * INH2O <= vacuum[np.argmax(lift > 0)] <= 12 * INH2O


@BOTH
def test_bleed_valve_stays_shut_while_the_choke_is_closed(rig: Rig) -> None:
    shut = rig.air_path.choke_closed_angle
    angle = stop(rig) + np.radians(np.linspace(0, 8, 9))
    assert np.all(at(rig, 900 * RPM, angle, choke_angle=shut).valve_lift == 0)


@BOTH
def test_hard_tip_in_drops_the_chamber_vacuum_and_shuts_the_valve(rig: Rig) -> None:
    before = at(rig, 1500 * RPM, stop(rig) + np.radians(6))
    after = at(rig, 1500 * RPM, OPEN)
    assert before.valve_lift[0] > 0.1
    assert after.chamber_vacuum[0] < 0.5 * before.chamber_vacuum[0]
    assert after.valve_lift[0] == 0


@BOTH
def test_bleed_valve_is_open_on_overrun_while_the_throttle_comes_back(rig: Rig) -> None:
    """At 3000 rpm, the plate 5 degrees off its stop, where a return check would hold it."""
    overrun = at(rig, 3000 * RPM, stop(rig) + np.radians(5))
    assert overrun.manifold_vacuum > 21 * INHG
    assert overrun.valve_lift[0] > 0.1


@BOTH
def test_throttle_on_its_stop_does_not_tell_the_chamber_how_fast_the_engine_turns(
    rig: Rig,
) -> None:
    """Choked flow passes no news upstream (first principles): overrun alone opens no valve."""
    closed = at(rig, np.array([700, 1500, 3000]) * RPM, stop(rig))
    assert closed.manifold_vacuum[2] > closed.manifold_vacuum[0] + 4 * INHG
    assert np.ptp(closed.chamber_vacuum[0]) < 0.01 * INH2O


@BOTH
def test_idle_runs_on_the_idle_ports_and_full_load_on_the_nozzle(rig: Rig) -> None:
    idle, full = IDLES[rig.name], at(rig, 3000 * RPM, OPEN)
    assert idle.fuel_by_circuit["nozzle"] == 0
    assert full.fuel_by_circuit["nozzle"] > 0.99 * full.fuel_flow


@BOTH
def test_booster_pulls_the_idle_circuit_over_at_full_load(rig: Rig) -> None:
    full = at(rig, 3600 * RPM, OPEN)
    assert full.flows.pull_over[0] > 0
    assert full.flows.idle_jet.fuel[0] == 0


@BOTH
def test_slot_hands_over_to_the_nozzle_without_a_gap(rig: Rig) -> None:
    """Where the nozzle starts, slot and screw deliver more than at idle."""
    sweep, idle = SWEEPS[rig.name], IDLES[rig.name]
    first = int(np.argmax(sweep.fuel_by_circuit["nozzle"] > 1e-6))
    ports = sweep.fuel_by_circuit["slot"] + sweep.fuel_by_circuit["screw"]
    assert ports[first] > 1.5 * idle.fuel_flow


def test_holes_uncover_as_the_flow_grows_and_flatten_the_curve() -> None:
    """With one high hole in place of a row the mixture gets richer with flow, more than before."""
    one = replace(PLOVER, high_speed=replace(PLOVER.high_speed, hole_count=1.0))
    speeds = np.array([1500.0, 3600.0]) * RPM
    row, single = at(PLOVER, speeds, OPEN).ratio, at(one, speeds, OPEN).ratio
    assert single[1] / single[0] < row[1] / row[0]


@pytest.mark.parametrize(
    ("part", "field", "low", "high"),
    [
        ("high_speed", "jet_bore", 1.1e-3, 1.8e-3),
        ("low_speed", "jet_bore", 0.6e-3, 0.8e-3),
        ("float_bowl", "fuel_pressure", 4 * 6894.757, 6 * 6894.757),
    ],
)
@BOTH
def test_dimensions_are_those_of_the_trade(
    rig: Rig, part: str, field: str, low: float, high: float
) -> None:
    assert low <= getattr(getattr(rig, part), field) <= high


TURNS = np.array([2.1, 2.4, 2.7, 3.0, 3.3])


def turned(rig: Rig, **screw: float) -> np.ndarray:
    """Return the idle mixture for each setting of the screw."""
    rigs = [
        replace(rig, low_speed=replace(rig.low_speed, screw_turns=float(turns), **screw))
        for turns in TURNS
    ]
    idle = IDLES[rig.name]
    return np.array([float(at(one, idle.speed, idle.throttle_angle).ratio) for one in rigs])


@BOTH
def test_mixture_screw_turned_outward_is_richer(rig: Rig) -> None:
    assert np.all(np.diff(turned(rig)) < 0)


@BOTH
def test_air_screw_turned_outward_is_leaner(rig: Rig) -> None:
    assert np.all(np.diff(turned(rig, screw_meters_air=1.0)) > 0)


def changed_by_a_larger_jet(rig: Rig, part: str) -> np.ndarray:
    """Return what a jet 6 % larger does to the mixture, from idle to full load."""
    section = getattr(rig, part)
    bigger = replace(rig, **{part: replace(section, jet_bore=1.06 * section.jet_bore)})
    angle = np.radians([14, 18, 25, 40, 89])
    speed = np.array([700, 1300, 2000, 2600, 3600]) * RPM
    return np.asarray(at(bigger, speed, angle).ratio - at(rig, speed, angle).ratio)


@BOTH
def test_larger_main_jet_is_richer_everywhere(rig: Rig) -> None:
    change = changed_by_a_larger_jet(rig, "high_speed")
    assert np.all(change < 0)
    assert change[-1] < -1.0


@BOTH
def test_larger_low_speed_jet_is_richer_at_idle_and_leaner_when_pulled_over(rig: Rig) -> None:
    change = changed_by_a_larger_jet(rig, "low_speed")
    assert change[0] < -0.4
    assert change[-1] > 0


@BOTH
@pytest.mark.parametrize("angle", [14.0, 20.0, 30.0, 90.0])
def test_bowl_pressure_up_is_richer(rig: Rig, angle: float) -> None:
    pressure = np.asarray(AIR.pressure) + np.array([-20.0, 0.0, 50.0, 200.0])
    settings = Settings(bowl_pressure=pressure)
    state = network.solve(rig, AIR, PETROL, 2000 * RPM, np.radians(angle), settings=settings)
    assert np.all(np.diff(state.ratio) < 0)


@BOTH
@pytest.mark.parametrize("angle", [20.0, 30.0, 90.0])
def test_higher_altitude_is_richer(rig: Rig, angle: float) -> None:
    high = Weather.at(np.array([0.0, 1000.0, 2000.0, 3000.0]))
    state = network.solve(
        rig, high, PETROL, 2000 * RPM, np.radians(angle), settings=Settings(fuel_temperature=288.0)
    )
    assert np.all(np.diff(state.ratio) < 0)


@BOTH
def test_ethanol_leans_the_mixture_in_lambda(rig: Rig) -> None:
    lean = [
        float(network.solve(rig, AIR, Fuel(ethanol=share), 2000 * RPM, 0.45).mixture)
        for share in (0.0, 0.1, 0.2)
    ]
    assert np.all(np.diff(lean) > 0)
