"""What the term brings back: every circuit twice, in another form than before."""

import re
import tomllib
from collections import defaultdict

import pytest
from fuelcircuits import LowSpeedBench
from fuelcircuits.cards import read_rig
from fuelmarks.course.course import Course
from fuelmarks.paper.outcomes_map import outcomes_map
from fuelmarks.questions import Choice, Selection, load

from tests.places import COURSE_FOLDER, RIGS

COURSE = Course(COURSE_FOLDER)
UNITS = COURSE.units()
EARLIER = "## From earlier units"
CIRCUITS = {"AIR", "FLT", "VNT", "LOW", "OFF", "HI", "PWR", "PMP", "CHK", "MIX"}
FINDS = re.compile(r"^(?:Finds why|Finds the one|Traces|Tells a blocked|Chooses tests)")
"""Titles of outcomes that promise diagnosis; a sum alone does not show it."""
SETS = re.compile(r"^(?:Sets|Brings a bench) ")
"""Titles of outcomes that promise setting, which only settings show, or somebody who watches."""


def reviewed() -> dict[str, list[str]]:
    """Return the questions that bring a family of outcomes back in another unit than its own."""
    found = defaultdict(list)
    for unit in UNITS:
        own, earlier = COURSE.text(unit).read_text("utf-8").split(EARLIER)
        first = {code for one in load(unit) if f"}} {one.id}\n" in own for code in one.outcomes}
        for one in load(unit):
            if f"}} {one.id}\n" in earlier:
                for family in {code.split("-")[0] for code in one.outcomes if code not in first}:
                    found[family].append(f"{unit[:2]} {one.id}")
    return found


def test_every_circuit_comes_back_twice_in_another_form() -> None:
    found = reviewed()
    names = {family: {one.split()[1] for one in found[family]} for family in CIRCUITS}
    assert {family: each for family, each in names.items() if len(each) < 2} == {}


def test_outcomes_that_promise_diagnosis_are_asked_by_diagnosis() -> None:
    titles = tomllib.loads((COURSE.root / "outcomes.toml").read_text("utf-8"))
    promised = {code for code, each in titles.items() if FINDS.match(each["title"])}
    asked = {
        code
        for unit in UNITS
        for one in load(unit)
        if isinstance(one, Choice | Selection)
        for code in one.outcomes
    }
    assert promised
    assert promised - asked == set()


def test_outcomes_that_promise_setting_are_asked_by_settings() -> None:
    lines = [one for one in outcomes_map(COURSE) if SETS.match(one.title)]
    by_answers = [one for one in lines if not one.outcome.watched]
    assert {one.code for one in lines if one.outcome.watched} == {"JOB-5", "JOB-6"}
    assert [one.code for one in by_answers] == ["SET-4"]
    assert by_answers[0].forms == ("settings",)
    assert by_answers[0].units == ("02", "04", "05", "08", "09", "11")


def test_screws_far_in_and_a_weak_chamber_are_blocked_bleeds() -> None:
    # Unit 05 asks what to clean: the mixture of the card, the screws most of a turn in.
    bench = LowSpeedBench(read_rig(RIGS / "plover.toml"))
    card = bench.values()

    def read(label: str, **changed: float) -> float:
        state = bench.point({**card, **changed}, "SI")
        return next(float(one.value) for one in state.readings if one.label == label)

    turns = card["screw_turns"] - 0.8
    bleed = {"air_bleed_bore": 0.45 * card["air_bleed_bore"], "screw_turns": turns}
    narrow = {"economizer_bore": 0.7 * card["economizer_bore"]}
    assert read("Lambda", **bleed) == pytest.approx(read("Lambda"), abs=0.06)
    assert 0.5 < read("Chamber vacuum", **bleed) / read("Chamber vacuum") < 0.75
    assert read("Lambda", **narrow) > read("Lambda")
    assert read("Chamber vacuum", **narrow) > 1.2 * read("Chamber vacuum")


def test_the_diluted_gas_of_unit_12_is_rich_and_reads_lean() -> None:
    gas = {"co_reading": 2.4, "co2_reading": 11.5, "hydrogen_atoms": 1.87}
    reads = load("10-exhaust")["gas-lambda"].reference
    assert reads({**gas, "o2_reading": 4.0}, {}) == pytest.approx(1.12, abs=0.005)
    assert reads({**gas, "o2_reading": 0.0}, {}) == pytest.approx(0.92, abs=0.01)
