"""Benches whose whole run is marched: what stands at once, and that the run bears it out."""

import re
from dataclasses import replace
from typing import Any

import pytest
from fuelcircuits.benches import open_bench
from fuelcircuits.benches.choke import found as choke
from fuelcircuits.benches.frame.state import AWAITED
from fuelcircuits.benches.pump import found as pump
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis.march import finished

from tests.benches.checks import ends
from tests.benches.opening import CARD, MARCHED
from tests.benches.opening import bench as opened
from tests.places import RIGS


@pytest.mark.parametrize("rig", ["plover", "dunlin"])
@pytest.mark.parametrize("stem", MARCHED)
def test_point_of_a_marched_run_says_nothing_that_the_run_contradicts(stem: str, rig: str) -> None:
    made = open_bench(stem, read_rig(RIGS / f"{rig}.toml"))
    for values in [made.values(), *list(ends(made))[:2]]:
        first, rest = made.point(values, "SI"), made.compute(values, "SI")
        for panel, whole in zip(first.chart.panels, rest.chart.panels, strict=True):
            for curve, drawn in zip(panel.curves, whole.curves, strict=True):
                assert curve.x is None or curve == drawn
        assert (first.verdict, first.alarm, first.whole, first.told) == (
            AWAITED,
            False,
            False,
            False,
        )
        assert first.moments == tuple(one for one in rest.moments if one in first.moments)
        assert first.times == rest.times
        for line, told in zip(first.readings, rest.readings, strict=True):
            assert replace(told, value=line.value) == line
            assert line.value is None or line == told
        assert first.numbers == {name: rest.numbers[name] for name in first.numbers}
        known = re.escape(first.drawn).replace(AWAITED, "[^ ]+( [^ ]+)?")
        assert re.fullmatch(known, rest.drawn)


# What is known beforehand is worked out apart from the march, by the march's own steps.
@pytest.mark.parametrize(
    ("stem", "label"), [("choke", "Coil"), ("choke", "Coolant"), ("pump", "Throttle angle")]
)
def test_what_is_known_beforehand_is_what_the_march_comes_to(stem: str, label: str) -> None:
    for rig in (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin")):
        made: Any = open_bench(stem, rig)
        for values in [made.values(), *list(ends(made))[:2]]:
            known = next(e.value for e in made.point(values, "SI").readings if e.label == label)
            assert known == marched(stem, rig, values, label)


def marched(stem: str, rig: Any, values: Any, label: str) -> list[float]:
    """Return what the run itself says, each of its moments in turn."""
    if stem == "pump":
        changed, tip = pump._pump(rig, values), pump._tip(values)
        run = finished(pump._run(rig, changed, tip, values["coolant"]))
        return [each.throttle for each in run]
    tapped = values["pedal"] == "tapped"
    run = finished(choke._run(rig, choke._car(rig, values), values["speed"], tapped=tapped))
    return [each.coil if label == "Coil" else each.coolant for each in run]


def test_a_reading_that_is_still_worked_out_travels_without_a_value() -> None:
    for curves in (False, True):
        lines = open_bench("pump", read_rig(CARD)).answer({}, "SI", curves=curves)["readings"]
        missing = [line["label"] for line in lines if "value" not in line]
        assert missing == ([] if curves else [line["label"] for line in lines[:-1]])


@pytest.mark.parametrize("stem", MARCHED)
def test_whoever_asks_for_readings_gets_all_of_them(stem: str) -> None:
    made = opened(stem)
    assert made.told(made.values(), "SI") == made.compute(made.values(), "SI")
    assert opened("off_idle").told(opened("off_idle").values(), "SI").whole is False
