"""Facts that the course teaches, whatever the rig: what goes up when one thing is turned up.

Each row changes one thing in even steps and says which way a reading then goes, at every
step. They are common practice, no source, where no mechanism is stated.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.low_speed import LowSpeed, idle_air_area, port_area, turn
from fuelcircuits.physics.circuits.off_idle import slot_areas, valve_lift
from fuelcircuits.physics.circuits.power import rod_lift
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, vapour_pressure
from fuelcircuits.physics.motion.pump_shot import pump_run
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.openings.plate import OPEN
from numpy.typing import NDArray

from tests.places import RIGS

Floats = NDArray[np.float64]

PLOVER = read_rig(RIGS / "plover.toml")
AIR, PETROL, WARM = Weather.at(), Fuel(), Settings()
STOP = float(network.curb_idle(PLOVER, AIR, PETROL).throttle_angle)
IDLING = (PLOVER.engine.idle_speed, STOP)
LIGHT, CRUISE, FULL = (150.0, 0.33), (220.0, 0.45), (320.0, OPEN)
RICHER, LEANER = -1, 1
SAME_FUEL = Settings(fuel_temperature=288.15)


def ratio(point: tuple[float, float], rig: Rig = PLOVER, now: Settings = WARM) -> Floats:
    return network.solve(rig, AIR, PETROL, *point, settings=now).ratio


def altered(section: str, entry: str, value: float) -> Rig:
    return replace(PLOVER, **{section: replace(getattr(PLOVER, section), **{entry: value})})


# --- settings and weather: whole arrays at once --------------------------------------------

ALTITUDES = Weather.at(np.linspace(0.0, 3000.0, 5))
COLD_TO_HOT = Weather.at(temperature=np.linspace(263.15, 313.15, 5))
SHUT_TO_OPEN = np.linspace(0.35, 1.2, 5)
BOWL = AIR.pressure + np.linspace(-100.0, 100.0, 5)
LEVELS = np.linspace(-6e-3, 3e-3, 5)


@pytest.mark.parametrize("point", [IDLING, LIGHT, CRUISE, FULL])
def test_bowl_pressure_up_is_richer(point: tuple[float, float]) -> None:
    assert np.all(np.diff(ratio(point, now=Settings(bowl_pressure=BOWL))) < 0)


@pytest.mark.parametrize("point", [IDLING, LIGHT, CRUISE, FULL])
def test_a_higher_fuel_level_is_richer(point: tuple[float, float]) -> None:
    assert np.all(np.diff(ratio(point, now=Settings(bowl_level=LEVELS))) < 0)


@pytest.mark.parametrize("point", [IDLING, LIGHT, CRUISE, FULL])
def test_opening_the_choke_is_leaner(point: tuple[float, float]) -> None:
    assert np.all(np.diff(ratio(point, now=Settings(choke_angle=SHUT_TO_OPEN))) > 0)


@pytest.mark.parametrize("point", [CRUISE, FULL])
def test_altitude_is_richer(point: tuple[float, float]) -> None:
    found = network.solve(PLOVER, ALTITUDES, PETROL, *point, settings=SAME_FUEL)
    assert np.all(np.diff(found.ratio) < 0)


def test_altitude_takes_idle_vacuum() -> None:
    # The engine needs the same charge, from thinner air.
    idle = network.curb_idle(PLOVER, ALTITUDES, PETROL, speed=np.full(5, IDLING[0]))
    assert np.all(np.diff(idle.manifold_vacuum) < 0)


@pytest.mark.parametrize("point", [CRUISE, FULL])
def test_hot_air_is_richer(point: tuple[float, float]) -> None:
    # Mechanism: at one depression the air flow goes with the root of its density.
    found = network.solve(PLOVER, COLD_TO_HOT, PETROL, *point, settings=SAME_FUEL)
    assert np.all(np.diff(found.ratio) < 0)


def test_ethanol_in_the_fuel_leaves_the_engine_leaner() -> None:
    # Mechanism: the jets pass nearly the same mass, and it needs less air.
    blends = [Fuel(ethanol=share) for share in (0.0, 0.2, 0.5, 0.85)]
    lean = [float(network.solve(PLOVER, AIR, blend, *CRUISE).mixture) for blend in blends]
    assert np.all(np.diff(lean) > 0)


def test_shutting_idle_air_for_a_cold_start_is_richer() -> None:
    assert np.all(
        np.diff(ratio(IDLING, now=Settings(idle_enrichment=np.linspace(0.0, 1.0, 5)))) < 0
    )


def test_vapour_in_the_bowl_is_richer() -> None:
    assert np.all(np.diff(ratio(LIGHT, now=Settings(vapour=np.linspace(0.0, 1e-4, 5)))) < 0)


def test_a_hotter_or_more_volatile_fuel_has_more_vapour_pressure() -> None:
    fuels = [Fuel(reid_vapour_pressure=reid) for reid in (50e3, 62e3, 90e3)]
    pressure = np.array([vapour_pressure(fuel, np.linspace(280.0, 340.0, 4)) for fuel in fuels])
    assert np.all(np.diff(pressure, axis=0) > 0)
    assert np.all(np.diff(pressure, axis=1) > 0)


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
    ],
)
def test_a_dimension_moves_the_mixture_one_way(
    section: str, entry: str, shares: tuple[float, ...], point: tuple[float, float], sign: int
) -> None:
    size = getattr(getattr(PLOVER, section), entry)
    rigs = [altered(section, entry, share * size) for share in shares]
    assert np.all(sign * np.diff([float(ratio(point, rig)) for rig in rigs]) > 0)


def test_a_small_inside_vent_of_a_leaking_bowl_is_richer() -> None:
    # Mechanism: through a small vent the bowl follows the air horn less, and the outside more.
    vents = [replace(PLOVER.vents, gasket_leak=10e-6, inside_bore=bore) for bore in (3e-3, 5e-3)]
    small, wide = (float(ratio(FULL, replace(PLOVER, vents=each))) for each in vents)
    assert small < wide


def test_a_mixture_screw_turned_inward_is_leaner() -> None:
    turns = (1.2, 1.8, 2.4, 3.0)
    ratios = [float(ratio(IDLING, altered("low_speed", "screw_turns", n))) for n in turns]
    assert np.all(np.diff(ratios) < 0)


def test_a_left_hand_air_screw_turned_counter_clockwise_is_richer() -> None:
    circuit = replace(PLOVER.low_speed, screw_meters_air=1.0, screw_turns=2.0)
    ratios = []
    for clockwise in (0.5, 0.0, -0.5, -1.0):
        set_to = float(turn(circuit, circuit.screw_turns, clockwise))
        rig = replace(PLOVER, low_speed=replace(circuit, screw_turns=set_to))
        ratios.append(float(ratio(IDLING, rig)))
    assert np.all(np.diff(ratios) < 0)


def test_a_limiter_and_a_restrictor_leave_the_screw_less_to_do() -> None:
    free = PLOVER.low_speed
    capped = replace(free, fewest_turns=free.screw_turns - 0.5, most_turns=free.screw_turns + 0.5)
    restricted = replace(free, restrictor_bore=0.8 * free.seat_bore)

    def reach(circuit: LowSpeed) -> float:
        ends = [turn(circuit, free.screw_turns, clockwise) for clockwise in (2.0, -2.0)]
        least, most = (float(port_area(circuit, end)) for end in ends)
        return most - least

    assert reach(capped) < reach(free)
    assert reach(restricted) < reach(free)


def test_turning_the_screws_in_from_best_idle_drops_the_speed() -> None:
    # The lean-drop way of setting an idle.
    speeds = []
    for turns in (2.4, 1.9, 1.5):
        rig = altered("low_speed", "screw_turns", turns)
        speeds.append(float(network.solve_for_speed(rig, AIR, PETROL, STOP).speed))
    assert np.all(np.diff(speeds) < 0)


# --- parts on their own --------------------------------------------------------------------


LOW, BORE = PLOVER.low_speed, PLOVER.air_path.throttle_bore
FALLING: list[tuple[Callable[[Floats], object], Floats]] = [
    (lambda angle: slot_areas(LOW, angle, BORE).above, np.linspace(0.15, 0.35, 6)),
    (lambda vacuum: rod_lift(PLOVER.power, vacuum), np.linspace(20e3, 40e3, 6)),
    (lambda shut: idle_air_area(LOW, LOW.screw_turns, shut), np.linspace(0.0, 1.0, 6)),
]


@pytest.mark.parametrize(
    ("part", "over"),
    FALLING,
    ids=["throttle covers slot", "vacuum holds rod", "enrichment shuts air"],
)
def test_what_falls_as_something_else_rises(part: Callable[[Floats], object], over: Floats) -> None:
    shown = np.asarray(part(over), dtype=float)
    assert np.all(np.diff(shown) <= 0)
    assert shown[-1] < shown[0]


def test_a_throttle_that_opens_uncovers_the_slot_below_its_edge() -> None:
    angle = np.linspace(STOP, 0.5, 8)
    below = np.asarray(slot_areas(LOW, angle, BORE).below)
    assert np.all(np.diff(below) >= 0)
    assert below[-1] > below[0]


def test_the_bleed_valve_opens_with_vacuum_and_not_before_its_spring_lets_it() -> None:
    low = PLOVER.low_speed
    vacuum = low.valve_opening + low.valve_range * np.array([-0.5, 0.0, 0.3, 0.6, 1.0])
    lift = np.asarray(valve_lift(low, vacuum))
    assert lift[:2].tolist() == [0.0, 0.0]
    assert np.all(np.diff(lift[1:]) > 0)


def test_a_stronger_power_spring_enriches_at_a_higher_vacuum() -> None:
    vacuum = np.linspace(0.0, 60e3, 61)
    strong = replace(PLOVER.power, spring_force=1.3 * PLOVER.power.spring_force)
    lifts = [np.asarray(rod_lift(power, vacuum)) for power in (PLOVER.power, strong)]
    assert np.all(lifts[1] >= lifts[0])
    assert vacuum[lifts[1] > 0].max() > vacuum[lifts[0] > 0].max()


def test_a_slower_foot_gets_a_weaker_shot() -> None:
    times = np.linspace(0.0, 1.5, 16)
    peaks = [
        pump_run(
            PLOVER.pump, times, np.interp(times, [0.1, 0.1 + span], [STOP, 1.2])
        ).fuel_flow.max()
        for span in (0.2, 0.6, 1.2)
    ]
    assert np.all(np.diff(peaks) < 0)
