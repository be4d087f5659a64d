"""The setting bench: gauges that are nearly true, and an engine that answers to its screws."""

import itertools
import re
from typing import Any

import numpy as np
import pytest
from fuelcircuits.benches import bench_class
from fuelcircuits.benches.frame.drawing import asked
from fuelcircuits.benches.frame.state import State
from fuelcircuits.benches.setting_up.bench import SettingUpBench
from fuelcircuits.benches.setting_up.drawing import FACE, VENT, scale
from fuelcircuits.benches.setting_up.found import card_settings, point
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.float_bowl import steady
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import curb_idle

from tests.benches.checks import off_curve
from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BENCH = SettingUpBench(PLOVER)
CARD = card_settings(PLOVER)._asdict() | {"cam": "stop", "reading": 1.0}
NAMES = asked(bench_class("setting_up").drawing())
RPM = np.pi / 30


def state(**changed: Any) -> State:
    return BENCH.compute(CARD | changed, "SI")


def gauge(found: State, label: str) -> float:
    return next(float(each.value) for each in found.gauges if each.label == label)


@pytest.mark.parametrize("rig", [PLOVER, DUNLIN])
def test_the_cards_settings_are_all_within_the_card(rig: Rig) -> None:
    bench = SettingUpBench(rig)
    found = bench.compute(bench.values() | card_settings(rig)._asdict(), "SI")
    assert found.verdict.startswith("Well done: all")
    assert not found.alarm


@pytest.mark.parametrize(
    ("changed", "good"),
    [
        ({"fast_screw": 2.0}, 4),
        ({"vent_setting": 0.5e-3}, 4),
        ({"mixture_screw": 3.2}, 4),
        ({"idle_screw": 1.0}, 2),  # the cam counts from the stop, and the mixture leans
    ],
)
def test_verdict_counts_what_is_within_the_card(changed: dict[str, Any], good: int) -> None:
    assert f"{good} of 5 settings" in state(**changed).verdict
    assert state(**changed).alarm


def test_it_begins_badly_set() -> None:
    assert BENCH.state().alarm
    assert "0 of 5" in BENCH.state().verdict


def test_the_gauges_are_those_of_the_networks_curb_idle() -> None:
    idle, found = curb_idle(PLOVER, Weather.at(), Fuel()), state()
    assert gauge(found, "Engine speed") == pytest.approx(idle.speed, rel=2e-3)
    assert gauge(found, "Manifold vacuum") == pytest.approx(idle.manifold_vacuum, rel=2e-3)
    level = PLOVER.float_bowl.depth - steady(PLOVER.float_bowl, Fuel(), 0.4e-3).level
    assert gauge(found, "Fuel under the face") == pytest.approx(level)


# Which way the trade says each setting moves what: common practice, no source.
@pytest.mark.parametrize(
    ("changed", "label", "way"),
    [
        ({"idle_screw": 1.0}, "Engine speed", +1),
        ({"mixture_screw": 3.0}, "CO", +1),
        ({"mixture_screw": 2.1}, "CO", -1),
        ({"float_setting": 11e-3}, "Fuel under the face", +1),
        ({"float_setting": 11e-3}, "CO", -1),
        ({"idle_screw": 1.5}, "Idle-port vacuum", +1),
        ({"cam": "cam"}, "Engine speed", +1),
        ({"cam": "cam", "fast_screw": 1.0}, "Fuel pressure", 0),
    ],
)
def test_gauges_move_the_way_the_trade_says(changed: dict[str, Any], label: str, way: int) -> None:
    assert np.sign(gauge(state(**changed), label) - gauge(state(), label)) == way


def test_gauges_lie_within_their_stated_accuracy_and_scatter() -> None:
    bench = SettingUpBench(PLOVER, seed=5)
    shown, true = [], bench.state().gauges
    for number in range(1, 13):
        bench.reading = float(number)
        shown.append(bench.measured())
    for each in true:
        found = np.array([float(one[each.label]) for one in shown])
        assert 0 < np.std(found) < 2.5 * each.noise
        assert abs(np.mean(found) - each.value) < each.accuracy + 1.5 * each.noise


def test_a_reading_is_the_same_for_the_same_seed_and_another_for_another() -> None:
    first, again, other = (SettingUpBench(PLOVER, seed=seed).measured() for seed in (3, 3, 4))
    assert first == again
    assert first != other


def test_card_ranges_hold_the_cards_own_values() -> None:
    for each in state().gauges:
        assert each.good is None or each.good[0] <= each.value <= each.good[1]


def test_dots_lie_on_their_curves() -> None:
    assert off_curve(state(idle_screw=1.2), rel=0.05) == []


def test_drawing_is_to_scale() -> None:
    found = state(vent_setting=1.0e-3)
    at = found.numbers
    unit = scale(point(PLOVER, CARD))
    assert (at["surface"] - FACE) / unit == pytest.approx(gauge(found, "Fuel under the face"))
    assert (76 - at["vent"]) / VENT == pytest.approx(1.0e-3, rel=0.02)


@pytest.mark.parametrize("rig", [PLOVER, DUNLIN])
def test_corners_of_the_controls_give_a_whole_state(rig: Rig) -> None:
    bench = SettingUpBench(rig)
    ends: list[Any] = [(control.low, control.high) for control in bench.controls().values()]
    for corner in itertools.product(*ends[:5], (1.0,), ("stop", "cam")):
        found = bench.compute(dict(zip([*bench.controls(), "cam"], corner, strict=True)), "US")
        assert set(found.numbers) >= NAMES
        assert np.all(np.isfinite(list(found.numbers.values())))
        assert np.all(np.isfinite([line.value for line in found.readings]))
        assert np.all(np.isfinite([each.value for each in found.gauges]))


def test_words_of_drawing_and_plot_carry_the_numbers() -> None:
    assert "mm under the gasket face" in state().drawn
    assert re.search(r"now \d+ rpm; the card says 700 rpm", state().plotted)
    assert " in under the gasket face" in BENCH.compute(CARD, "US").drawn


def test_rig_without_a_choke_is_refused() -> None:
    with pytest.raises(CardError, match="bare: float_bowl must be given"):
        SettingUpBench(Rig(name="bare"))
