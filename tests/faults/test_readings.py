"""Each fault shows at an instrument the way the trade, or the stated mechanism, has it."""

from itertools import pairwise

import pytest
from fuelcircuits import faults
from fuelcircuits.faults import FAULTS
from fuelcircuits.physics.network import solving as network

from tests.benches.fault_bench import (
    AIR,
    COLD_LATE,
    COLD_SOON,
    CRUISE,
    FULL,
    HOT_SOON,
    IDLING,
    OFF_IDLE,
    PETROL,
    PLOVER,
    Reading,
    bowl_at,
    capacity,
    chamber_at,
    choked_ratio,
    cranking,
    full_load_level,
    hot,
    key_off_vent,
    level,
    purge,
    ratio_at,
    run,
    running_plate,
    second_shot,
    shot,
    soak_heat,
    soak_stored,
    stand_in,
    start_plate,
    vacuum_at,
    warmed_plate,
    with_level,
)

RICHER = LOWER = -1
LEANER = HIGHER = 1

# Common practice, no source, unless a mechanism is stated.
SHOWS: list[tuple[str, Reading, int]] = [
    ("restricted-air-cleaner", vacuum_at(FULL), HIGHER),
    ("restricted-air-cleaner", bowl_at(FULL), LOWER),  # the inside vent follows the horn
    ("manifold-air-leak", ratio_at(IDLING), LEANER),
    ("manifold-air-leak", vacuum_at(IDLING), LOWER),
    ("worn-throttle-shaft", ratio_at(IDLING), LEANER),
    ("worn-throttle-shaft", vacuum_at(IDLING), LOWER),
    ("soaked-float", level, HIGHER),
    ("soaked-float", with_level(ratio_at(CRUISE)), RICHER),
    ("worn-needle-seat", level, HIGHER),
    ("dirt-in-needle-seat", level, HIGHER),
    ("clogged-inlet-strainer", full_load_level, LOWER),
    ("clogged-inlet-strainer", capacity, LOWER),
    ("high-fuel-pressure", level, HIGHER),
    ("high-fuel-pressure", with_level(ratio_at(CRUISE)), RICHER),
    ("low-fuel-pressure", capacity, LOWER),
    ("low-fuel-pressure", full_load_level, LOWER),
    ("float-set-high", level, HIGHER),
    ("float-set-low", level, LOWER),
    ("float-set-low", with_level(ratio_at(CRUISE)), LEANER),
    ("cover-gasket-leak", bowl_at(FULL), HIGHER),
    ("cover-gasket-leak", ratio_at(FULL), RICHER),
    ("inside-vent-blocked", hot(bowl_at(CRUISE)), HIGHER),
    ("inside-vent-blocked", hot(ratio_at(CRUISE)), RICHER),
    ("outside-vent-stuck-open", ratio_at(FULL), RICHER),
    ("outside-vent-stuck-shut", hot(bowl_at(IDLING)), LOWER),  # back to the horn's pressure
    ("outside-vent-set-wide", ratio_at(OFF_IDLE), RICHER),
    ("vent-solenoid-dead", bowl_at(FULL), HIGHER),  # the canister line leads outside
    ("vent-solenoid-dead", ratio_at(FULL), RICHER),
    ("vent-solenoid-stuck", key_off_vent, LOWER),
    ("vent-solenoid-stuck", soak_stored, LOWER),
    ("vent-solenoid-stuck", cranking, HIGHER),  # the vapour goes to the bores instead
    ("outside-vent-stuck-shut", cranking, HIGHER),
    ("heat-insulator-missing", soak_heat, HIGHER),
    ("heat-insulator-missing", cranking, HIGHER),
    ("canister-purge-blocked", purge, LOWER),
    ("hot-bowl", bowl_at(IDLING), HIGHER),
    ("hot-bowl", ratio_at(OFF_IDLE), RICHER),
    ("blocked-idle-jet", ratio_at(IDLING), LEANER),
    ("blocked-economizer", ratio_at(IDLING), LEANER),
    ("blocked-bypass", ratio_at(IDLING), RICHER),
    ("blocked-idle-air-bleed", ratio_at(IDLING), RICHER),
    # At idle most of the slot stands above the plate's edge and bleeds air: less of it with carbon.
    ("carboned-slot", chamber_at(IDLING), HIGHER),
    ("carboned-slot", ratio_at(IDLING), RICHER),
    ("mixture-screw-in", ratio_at(IDLING), LEANER),
    ("mixture-screw-out", ratio_at(IDLING), RICHER),
    ("bleed-valve-stuck-open", ratio_at(IDLING), LEANER),
    ("bleed-valve-stuck-open", chamber_at(IDLING), LOWER),
    ("bleed-valve-stuck-shut", chamber_at(CRUISE), HIGHER),
    ("bleed-valve-stuck-shut", ratio_at(CRUISE), RICHER),
    ("blocked-main-jet", ratio_at(FULL), LEANER),
    ("main-jet-too-large", ratio_at(CRUISE), RICHER),
    ("main-jet-too-small", ratio_at(CRUISE), LEANER),
    ("blocked-main-air-bleed", ratio_at(FULL), RICHER),
    ("blocked-bleed-holes", ratio_at(FULL), RICHER),
    ("power-rod-stuck-down", ratio_at(FULL), LEANER),
    ("power-rod-stuck-up", ratio_at(CRUISE), RICHER),
    ("torn-pump-cup", shot, LOWER),
    ("leaking-pump-inlet-check", shot, LOWER),
    ("leaking-pump-discharge-check", second_shot, LOWER),
    ("blocked-pump-jet", shot, LOWER),
    ("pump-stroke-short", shot, LOWER),
    ("choke-coil-slack", start_plate, HIGHER),
    ("choke-coil-tight", warmed_plate, LOWER),
    ("choke-heat-dead", warmed_plate, LOWER),
    ("pull-off-torn", running_plate, LOWER),
    ("pull-off-torn", choked_ratio, RICHER),
    ("choke-stuck-shut", ratio_at(CRUISE), RICHER),
    ("choke-stuck-shut", vacuum_at(FULL), HIGHER),
    ("cold-start-timer-dead", COLD_SOON, LEANER),
    ("cold-start-timer-long", COLD_LATE, RICHER),
    ("cold-start-solenoid-dead", COLD_SOON, LEANER),
    ("coolant-switch-reads-cold", HOT_SOON, RICHER),
    ("coolant-switch-reads-warm", COLD_SOON, LEANER),
    ("enrichment-valve-stuck-shut", COLD_LATE, RICHER),
]


def shown(name: str, reading: Reading, severity: float) -> float:
    rig = stand_in(name)
    return reading(faults.apply(rig, name, severity), faults.settings(rig, name, severity))


@pytest.mark.parametrize(("name", "reading", "sign"), SHOWS)
def test_a_fault_moves_the_reading_that_gives_it_away(
    name: str, reading: Reading, sign: int
) -> None:
    healthy = shown(name, reading, 0.0)
    assert sign * (shown(name, reading, 0.8) - healthy) > 1e-3 * abs(healthy)


def test_every_fault_has_a_reading_that_gives_it_away() -> None:
    assert {name for name, _, _ in SHOWS} == set(FAULTS)


# Mechanism: more of the same change.
@pytest.mark.parametrize(
    ("name", "reading", "sign"),
    [
        ("manifold-air-leak", ratio_at(IDLING), LEANER),
        ("cover-gasket-leak", ratio_at(FULL), RICHER),
        ("blocked-idle-jet", ratio_at(IDLING), LEANER),
        ("blocked-idle-air-bleed", ratio_at(IDLING), RICHER),
        ("main-jet-too-large", ratio_at(CRUISE), RICHER),
        ("power-rod-stuck-down", ratio_at(FULL), LEANER),
        ("float-set-high", level, HIGHER),
        ("high-fuel-pressure", level, HIGHER),
        ("torn-pump-cup", shot, LOWER),
        ("choke-stuck-shut", vacuum_at(FULL), HIGHER),
    ],
)
def test_a_worse_fault_shows_more(name: str, reading: Reading, sign: int) -> None:
    # This rod tapers over the middle of its way, and is of one thickness before and after it.
    tapered = name == "power-rod-stuck-down"
    severities = (0.25, 0.4, 0.5, 0.6, 0.7) if tapered else (0.0, 0.25, 0.5, 0.75, 1.0)
    values = [shown(name, reading, severity) for severity in severities]
    assert all(sign * (after - before) > 0 for before, after in pairwise(values))


def test_a_fault_in_one_barrel_shows_between_none_and_both() -> None:
    faulty = faults.apply(PLOVER, "main-jet-too-large")
    one = network.solve(PLOVER, AIR, PETROL, *CRUISE, other=faulty)
    assert run(faulty, CRUISE).ratio < one.ratio < run(PLOVER, CRUISE).ratio
    assert one.flows.main_jet[1] > one.flows.main_jet[0]
