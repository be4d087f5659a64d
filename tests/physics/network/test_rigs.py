"""Both teaching rigs behave as such carburettors do.

The bands are common practice, no source, unless one is named; the trade's figures stand in the
table of published values, marked so. Rigs and bands are for teaching; nothing here was measured
on a real carburettor. Each rig has figures of its own inside the trade's.
"""

from dataclasses import replace
from itertools import pairwise, product
from math import pi, radians
from typing import Any

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.engine.torque import brake_torque, torque_factor
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.plate import OPEN

from tests.flow_stand import on_flow_stand
from tests.places import RIGS
from tests.published.table import rows

PLOVER, DUNLIN = read_rig(RIGS / "plover.toml"), read_rig(RIGS / "dunlin.toml")
BOTH = pytest.mark.parametrize("rig", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
AIR, PETROL = Weather.at(temperature=293.15), Fuel()
RPM = 2 * pi / 60  # rad/s
INHG, INH2O = 3386.389, 249.08891  # Pa; NIST SP 811
SPEEDS = [turns * RPM for turns in (1200, 1800, 2400, 3000, 3600)]
IDLES = {rig.name: network.curb_idle(rig, AIR, PETROL) for rig in (PLOVER, DUNLIN)}
SWEEPS = {rig.name: on_flow_stand(rig, AIR, PETROL) for rig in (PLOVER, DUNLIN)}


def trade(name: str) -> Any:
    """Return a figure of the trade with its room, to be compared with ``==``."""
    return rows("15 trade figure", name)[0].values[0].approx


def at(rig: Rig, speed: float, angle: float, **now: float) -> State:
    return network.solve(rig, AIR, PETROL, speed, angle, settings=Settings(**now))


def along(rig: Rig, speed: float, angles: list[float], **now: float) -> list[State]:
    """Return the states at a held speed."""
    places = [(speed, angle) for angle in angles]
    return network.path(rig, AIR, PETROL, places, settings=Settings(**now))


def falls(values: list[float]) -> bool:
    return all(after < before for before, after in pairwise(values))


def stop(rig: Rig) -> float:
    return IDLES[rig.name].throttle_angle


@BOTH
def test_warm_idle_is_steady_and_a_little_rich(rig: Rig) -> None:
    idle = IDLES[rig.name]
    assert 600 * RPM <= idle.speed <= 800 * RPM
    assert idle.manifold_vacuum / INHG == trade("curb idle, manifold vacuum")
    assert idle.ratio == trade("curb idle, air-fuel ratio")


@BOTH
def test_cruise_is_lean(rig: Rig) -> None:
    lever = rig.engine.displacement / (4 * pi)
    for turns, pressure in product((1500, 1800, 2100), (1.2e5, 1.8e5, 2.5e5)):
        cruise = network.solve_for_angle(rig, AIR, PETROL, turns * RPM, torque=pressure * lever)
        assert cruise.ratio == trade("steady cruise")


@BOTH
def test_wide_open_throttle_is_rich(rig: Rig) -> None:
    assert all(at(rig, speed, OPEN).ratio == trade("full throttle") for speed in SPEEDS)


@BOTH
def test_a_litre_gives_at_full_throttle_what_such_engines_gave(rig: Rig) -> None:
    """A mean pressure of 7 to 8.5 bar at 1600 rpm: common practice, no source."""
    full = at(rig, 1600 * RPM, OPEN)
    torque = brake_torque(
        rig.engine,
        full.speed,
        full.air_flow,
        full.pressures.manifold,
        full.ambient_pressure,
        mixture_factor=torque_factor(full.mixture),
    )
    assert 7e5 <= torque * 4 * pi / rig.engine.displacement <= 8.5e5


@BOTH
def test_no_load_is_much_richer_than_full_throttle(rig: Rig) -> None:
    """A rod that comes up makes no pocket."""
    for speed in SPEEDS:
        full, angle = at(rig, speed, OPEN).ratio, OPEN
        for vacuum in (8, 6, 5, 4, 3, 2, 1):
            try:
                angle = network.solve_for_angle(
                    rig, AIR, PETROL, speed, manifold_vacuum=vacuum * INHG
                ).throttle_angle
            except ConvergenceError:
                continue
            assert at(rig, speed, angle).ratio > full - 0.7


@BOTH
def test_sweep_has_no_lean_hole(rig: Rig) -> None:
    assert all(state.ratio < 17 for state in SWEEPS[rig.name])


@BOTH
def test_no_steady_angle_is_a_lean_hole_at_any_speed(rig: Rig) -> None:
    angles = [stop(rig) + (OPEN - stop(rig)) * share**2 for share in linspace(0.0, 1.0, 60)]
    for speed in SPEEDS:
        assert all(state.ratio < 17 for state in along(rig, speed, angles))


@BOTH
@pytest.mark.parametrize("turns", [1000, 1200, 1600])
def test_off_idle_is_no_saw_tooth(rig: Rig, turns: float) -> None:
    """Once it has left the rich idle, the mixture rises by less than 1.5 within 1.25 degrees."""
    angles = [stop(rig) + radians(0.5 + quarter / 4) for quarter in range(30)]
    ratios = [state.ratio for state in along(rig, turns * RPM, angles)]
    spans = (ratios[first : first + 6] for first in range(len(ratios) - 5))
    assert max(max(span) - span[0] for span in spans) < 1.5


@BOTH
def test_an_idle_jet_that_is_blocked_leaves_no_fuel_at_all(rig: Rig) -> None:
    """At idle the nozzle stays dry: its lip stands higher than the booster lifts the fuel."""
    idle, blocked = IDLES[rig.name], replace(rig.low_speed, jet_bore=0.05e-3)
    dry = at(replace(rig, low_speed=blocked), idle.speed, idle.throttle_angle)
    assert dry.fuel_by_circuit["nozzle"] == 0
    assert dry.fuel_flow < 0.05 * idle.fuel_flow


@BOTH
def test_chamber_vacuum_at_curb_idle_is_what_the_trade_knows(rig: Rig) -> None:
    assert IDLES[rig.name].chamber_vacuum[0] / INH2O == trade("chamber of the idle ports")


@BOTH
def test_bleed_valve_is_shut_at_idle_and_opens_off_idle(rig: Rig) -> None:
    rising = along(rig, 1200 * RPM, [stop(rig) + radians(turn) for turn in linspace(0.0, 8.0, 161)])
    assert rising[0].valve_lift[0] == 0
    assert rising[-1].valve_lift[0] > 0.1
    first = next(state for state in rising if state.valve_lift[0] > 0)
    assert first.chamber_vacuum[0] / INH2O == trade("off-idle bleed valve")


def test_the_timer_of_a_rig_is_its_own_inside_the_trades() -> None:
    assert DUNLIN.cold_start.timer == trade("start timer")
    assert DUNLIN.cold_start.timer != 35


def test_no_two_rigs_share_a_figure_of_their_own() -> None:
    ours = [(rig.low_speed.valve_opening, rig.low_speed.valve_range) for rig in (PLOVER, DUNLIN)]
    assert len({figure for pair in ours for figure in pair}) == 4
    assert abs(IDLES["plover"].chamber_vacuum[0] - IDLES["dunlin"].chamber_vacuum[0]) > 0.2 * INH2O
    assert all("Invented" in rig.note or "invented" in rig.note for rig in (PLOVER, DUNLIN))


@BOTH
def test_bleed_valve_stays_shut_while_the_choke_is_closed(rig: Rig) -> None:
    shut = rig.air_path.choke_closed_angle
    angles = [stop(rig) + radians(turn) for turn in range(9)]
    states = along(rig, 900 * RPM, angles, choke_angle=shut)
    assert all(state.valve_lift[0] == 0 for state in states)


@BOTH
def test_hard_tip_in_drops_the_chamber_vacuum_and_shuts_the_valve(rig: Rig) -> None:
    before = at(rig, 1500 * RPM, stop(rig) + radians(6))
    after = at(rig, 1500 * RPM, OPEN)
    assert before.valve_lift[0] > 0.1
    assert after.chamber_vacuum[0] < 0.5 * before.chamber_vacuum[0]
    assert after.valve_lift[0] == 0


@BOTH
def test_bleed_valve_is_open_on_overrun_while_the_throttle_comes_back(rig: Rig) -> None:
    """At 3000 rpm, the plate 5 degrees off its stop, where a return check would hold it."""
    overrun = at(rig, 3000 * RPM, stop(rig) + radians(5))
    assert overrun.manifold_vacuum > 21 * INHG
    assert overrun.valve_lift[0] > 0.1


@BOTH
def test_throttle_on_its_stop_does_not_tell_the_chamber_how_fast_the_engine_turns(
    rig: Rig,
) -> None:
    """Choked flow passes no news upstream (first principles): overrun alone opens no valve."""
    closed = [at(rig, turns * RPM, stop(rig)) for turns in (700, 1500, 3000)]
    assert closed[2].manifold_vacuum > closed[0].manifold_vacuum + 4 * INHG
    vacuum = [state.chamber_vacuum[0] for state in closed]
    assert max(vacuum) - min(vacuum) < 0.01 * INH2O


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
    first = next(by for state in sweep if (by := state.fuel_by_circuit)["nozzle"] > 1e-6)
    assert first["slot"] + first["screw"] > 1.5 * idle.fuel_flow


def test_holes_uncover_as_the_flow_grows_and_flatten_the_curve() -> None:
    """With one high hole in place of a row the mixture gets richer with flow, more than before."""
    one = replace(PLOVER, high_speed=replace(PLOVER.high_speed, hole_count=1.0))
    row, single = (
        at(rig, 3600 * RPM, OPEN).ratio / at(rig, 1500 * RPM, OPEN).ratio for rig in (PLOVER, one)
    )
    assert single < row


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


def turned(rig: Rig, **screw: float) -> list[float]:
    """Return the idle mixture with the screw turned outward step by step."""
    idle, low = IDLES[rig.name], rig.low_speed
    return [
        at(
            replace(rig, low_speed=replace(low, screw_turns=turns, **screw)),
            idle.speed,
            idle.throttle_angle,
        ).ratio
        for turns in (2.3, 2.6, 2.9, 3.2, 3.5)
    ]


@BOTH
def test_mixture_screw_turned_outward_is_richer(rig: Rig) -> None:
    assert falls(turned(rig))


@BOTH
def test_air_screw_turned_outward_is_leaner(rig: Rig) -> None:
    assert falls(turned(rig, screw_meters_air=1.0)[::-1])


def changed_by_a_larger_jet(rig: Rig, part: str) -> list[float]:
    """Return what a jet 6 % larger does to the mixture, from idle to full load."""
    section = getattr(rig, part)
    bigger = replace(rig, **{part: replace(section, jet_bore=1.06 * section.jet_bore)})
    places = [(700, 14), (1300, 18), (2000, 25), (2600, 40), (3600, 89)]
    return [
        at(bigger, turns * RPM, radians(angle)).ratio - at(rig, turns * RPM, radians(angle)).ratio
        for turns, angle in places
    ]


@BOTH
def test_larger_main_jet_is_richer_everywhere(rig: Rig) -> None:
    change = changed_by_a_larger_jet(rig, "high_speed")
    assert max(change) < 0
    assert change[-1] < -1.0


@BOTH
def test_larger_low_speed_jet_is_richer_at_idle_and_leaner_when_pulled_over(rig: Rig) -> None:
    change = changed_by_a_larger_jet(rig, "low_speed")
    assert change[0] < -0.4
    assert change[-1] > 0


@BOTH
@pytest.mark.parametrize("angle", [14.0, 20.0, 30.0, 90.0])
def test_bowl_pressure_up_is_richer(rig: Rig, angle: float) -> None:
    ratios = [
        at(rig, 2000 * RPM, radians(angle), bowl_pressure=AIR.pressure + gauge).ratio
        for gauge in (-20.0, 0.0, 50.0, 200.0)
    ]
    assert falls(ratios)


@BOTH
@pytest.mark.parametrize("angle", [20.0, 30.0, 90.0])
def test_higher_altitude_is_richer(rig: Rig, angle: float) -> None:
    cool = Settings(fuel_temperature=288.0)
    ratios = [
        network.solve(
            rig, Weather.at(height), PETROL, 2000 * RPM, radians(angle), settings=cool
        ).ratio
        for height in (0.0, 1000.0, 2000.0, 3000.0)
    ]
    assert falls(ratios)


@BOTH
def test_ethanol_leans_the_mixture_in_lambda(rig: Rig) -> None:
    lean = [
        network.solve(rig, AIR, Fuel(ethanol=share), 2000 * RPM, 0.45).mixture
        for share in (0.2, 0.1, 0.0)
    ]
    assert falls(lean)
