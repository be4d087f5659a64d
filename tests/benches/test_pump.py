"""The pump bench: its run agrees with the model, and its drawing is to scale."""

import itertools
import json
import re
from typing import Any

import numpy as np
import pytest
from fuelcircuits.benches import bench_class
from fuelcircuits.benches.frame.drawing import asked
from fuelcircuits.benches.frame.state import State
from fuelcircuits.benches.pump.bench import PumpBench
from fuelcircuits.benches.pump.drawing import TOP, scale
from fuelcircuits.benches.pump.found import BEGIN, Tip, _alone, _bare, _pump, _run, _tip, whole
from fuelcircuits.benches.pump.words import STUMBLES
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis.march import finished
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.pump import effective_area, shot_volume
from fuelcircuits.physics.motion.pump_shot import pump_run
from fuelcircuits.physics.network.rig import Rig

from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BENCH = PumpBench(PLOVER)
NAMES = asked(bench_class("pump").drawing())
COLD, FLOORED = {"coolant": 263.15}, {"opened": 1.0, "duration": 0.1}


def state(**changed: Any) -> State:
    return BENCH.compute(BENCH.values() | changed, "SI")


def reading(found: State, label: str) -> Any:
    return next(np.asarray(line.value) for line in found.readings if line.label == label)


def times(found: State) -> list[float]:
    assert found.times is not None
    return list(found.times)


@pytest.mark.parametrize(
    ("changed", "alarm", "words"),
    [
        ({}, False, "The shot covers the tip-in"),
        ({"pump": "none"}, True, "No shot"),
        ({"pump": "cup", "duration": 0.2}, True, "stumbles"),
        ({"opened_from": 0.45, "opened": 0.2}, False, "The throttle closes, so no shot is wanted"),
    ],
)
def test_verdict_names_how_the_tip_in_ends(
    changed: dict[str, Any], alarm: bool, words: str
) -> None:
    assert state(**changed).alarm is alarm
    assert words in state(**changed).verdict


def test_without_the_shot_the_tip_in_goes_lean_and_recovers() -> None:
    # Mechanism: the film of fuel on the wall grows first (Aquino, SAE 810494, 1981).
    bare = reading(state(), "Lambda, without it")
    assert bare.max() > STUMBLES
    assert bare[-1] == pytest.approx(reading(state(), "Lambda, with the shot")[-1], rel=0.02)


# Which way the trade says each change moves the leanest moment without a shot, and the time the
# shot lasts: common practice, no source.
@pytest.mark.parametrize(
    ("changed", "way"),
    [({"duration": 1.5}, -1), (COLD, +1), ({"opened": 0.2}, -1)],
)
def test_the_hole_without_a_shot_grows_with_haste_and_cold(
    changed: dict[str, Any], way: int
) -> None:
    peaks = [reading(state(**each), "Lambda, without it").max() for each in ({}, changed)]
    assert np.sign(peaks[1] - peaks[0]) == way


@pytest.mark.parametrize(
    ("changed", "way"), [({"jet": 0.6e-3}, -1), ({"spring": 600.0}, -1), ({"jet": 0.35e-3}, +1)]
)
def test_the_shot_lasts_as_jet_and_spring_say(changed: dict[str, Any], way: int) -> None:
    lasts = [half_time(state(**each)) for each in ({}, changed)]
    assert np.sign(lasts[1] - lasts[0]) == way


def half_time(found: State) -> float:
    """Return when half the shot has left the jets."""
    delivered = reading(found, "Shot so far")
    return float(np.interp(0.5 * delivered[-1], delivered, times(found)))


def test_the_whole_shot_is_the_travel_times_the_area() -> None:
    found = state()
    angles = np.asarray(reading(found, "Throttle angle"))
    given = shot_volume(PLOVER.pump, float(angles[0]), float(angles[-1]))
    kept = effective_area(PLOVER.pump) * float(reading(found, "Spring squeezed by")[-1])
    assert reading(found, "Shot so far")[-1] == pytest.approx(given - kept, rel=1e-3)
    assert kept < 0.05 * given  # the discharge check's load holds the last sixth of a millimetre


def test_a_late_rod_loses_the_beginning_of_the_stroke() -> None:
    lost = [reading(state(lost=angle), "Shot so far")[-1] for angle in (0.227, 0.4, 0.6)]
    assert np.all(np.diff(lost) < 0)


def test_the_quick_run_is_true_to_the_exact_one() -> None:
    found = state()
    angles = reading(found, "Throttle angle").tolist()
    exact = pump_run(PLOVER.pump, times(found), angles)
    delivered = reading(found, "Shot so far")
    assert delivered == pytest.approx(exact.delivered, abs=0.03 * exact.delivered[-1])


# The air is marched once, without a shot and hot: of each case a march with air of its own.
@pytest.mark.parametrize("changed", [{}, COLD | {"opened": 0.8}])
def test_neither_pump_nor_coolant_changes_the_air(changed: dict[str, Any]) -> None:
    values = BENCH.values() | changed
    ours = whole(PLOVER, values)
    theirs = finished(_run(PLOVER, _pump(PLOVER, values), _tip(values), values["coolant"]))
    assert ours.vacuum == pytest.approx([each.vacuum for each in theirs], rel=1e-3, abs=1.0)
    lambdas = [each.burning.mixture for each in theirs]
    assert ours.helped.mixture == pytest.approx(lambdas, rel=1e-3)


# Steps of a time: eight in the place of each of the bench's.
def test_the_run_is_near_that_of_far_shorter_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    ours, times = whole(PLOVER, BENCH.values()), Tip.times
    forget()
    monkeypatch.setattr(Tip, "times", lambda self: finer(times(self), 8))
    theirs = whole(PLOVER, BENCH.values())
    forget()
    for name, near in {"mixture": 0.05, "film": 0.02 * max(theirs.helped.film)}.items():
        exact = getattr(theirs.helped, name)[::8]
        assert getattr(ours.helped, name) == pytest.approx(exact, abs=near)
    assert max(ours.bare.mixture) == pytest.approx(max(theirs.bare.mixture), abs=0.05)


def finer(times: list[float], parts: int) -> list[float]:
    """Return times with as many steps in the place of each."""
    pairs = itertools.pairwise(times)
    return [a + (b - a) * k / parts for a, b in pairs for k in range(parts)] + times[-1:]


def forget() -> None:
    """Drop the runs that are kept."""
    _alone.cache_clear()
    _bare.cache_clear()


def test_fuel_metered_equals_fuel_burnt_and_film_grown() -> None:
    found = state()
    fuel = {curve.label: np.asarray(curve.y) for curve in found.chart.panels[1].curves}
    metered = np.trapezoid(fuel["by the circuits"] + fuel["by the pump"], times(found))
    burnt = np.trapezoid(fuel["at cylinders"], times(found))
    film = reading(found, "Fuel on the wall")
    assert metered == pytest.approx(burnt + film[-1] - film[0], rel=0.02)


def test_drawing_is_to_scale() -> None:
    found = state()
    unit = scale(whole(PLOVER, BENCH.values()).move.sizes)
    at = {name: np.array(value) for name, value in found.numbers.items()}
    assert (at["plunger"] - TOP) / unit == pytest.approx(reading(found, "Plunger down"))
    assert (at["bore_right"] - at["bore_left"]) / unit == pytest.approx(PLOVER.pump.bore)
    squeezed = reading(found, "Spring squeezed by")
    free = (at["plunger"] - at["coil_0"])[0]
    assert (free - (at["plunger"] - at["coil_0"])) / unit == pytest.approx(squeezed, abs=1e-4)


def test_moments_tell_the_opening_and_the_end_of_the_shot() -> None:
    told = state().moments
    assert [each.time for each in told][:2] == [0.0, BEGIN]
    assert told[-1].words == "The shot is over."
    assert np.all(np.diff([each.time for each in told]) > 0)


@pytest.mark.parametrize("rig", [PLOVER, DUNLIN])
@pytest.mark.parametrize("pump", ["good", "cup", "check", "none"])
def test_corners_of_the_controls_give_a_whole_run(rig: Rig, pump: str) -> None:
    bench = PumpBench(rig)
    ends = [(control.low, control.high) for control in bench.controls().values()]
    for number, corner in enumerate(itertools.product(*ends)):
        if number % 17:
            continue  # every seventeenth: each end of each control comes up several times
        found = bench.compute(
            dict(zip(bench.controls(), corner, strict=True)) | {"pump": pump}, "US"
        )
        assert set(found.numbers) >= NAMES
        assert all(np.all(np.isfinite(each)) for each in found.numbers.values())
        assert all(np.all(np.isfinite(line.value)) for line in found.readings)
        assert np.all(np.diff(times(found)) > 0)


def test_a_slow_foot_on_a_strong_spring_with_a_leaking_check_gives_a_whole_run() -> None:
    # The rates of this pump are stiff: a soft seat and a hard spring.
    bench = PumpBench(DUNLIN)
    changed = {"pump": "check", "duration": 1.213, "jet": 0.778e-3, "spring": 1167.7}
    changed |= {"lost": 0.394, "speed": 223.3, "coolant": 304.6}
    for before in (0.0, 0.05, 0.137):
        found = bench.compute(bench.values() | changed | {"opened_from": before}, "SI")
        assert np.all(np.diff(reading(found, "Shot so far")) >= 0)
        assert np.all(np.isfinite(reading(found, "Lambda, with the shot")))


def test_words_of_drawing_and_plot_carry_the_numbers() -> None:
    assert "bore 0.43 mm" in state().drawn
    assert re.search(r"peaks at \d\.\d{3} with the shot", state().plotted)
    assert "fl oz" in BENCH.compute(BENCH.values(), "US").drawn


def test_what_is_found_can_be_kept_as_text() -> None:
    found = whole(PLOVER, BENCH.values())
    assert json.loads(json.dumps(found))[1:3] == [found.over, found.vacuum]


def test_rig_without_a_pump_is_refused() -> None:
    with pytest.raises(CardError, match="bare: pump must be given"):
        PumpBench(Rig(name="bare"))
