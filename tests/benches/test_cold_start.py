"""The cold-start bench: its run agrees with the model of timer, switch and valve."""

import itertools
import json
from typing import Any

import numpy as np
import pytest
from fuelcircuits.benches import bench_class
from fuelcircuits.benches.carburettor.running import card_state
from fuelcircuits.benches.cold_start.bench import ColdStartBench
from fuelcircuits.benches.cold_start.found import whole
from fuelcircuits.benches.frame.drawing import asked
from fuelcircuits.benches.frame.state import State
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import solve

from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BENCH = ColdStartBench(DUNLIN)
NAMES = asked(bench_class("cold_start").drawing())
COLD, MILD = {"outside": 265.15}, {"outside": 303.15}


def state(**changed: Any) -> State:
    return BENCH.compute(BENCH.values() | changed, "SI")


def reading(found: State, label: str) -> Any:
    return next(np.asarray(line.value) for line in found.readings if line.label == label)


@pytest.mark.parametrize(
    ("changed", "alarm", "words"),
    [
        (COLD, False, "The idle is enriched"),
        (MILD, False, "no enrichment"),
        (COLD | {"valve": "dead"}, True, "stalls for want of fuel"),
        (COLD | {"hose": True}, True, "stalls for want of fuel"),
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
def test_mixture_is_the_networks_own(moment: int, enrichment: float) -> None:
    settings = Settings(idle_enrichment=enrichment, fuel_temperature=265.15)
    air, speed = Weather.at(temperature=265.15), DUNLIN.engine.idle_speed
    stop = card_state(DUNLIN, "idle").throttle_angle
    exact = solve(DUNLIN, air, Fuel(), speed, stop, settings=settings)
    found = reading(state(**COLD), "Lambda delivered")[moment]
    assert found == pytest.approx(exact.mixture, rel=1e-6)


def test_drawing_follows_the_parts() -> None:
    at = state(**COLD).numbers
    assert at["shut"][0] == pytest.approx(-26.0)
    assert at["shut"][-1] == pytest.approx(0.0)
    assert at["solenoid"][0] == pytest.approx(0.0)
    assert at["solenoid"][-1] == pytest.approx(90.0)
    assert at["hand"][-1] == pytest.approx(360.0)


@pytest.mark.parametrize("rig", [PLOVER, DUNLIN])
def test_every_corner_of_the_controls_gives_a_whole_run(rig: Rig) -> None:
    bench = ColdStartBench(rig)
    ends: list[Any] = [(control.low, control.high) for control in bench.controls().values()]
    names = [*bench.controls(), "valve", "hose"]
    for corner in itertools.product(*ends, ("good", "dead", "stuck"), (False, True)):
        found = bench.compute(dict(zip(names, corner, strict=True)), "US")
        assert set(found.numbers) >= NAMES
        assert all(np.all(np.isfinite(each)) for each in found.numbers.values())
        assert all(np.all(np.isfinite(line.value)) for line in found.readings)
        assert np.all(np.diff(found.times or ()) > 0)


def test_words_of_drawing_and_plot_carry_the_numbers() -> None:
    assert "keeps open for 33.0 s" in state().drawn
    assert "warms from 7 °C" in state().plotted
    assert "°F" in BENCH.compute(BENCH.values(), "US").drawn


def test_what_is_found_can_be_kept_as_text() -> None:
    found = whole(DUNLIN, BENCH.values())
    assert json.loads(json.dumps(found))[1:4] == [found.fault, found.back, found.times]


def test_rig_without_a_low_speed_circuit_is_refused() -> None:
    with pytest.raises(CardError, match="bare: low_speed must be given"):
        ColdStartBench(Rig(name="bare"))
