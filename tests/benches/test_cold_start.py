"""The cold-start bench: its run agrees with the network, and with timer, switch and valve."""

import json
from functools import cache
from typing import Any

import numpy as np
import pytest
from fuelcircuits.benches.carburettor.running import card_state
from fuelcircuits.benches.cold_start.bench import ColdStartBench
from fuelcircuits.benches.cold_start.found import whole
from fuelcircuits.benches.frame.state import State
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import solve

from tests.benches.checks import whole as whole_state
from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BENCH = ColdStartBench(DUNLIN)
COLD, MILD = {"outside": 265.15}, {"outside": 303.15}


@cache
def state(**changed: Any) -> State:
    return BENCH.compute(BENCH.values() | changed, "SI")


def reading(found: State, label: str) -> Any:
    return next(np.asarray(line.value) for line in found.readings if line.label == label)


@pytest.mark.parametrize(
    ("changed", "alarm", "words"),
    [
        (COLD, False, "The idle is enriched"),
        (MILD, False, "no enrichment"),
        (COLD | {"valve": "dead"}, True, "as lean as a warm one"),
        (COLD | {"hose": True}, True, "as lean as a warm one"),
        ({"valve": "stuck"}, True, "stays rich"),
    ],
)
def test_verdict_names_what_the_enrichment_does(
    changed: dict[str, Any], alarm: bool, words: str
) -> None:
    assert state(**changed).alarm is alarm
    assert words in state(**changed).verdict


@pytest.mark.parametrize("timer", [10.0, 35.0, 60.0])
def test_the_timer_ends_the_enrichment_and_lets_exhaust_gas_back(timer: float) -> None:
    # 35 s is the usual time: common practice, no source.
    found = state(outside=255.15, timer=timer)  # so cold that the switch does not end it first
    passage, egr = (
        reading(found, name) for name in ("Idle air passage open", "Exhaust gas let back")
    )
    after = np.array(found.times) >= timer
    assert np.all(passage[~after] < 0.5)
    assert np.all(passage[after] == 1.0)
    assert np.all(egr == after)


def test_less_idle_air_is_richer() -> None:
    found = state(**COLD)
    assert reading(found, "Lambda delivered")[0] < reading(found, "Lambda delivered")[-1] - 0.03


def test_the_coolant_switch_ends_it_before_the_timer_in_mild_weather() -> None:
    shut = [
        float(np.sum(reading(state(outside=kelvin), "Idle air passage open") < 0.5))
        for kelvin in (265.15, 288.15, 295.15)
    ]
    assert shut[0] > shut[1] > shut[2] == 0


@pytest.mark.parametrize(("moment", "enrichment"), [(0, 1.0), (-1, 0.0)])
def test_idle_fuel_is_the_steady_networks_with_the_passage_as_it_stands(
    moment: int, enrichment: float
) -> None:
    settings = Settings(idle_enrichment=enrichment, fuel_temperature=265.15)
    air, speed = Weather.at(temperature=265.15), DUNLIN.engine.idle_speed
    stop = card_state(DUNLIN, "idle").throttle_angle
    exact = solve(DUNLIN, air, Fuel(), speed, stop, settings=settings)
    found = reading(state(**COLD), "Idle fuel, all barrels")[moment]
    assert found == pytest.approx(exact.fuel_flow, rel=5e-3)


def test_a_frosty_engine_without_enrichment_leaves_more_cycles_unburnt() -> None:
    # Common practice, no source: a cold engine wants its idle enriched.
    sound, dead = (
        reading(state(outside=263.15, valve=each), "Cycles that fire") for each in ("good", "dead")
    )
    assert dead[0] < sound[0]
    assert min(dead[:20] - sound[:20]) < -0.1
    assert dead[-1] == pytest.approx(sound[-1], abs=1e-3)


def test_what_stands_before_the_march_is_what_the_march_says() -> None:
    first, found = BENCH.point(BENCH.values(), "SI"), state()
    assert not first.told
    assert first.times == found.times
    assert first.moments == found.moments
    assert {name: found.numbers[name] for name in first.numbers} == first.numbers
    told = [line for line in first.readings if line.value is not None]
    assert told == [line for line in found.readings if line.label in {e.label for e in told}]


def test_drawing_follows_the_parts() -> None:
    at = state(**COLD).numbers
    assert at["shut"][0] == pytest.approx(-26.0)
    assert at["shut"][-1] == pytest.approx(0.0)
    assert at["solenoid"][0] == pytest.approx(0.0)
    assert at["solenoid"][-1] == pytest.approx(90.0)
    assert at["hand"][-1] == pytest.approx(360.0)


@pytest.mark.parametrize("rig", [PLOVER, DUNLIN])
@pytest.mark.parametrize(
    ("side", "valve", "hose"),
    [
        ("low", "good", False),
        ("high", "good", True),
        ("low", "dead", False),
        ("high", "stuck", True),
    ],
)
def test_both_ends_of_the_controls_give_a_whole_run(
    rig: Rig, side: str, valve: str, hose: bool
) -> None:
    bench = ColdStartBench(rig)
    most = {name: getattr(each, side) for name, each in bench.controls().items()}
    found = bench.compute(bench.values() | most | {"valve": valve, "hose": hose}, "US")
    assert whole_state(bench, found) == []
    assert np.all(np.diff(found.times or ()) > 0)


def test_words_of_drawing_and_plot_carry_the_numbers() -> None:
    assert "keeps open for 33.0 s" in state().drawn
    assert "warms from 8 °C" in state().plotted
    assert "°F" in BENCH.compute(BENCH.values(), "US").drawn


def test_what_is_found_can_be_kept_as_text() -> None:
    found = whole(DUNLIN, BENCH.values())
    assert json.loads(json.dumps(found))[1:4] == [
        found.fault,
        found.back,
        found.vacuum,
    ]


def test_rig_without_a_low_speed_circuit_is_refused() -> None:
    with pytest.raises(CardError, match="bare: low_speed must be given"):
        ColdStartBench(Rig(name="bare"))
