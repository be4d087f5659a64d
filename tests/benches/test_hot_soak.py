"""The hot-soak bench: its hour is the model's, and the start goes the way the trade says."""

from functools import cache
from typing import Any

import pytest
from fuelcircuits.benches.frame.state import State
from fuelcircuits.benches.hot_soak.bench import HotSoakBench
from fuelcircuits.benches.hot_soak.drawing import FLOOR, LEVEL
from fuelcircuits.benches.hot_soak.found import APART, COUNT, END
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.restart import restart
from fuelcircuits.physics.motion.soak_run import soak_run
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.interpolation import linspace

from tests.benches.checks import shows, whole
from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
AIR, TIMES = Weather.at(temperature=298.15), linspace(0, END, COUNT)
BENCH, OTHER = HotSoakBench(PLOVER), HotSoakBench(DUNLIN)


@cache
def state(bench: HotSoakBench = BENCH, /, **changed: Any) -> State:
    return bench.compute(bench.values() | changed, "SI")


def run(label: str, bench: HotSoakBench = BENCH, /, **changed: Any) -> Any:
    return next(e.value for e in state(bench, **changed).readings if e.label == label)


@cache
def hardest(**changed: Any) -> float:
    return float(max(run("Cranking to start now", **changed)))


@pytest.mark.parametrize("bench", [BENCH, OTHER], ids=["plover", "dunlin"])
def test_untouched_bench_is_the_cards_soak(bench: HotSoakBench) -> None:
    soak = soak_run(bench.card, AIR, Fuel(), TIMES)
    # What is drawn is followed to a few milligrams of 20 g.
    assert run("Fuel in the bore", bench) == pytest.approx(soak.intake, abs=2e-6)
    assert run("Vapour in the canister", bench) == pytest.approx(soak.stored, abs=2e-6)


def test_a_flooded_start_is_cranked_as_long_as_a_well_mixed_intake_takes() -> None:
    """First principles: the fuel goes with e to the minus t over tau, the choke open."""
    closed = restart(PLOVER, AIR, Fuel(), soak_run(PLOVER, AIR, Fuel(), TIMES)).cranking
    marched = run("Cranking to start now")
    flooded = [n for n in range(0, COUNT, APART) if closed[n] > 3.5]
    assert len(flooded) >= 4
    assert [marched[n] for n in flooded] == pytest.approx([closed[n] for n in flooded], abs=0.5)


@pytest.mark.parametrize("bench", [BENCH, OTHER], ids=["plover", "dunlin"])
def test_an_engine_that_has_cooled_for_an_hour_starts_within_two_seconds(
    bench: HotSoakBench,
) -> None:
    # Common practice, no source: under the bonnet the choke's coil stays warm.
    assert run("Cranking to start now", bench)[-1] < 2.0


def test_what_stands_before_starts_are_marched_is_what_they_say_too() -> None:
    first, found = BENCH.point(BENCH.values(), "SI"), state()
    assert not first.told
    assert (first.times, first.numbers) == (found.times, found.numbers)
    known = {line.label for line in first.readings if line.value is not None}
    assert [e for e in first.readings if e.label in known] == [
        e for e in found.readings if e.label in known
    ]


# Which way the trade says each goes: common practice, no source.
@pytest.mark.parametrize(
    ("changed", "sign"),
    [
        ({"vents": "inside"}, +1),
        ({"outside_setting": 0.0}, +1),
        ({"vents": "canister"}, -1),
        ({"outside": 308.15}, +1),
        ({"reid": 80e3}, +1),
        ({"flange_heat": 0.5}, -1),
    ],
)
def test_each_change_makes_the_start_as_much_harder_as_the_trade_says(
    changed: dict[str, Any], sign: int
) -> None:
    assert sign * (hardest(**changed) - hardest()) > 0


# First principles: what leaves the bowl lies in the bore, has dried there, is stored or is gone.
def test_fuel_that_left_the_bowl_is_found_again() -> None:
    soak = state(OTHER)
    by = {line.label: line.value for line in soak.readings}
    names = ("Fuel in the bore", "Gone outside", "Vapour in the canister")
    found = [sum(parts) for parts in zip(*(by[name] for name in names), strict=True)]
    left = [by["Fuel left in the bowl"][0] - each for each in by["Fuel left in the bowl"]]
    assert all(seen <= gone + 1e-9 for seen, gone in zip(found, left, strict=True))
    assert found[20] > 0.8 * left[20]


def test_a_full_canister_lets_the_vapour_through() -> None:
    empty, full = (run("Gone outside", OTHER, canister_load=share)[-1] for share in (0.0, 1.0))
    assert empty < 1e-4 < full


def test_moments_tell_the_run_in_order() -> None:
    told = state().moments
    assert [each.time for each in told] == sorted(each.time for each in told)
    assert told[0].time == 0
    assert any("boils" in each.words for each in told)


def test_drawing_follows_the_run() -> None:
    at = state().numbers
    left = run("Fuel left in the bowl")
    drawn = [(FLOOR - each) / (FLOOR - LEVEL) for each in at["surface"]]
    assert drawn == pytest.approx([each / left[0] for each in left])
    assert at["v_outside"][30] > 0
    assert max(state(vents="inside").numbers["v_outside"]) == 0


def test_state_at_one_moment_is_plain_numbers() -> None:
    then = state().at(600.0)
    assert all(isinstance(value, float) for value in then.numbers.values())
    assert "boils" in then.verdict


@pytest.mark.parametrize("vents", ["inside", "outside", "canister"])
@pytest.mark.parametrize("side", ["low", "high"])
def test_both_ends_of_all_controls_give_a_whole_state(vents: str, side: str) -> None:
    most = {name: getattr(each, side) for name, each in BENCH.controls().items()}
    found = BENCH.compute(BENCH.values() | most | {"vents": vents}, "US")
    assert whole(BENCH, found) == []
    assert shows(found) == []


def test_rig_without_heat_stores_is_refused() -> None:
    with pytest.raises(CardError, match="bare: hot_soak must be given"):
        HotSoakBench(Rig(name="bare"))
