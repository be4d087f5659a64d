"""Facts that the course teaches, whatever the rig: what goes up when one thing is turned up.

Each row changes one thing in even steps and says which way a reading then goes, at every
step. They are common practice, no source, where no mechanism is stated.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace
from itertools import pairwise

import pytest
from fuelcircuits import BowlVentsBench
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.float_bowl import steady
from fuelcircuits.physics.circuits.low_speed import LowSpeed, idle_air_area, port_area, turn
from fuelcircuits.physics.circuits.off_idle import slot_areas, valve_lift
from fuelcircuits.physics.circuits.power import rod_lift
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, density, vapour_pressure
from fuelcircuits.physics.motion.pump_shot import pump_run
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace
from fuelcircuits.physics.numerics.root import root
from fuelcircuits.physics.openings.plate import OPEN

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
AIR, PETROL, WARM = Weather.at(), Fuel(), Settings()
STOP = network.curb_idle(PLOVER, AIR, PETROL).throttle_angle
IDLING = (PLOVER.engine.idle_speed, STOP)
LIGHT, CRUISE, FULL = (150.0, 0.33), (220.0, 0.45), (320.0, OPEN)
RICHER, LEANER = -1, 1
SAME_FUEL = Settings(fuel_temperature=288.15)


def ratio(point: tuple[float, float], rig: Rig = PLOVER, now: Settings = WARM) -> float:
    return network.solve(rig, AIR, PETROL, *point, settings=now).ratio


def rises(values: Iterable[float]) -> bool:
    return all(before < after for before, after in pairwise(values))


def falls(values: Iterable[float]) -> bool:
    return all(before > after for before, after in pairwise(values))


def altered(section: str, entry: str, value: float) -> Rig:
    return replace(PLOVER, **{section: replace(getattr(PLOVER, section), **{entry: value})})


# --- settings and weather ------------------------------------------------------------------

ALTITUDES = [Weather.at(height) for height in linspace(0.0, 3000.0, 5)]
COLD_TO_HOT = [Weather.at(temperature=air) for air in linspace(263.15, 313.15, 5)]
SHUT_TO_OPEN = [Settings(choke_angle=angle) for angle in linspace(0.35, 1.2, 5)]
BOWL = [Settings(bowl_pressure=AIR.pressure + more) for more in linspace(-100.0, 100.0, 5)]
LEVELS = [Settings(bowl_level=level) for level in linspace(-6e-3, 3e-3, 5)]
IDLE_AIR_SHUT = [Settings(idle_enrichment=share) for share in linspace(0.0, 1.0, 5)]
VAPOUR = [Settings(vapour=flow) for flow in linspace(0.0, 1e-4, 5)]


@pytest.mark.parametrize("point", [IDLING, LIGHT, CRUISE, FULL])
def test_bowl_pressure_up_is_richer(point: tuple[float, float]) -> None:
    assert falls(ratio(point, now=each) for each in BOWL)


@pytest.mark.parametrize("point", [IDLING, LIGHT, CRUISE, FULL])
def test_a_higher_fuel_level_is_richer(point: tuple[float, float]) -> None:
    assert falls(ratio(point, now=each) for each in LEVELS)


@pytest.mark.parametrize("point", [IDLING, LIGHT, CRUISE, FULL])
def test_opening_the_choke_is_leaner(point: tuple[float, float]) -> None:
    assert rises(ratio(point, now=each) for each in SHUT_TO_OPEN)


@pytest.mark.parametrize("point", [CRUISE, FULL])
def test_altitude_is_richer(point: tuple[float, float]) -> None:
    found = [network.solve(PLOVER, air, PETROL, *point, settings=SAME_FUEL) for air in ALTITUDES]
    assert falls(state.ratio for state in found)


def test_altitude_takes_idle_vacuum() -> None:
    # The engine needs the same charge, from thinner air.
    idle = [network.curb_idle(PLOVER, air, PETROL, speed=IDLING[0]) for air in ALTITUDES]
    assert falls(state.manifold_vacuum for state in idle)


@pytest.mark.parametrize("point", [CRUISE, FULL])
def test_hot_air_is_richer(point: tuple[float, float]) -> None:
    # Mechanism: at one depression the air flow goes with the root of its density.
    found = [network.solve(PLOVER, air, PETROL, *point, settings=SAME_FUEL) for air in COLD_TO_HOT]
    assert falls(state.ratio for state in found)


def test_ethanol_in_the_fuel_leaves_the_engine_leaner() -> None:
    # Mechanism: the jets pass nearly the same mass, and it needs less air.
    blends = [Fuel(ethanol=share) for share in (0.0, 0.2, 0.5, 0.85)]
    assert rises(network.solve(PLOVER, AIR, blend, *CRUISE).mixture for blend in blends)


def test_shutting_idle_air_for_a_cold_start_is_richer() -> None:
    assert falls(ratio(IDLING, now=each) for each in IDLE_AIR_SHUT)


def test_vapour_in_the_bowl_is_richer() -> None:
    assert falls(ratio(LIGHT, now=each) for each in VAPOUR)


def test_a_hotter_or_more_volatile_fuel_has_more_vapour_pressure() -> None:
    fuels = [Fuel(reid_vapour_pressure=reid) for reid in (50e3, 62e3, 90e3)]
    heats = linspace(280.0, 340.0, 4)
    assert all(rises(vapour_pressure(fuel, heat) for heat in heats) for fuel in fuels)
    assert all(rises(vapour_pressure(fuel, heat) for fuel in fuels) for heat in heats)


# --- dimensions: one rig a step ------------------------------------------------------------


@pytest.mark.parametrize(
    ("section", "entry", "shares", "point", "sign"),
    [
        ("high_speed", "jet_bore", (0.95, 1.0, 1.05), CRUISE, RICHER),
        ("high_speed", "jet_bore", (0.95, 1.0, 1.05), FULL, RICHER),
        ("high_speed", "air_bleed_bore", (0.7, 1.0, 1.3), FULL, LEANER),
        ("high_speed", "hole_bore", (0.7, 1.0, 1.3), FULL, LEANER),
        ("high_speed", "lip", (0.5, 1.0, 1.5), CRUISE, LEANER),
        ("low_speed", "jet_bore", (0.9, 1.0, 1.1), IDLING, RICHER),
        ("low_speed", "jet_bore", (0.9, 1.0, 1.1), LIGHT, RICHER),
        ("low_speed", "bypass_bore", (0.7, 1.0, 1.3), IDLING, LEANER),
        ("low_speed", "air_bleed_bore", (0.7, 1.0, 1.3), IDLING, LEANER),
        ("low_speed", "economizer_bore", (0.8, 1.0, 1.2), IDLING, RICHER),
        ("low_speed", "lift", (0.5, 1.0, 1.5), IDLING, LEANER),  # a higher column to raise
        ("power", "rich_step", (0.6, 0.8, 1.0), FULL, LEANER),
        ("power", "lean_step", (0.95, 1.0, 1.05), CRUISE, LEANER),
        ("air_path", "venturi_bore", (0.95, 1.0, 1.05), FULL, LEANER),
        ("air_path", "throttle_leak", (1.0, 3.0, 6.0), IDLING, LEANER),  # a worn shaft
    ],
)
def test_a_dimension_moves_the_mixture_one_way(
    section: str, entry: str, shares: tuple[float, ...], point: tuple[float, float], sign: int
) -> None:
    size = getattr(getattr(PLOVER, section), entry)
    rigs = [altered(section, entry, share * size) for share in shares]
    assert rises(sign * ratio(point, rig) for rig in rigs)


def test_a_small_inside_vent_of_a_leaking_bowl_is_richer() -> None:
    # Mechanism: through a small vent the bowl follows the air horn less, and the outside more.
    vents = [replace(PLOVER.vents, gasket_leak=10e-6, inside_bore=bore) for bore in (3e-3, 5e-3)]
    small, wide = (ratio(FULL, replace(PLOVER, vents=each)) for each in vents)
    assert small < wide


def test_a_full_bowl_lasts_about_eight_seconds_of_full_load() -> None:
    # Unit 02: some 70 ml of fuel, and full load draws 6 g/s.
    bowl, flow = PLOVER.float_bowl, 6e-3
    full = steady(bowl, PETROL, 0.0)
    held = density(PETROL, 288.15)
    fuel = full.level * bowl.bowl_area - full.buoyancy / (held * 9.80665)
    assert fuel == pytest.approx(70e-6, abs=5e-6)
    assert fuel * held / flow == pytest.approx(8.0, abs=1.0)


def test_a_dead_solenoid_goes_rich_or_lean_by_what_draws_on_its_canister() -> None:
    # Unit 03: open to the air, and with the purge drawing 200 Pa.
    dead = {"solenoid_pull": 0.0}
    drawn = {**dead, "canister_suction": 200.0}
    for way in ("cruise", "full"):
        assert vents_lambda(way, **dead) < vents_lambda(way) - 0.01
    assert vents_lambda("cruise", **drawn) > vents_lambda("cruise") + 0.05
    assert vents_lambda("full", **drawn) < vents_lambda("full")


def vents_lambda(way: str, **changed: float) -> float:
    bench = BowlVentsBench(PLOVER)
    state = bench.point({**bench.values(), "way": way, **changed}, "SI")
    return next(float(one.value) for one in state.readings if one.label == "Lambda")


def test_a_mixture_screw_turned_inward_is_leaner() -> None:
    turns = (1.5, 2.1, 2.7, 3.3)
    assert falls(ratio(IDLING, altered("low_speed", "screw_turns", n)) for n in turns)


def test_a_left_hand_air_screw_turned_counter_clockwise_is_richer() -> None:
    circuit = replace(PLOVER.low_speed, screw_meters_air=1.0, screw_turns=2.0)
    ratios = []
    for clockwise in (0.5, 0.0, -0.5, -1.0):
        set_to = turn(circuit, circuit.screw_turns, clockwise)
        rig = replace(PLOVER, low_speed=replace(circuit, screw_turns=set_to))
        ratios.append(ratio(IDLING, rig))
    assert falls(ratios)


def test_a_limiter_and_a_restrictor_leave_the_screw_less_to_do() -> None:
    free = PLOVER.low_speed
    capped = replace(free, fewest_turns=free.screw_turns - 0.5, most_turns=free.screw_turns + 0.5)
    restricted = replace(free, restrictor_bore=0.8 * free.seat_bore)

    def reach(circuit: LowSpeed) -> float:
        ends = [turn(circuit, free.screw_turns, clockwise) for clockwise in (2.0, -2.0)]
        least, most = (port_area(circuit, end) for end in ends)
        return most - least

    assert reach(capped) < reach(free)
    assert reach(restricted) < reach(free)


def test_turning_the_screws_in_from_best_idle_drops_the_speed() -> None:
    # The lean-drop way of setting an idle.
    speeds = []
    for turns in (2.75, 2.2, 1.8):
        rig = altered("low_speed", "screw_turns", turns)
        speeds.append(network.solve_for_speed(rig, AIR, PETROL, STOP).speed)
    assert falls(speeds)


# --- parts on their own --------------------------------------------------------------------


LOW, BORE = PLOVER.low_speed, PLOVER.air_path.throttle_bore
FALLING: list[tuple[Callable[[float], float], list[float]]] = [
    (lambda angle: slot_areas(LOW, angle, BORE).above, linspace(0.15, 0.35, 6)),
    (lambda vacuum: rod_lift(PLOVER.power, vacuum), linspace(17e3, 30e3, 6)),
    (lambda shut: idle_air_area(LOW, LOW.screw_turns, shut), linspace(0.0, 1.0, 6)),
]


@pytest.mark.parametrize(
    ("part", "over"),
    FALLING,
    ids=["throttle covers slot", "vacuum holds rod", "enrichment shuts air"],
)
def test_what_falls_as_something_else_rises(
    part: Callable[[float], float], over: list[float]
) -> None:
    shown = [part(each) for each in over]
    assert all(before >= after for before, after in pairwise(shown))
    assert shown[-1] < shown[0]


def test_a_throttle_that_opens_uncovers_the_slot_below_its_edge() -> None:
    below = [slot_areas(LOW, angle, BORE).below for angle in linspace(STOP, 0.5, 8)]
    assert all(before <= after for before, after in pairwise(below))
    assert below[-1] > below[0]


def idled_at(lowered: float) -> Rig:
    """Return plover with its slot lower, its screws set anew to the idle of its card."""
    low = replace(LOW, slot_start=LOW.slot_start - lowered)

    def off(turns: float) -> float:
        rig = replace(PLOVER, low_speed=replace(low, screw_turns=turns))
        return network.curb_idle(rig, AIR, PETROL).mixture - 0.93

    return replace(PLOVER, low_speed=replace(low, screw_turns=root(off, 0.1, 4.0, tolerance=1e-4)))


@pytest.mark.parametrize(("lowered", "narrowed"), [(0.0, 0.55), (0.6e-3, 0.79), (0.9e-3, 1.24)])
def test_carbon_in_the_slot_is_rich_or_lean_by_where_the_edge_stands(
    lowered: float, narrowed: float
) -> None:
    # Unit 05: the slot narrowed to a third, the throttle left where the idle was set.
    rig = idled_at(lowered)
    stop = network.curb_idle(rig, AIR, PETROL).throttle_angle
    low = replace(rig.low_speed, slot_width=rig.low_speed.slot_width / 3)
    carboned = network.solve(replace(rig, low_speed=low), AIR, PETROL, IDLING[0], stop)
    assert carboned.mixture == pytest.approx(narrowed, abs=0.02)


@pytest.mark.parametrize(("choke", "least", "most"), [(None, 0.08, 0.15), (0.35, 0.0, 0.02)])
def test_the_bleed_valve_does_next_to_nothing_while_the_choke_is_shut(
    choke: float | None, least: float, most: float
) -> None:
    # Unit 05, at 20 degrees: its air comes from below the choke plate.
    now = WARM if choke is None else Settings(choke_angle=choke)
    held = altered("low_speed", "valve_opening", 9.9e3)
    works, shut = (ratio((150.0, 0.349), rig, now) for rig in (PLOVER, held))
    assert least <= 1 - shut / works <= most


def test_the_bleed_valve_opens_with_vacuum_and_not_before_its_spring_lets_it() -> None:
    low = PLOVER.low_speed
    shares = (-0.5, 0.0, 0.3, 0.6, 1.0)
    lift = [valve_lift(low, low.valve_opening + share * low.valve_range) for share in shares]
    assert lift[:2] == [0.0, 0.0]
    assert rises(lift[1:])


def test_a_stronger_power_spring_enriches_at_a_higher_vacuum() -> None:
    vacuums = linspace(0.0, 60e3, 61)
    strong = replace(PLOVER.power, spring_force=1.3 * PLOVER.power.spring_force)
    held = {
        vacuum: (rod_lift(PLOVER.power, vacuum), rod_lift(strong, vacuum)) for vacuum in vacuums
    }
    assert all(stronger >= own for own, stronger in held.values())
    last = [max(at for at, lifts in held.items() if lifts[place] > 0) for place in (0, 1)]
    assert last[1] > last[0]


def test_a_slower_foot_gets_a_weaker_shot() -> None:
    times = linspace(0.0, 1.5, 16)
    peaks = []
    for span in (0.2, 0.6, 1.2):
        opened = [interpolate(time, [0.1, 0.1 + span], [STOP, 1.2]) for time in times]
        peaks.append(max(pump_run(PLOVER.pump, times, opened).fuel_flow))
    assert falls(peaks)
