"""Hot soak in time: against scipy, fuel that must not get lost, and what the trade sees."""

from dataclasses import replace
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.bowl_vents import Vents
from fuelcircuits.physics.circuits.hot_soak import LIQUID_HEAT, heat_flows, outlets
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, heat_of_vaporisation
from fuelcircuits.physics.motion.boiling import vapour_flow
from fuelcircuits.physics.motion.restart import restart
from fuelcircuits.physics.motion.soak_run import SoakRun, soak_run
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.interpolation import linspace
from scipy.integrate import solve_ivp
from scipy.linalg import expm

from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
DAY, PETROL = Weather.at(0.0, 298.15), Fuel()
TIMES = linspace(0.0, 4800.0, 25)
MINUTES_15, MINUTES_80 = 4, 24  # where TIMES has nearly a quarter of an hour, and the end


def vented(rig: Rig, **change: float) -> Rig:
    return replace(rig, vents=replace(rig.vents, **change))


@cache
def soaked(name: str) -> SoakRun:
    rigs = {
        "plover": PLOVER,
        "dunlin": DUNLIN,
        "no outside vent": vented(PLOVER, outside_setting=0.0),
        "wide outside vent": vented(PLOVER, outside_setting=4e-3),
        "choked vent": vented(PLOVER, outside_setting=0.0, inside_bore=1e-3),
        "stuck solenoid": vented(DUNLIN, solenoid_stick=1.0),
        "small canister": replace(DUNLIN, canister=replace(DUNLIN.canister, capacity=8e-3)),
    }
    return soak_run(rigs[name], DAY, PETROL, TIMES)


@pytest.mark.parametrize("name", ["plover", "dunlin", "choked vent", "small canister"])
def test_all_the_fuel_is_somewhere_at_every_time(name: str) -> None:
    run = soaked(name)
    places = (run.fuel_left, run.stored, run.lost, run.outside, run.intake, run.dried)
    totals = [sum(each) for each in zip(*places, strict=True)]
    assert totals == pytest.approx([totals[0]] * len(TIMES), rel=1e-9)


def test_without_vapour_the_temperatures_are_those_of_three_linear_lumps() -> None:
    dry = replace(PLOVER, hot_soak=replace(PLOVER.hot_soak, boil_rate=1e-9, spread_rate=0.0))
    run = soak_run(dry, DAY, Fuel(reid_vapour_pressure=30e3), TIMES)
    soak, air = dry.hot_soak, 298.15
    stores = [soak.exhaust_heat, soak.block_heat, soak.bowl_heat + LIQUID_HEAT * run.fuel_left[0]]
    matrix = np.zeros((3, 3))
    for column in range(3):
        exhaust, block, bowl = np.eye(3)[column] + air
        heat = heat_flows(soak, exhaust, block, bowl, air)
        gains = [
            -heat.exhaust_to_block - heat.exhaust_to_air,
            heat.exhaust_to_block - heat.block_to_air - heat.block_to_bowl,
            heat.block_to_bowl + heat.air_to_bowl,
        ]
        matrix[:, column] = np.array(gains) / stores
    start = np.array([run.exhaust[0], run.block[0], run.bowl[0]]) - air
    truth = np.array([expm(matrix * t) @ start for t in TIMES]) + air
    ours = np.stack([run.exhaust, run.block, run.bowl], axis=1)
    np.testing.assert_allclose(ours, truth, rtol=2e-4)


def boil_off(t: float, state: list[float]) -> list[float]:
    """Return the rates of a plover's soak while nothing is pushed over the lip."""
    exhaust, block, bowl, left, gone, intake = state
    soak, heat = PLOVER.hot_soak, heat_flows(PLOVER.hot_soak, exhaust, block, bowl, 298.15)
    made, boiled, _ = vapour_flow(
        soak, PLOVER.vents, PETROL, bowl, gone / (gone + left), ambient=DAY.pressure
    )
    lifted, spent = soak.carry_over * boiled, made * heat_of_vaporisation(PETROL)
    return [
        (-heat.exhaust_to_block - heat.exhaust_to_air) / soak.exhaust_heat,
        (heat.exhaust_to_block - heat.block_to_air - heat.block_to_bowl) / soak.block_heat,
        (heat.block_to_bowl + heat.air_to_bowl - spent) / (soak.bowl_heat + LIQUID_HEAT * left),
        -made - lifted,
        made,
        made * outlets(PLOVER.vents).inside + lifted - intake / soak.intake_drying,
    ]


def test_a_soak_that_boils_agrees_with_scipy() -> None:
    run = soaked("plover")
    ours = np.stack([run.exhaust, run.block, run.bowl, run.fuel_left, run.boiled, run.intake])
    allowed = [1e-7] * 3 + [1e-11] * 3
    theirs = solve_ivp(
        boil_off, (0, TIMES[-1]), ours[:, 0], "DOP853", TIMES, rtol=1e-9, atol=allowed
    ).y
    np.testing.assert_allclose(ours, theirs, rtol=1e-5, atol=1e-8)


def test_the_block_and_then_the_bowl_heat_up_before_they_cool() -> None:
    run = soaked("plover")
    block, bowl = (each.index(max(each)) for each in (run.block, run.bowl))
    assert 0 < block < bowl < len(TIMES) - 1
    assert 335 < max(run.bowl) < 360  # common practice, no source: 60 to 85 degC


def test_the_fuel_begins_to_boil_near_fifty_degrees() -> None:
    # AP-42 at RVP 9 psi: vapour pressure reaches one atmosphere at about 51 degC.
    run = soak_run(PLOVER, DAY, PETROL, linspace(0.0, 600.0, 121))
    boiling = [made > 3e-6 for made in run.vapour]  # more than spreading alone can make
    onset = run.bowl[boiling.index(True)]
    assert onset == pytest.approx(273.15 + 51, abs=2.5)


@pytest.mark.parametrize(
    ("name", "place"),
    [("plover", "outside"), ("dunlin", "stored"), ("stuck solenoid", "intake")],
)
def test_each_rigs_vapour_goes_where_its_vents_lead(name: str, place: str) -> None:
    # Common practice, no source.
    run = soaked(name)
    places = ("outside", "stored", "intake", "lost")
    most = max(places, key=lambda each: max(getattr(run, each)) - getattr(run, each)[0])
    assert most == place


def test_a_canister_too_small_breaks_through() -> None:
    run = soaked("small canister")
    assert run.lost[MINUTES_80] > 1e-3
    assert run.stored[MINUTES_80] == pytest.approx(8e-3, rel=0.2)


def test_the_worst_restart_comes_after_a_quarter_of_an_hour_and_passes() -> None:
    # Common practice, no source: hot starting is worst ten to forty minutes after a stop.
    start = restart(PLOVER, DAY, PETROL, soaked("plover"))
    assert 600 <= TIMES[start.cranking.index(max(start.cranking))] <= 2400
    assert start.cranking[0] == start.cranking[-1] == PLOVER.hot_soak.crank_least
    assert start.ratio[0] == pytest.approx(14.6, rel=0.01)


def test_the_smaller_the_outside_vent_the_harder_the_hot_start() -> None:
    # Common practice, no source: too small a setting means a hard hot start.
    times = [
        restart(PLOVER, DAY, PETROL, soaked(name)).cranking[MINUTES_15]
        for name in ("wide outside vent", "plover", "no outside vent", "choked vent")
    ]
    assert all(before < after for before, after in pairwise(times))


def test_a_bowl_that_cannot_breathe_pushes_fuel_over_the_nozzle() -> None:
    choked, free = soaked("choked vent"), soaked("no outside vent")
    assert max(choked.overpressure) > 40 > max(free.overpressure)
    assert choked.fuel_left[-1] < free.fuel_left[-1] - 5e-3


def test_a_vent_to_the_canister_saves_the_hot_start() -> None:
    right, wrong = (
        restart(DUNLIN, DAY, PETROL, soaked(name)).cranking[MINUTES_15]
        for name in ("dunlin", "stuck solenoid")
    )
    assert right < wrong - 1


def test_a_hot_day_and_a_winter_fuel_boil_away_more() -> None:
    cool, usual, hot = (
        soak_run(PLOVER, Weather.at(0.0, kelvin), PETROL, [0, 4800.0])
        for kelvin in (278.15, 298.15, 313.15)
    )
    winter = soak_run(PLOVER, DAY, Fuel(reid_vapour_pressure=90e3), [0, 4800.0])
    boiled = [run.boiled[-1] for run in (cool, usual, hot, winter)]
    assert boiled[0] < boiled[1] < boiled[2]
    assert boiled[3] > 1.3 * boiled[1]


def test_a_bowl_boiled_far_down_must_be_pumped_up_first() -> None:
    empty = soaked("plover")._replace(
        fuel_left=linspace(0.06, 0.0, len(TIMES)), intake=[0.0] * len(TIMES)
    )
    start = restart(PLOVER, DAY, PETROL, empty)
    assert start.cranking[-1] > 10
    assert start.equivalence[-1] < 1 == start.equivalence[0]


def test_a_rig_without_the_section_is_refused() -> None:
    with pytest.raises(CardError, match="must have a section hot_soak"):
        soak_run(Rig("bare", vents=Vents(inside_bore=5e-3)), DAY, PETROL, [0.0, 1.0])
