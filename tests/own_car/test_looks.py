"""Tests without a gauge: what they show, how often they mislead, and what they cost."""

import re

import numpy as np
import pytest
from fuelcircuits.diagnosis.checks import CHECKS
from fuelcircuits.diagnosis.ranking import rank, weigh
from fuelcircuits.diagnosis.table import HEALTHY, SEVERITIES, Table
from fuelcircuits.diagnosis.worth import Worth
from fuelcircuits.errors import RangeError
from fuelcircuits.faults import FAULTS
from fuelcircuits.own_car.look import Look, look_bits
from fuelcircuits.own_car.looks import LOOKS, answers_of, left, seen_likelihood
from fuelcircuits.own_car.tools import PRICES, TOOLS, steps

SUSPECTS = (HEALTHY, "worn-throttle-shaft", "torn-pump-cup")
NOTHING_READ = Table((), SUSPECTS, [[[] for _ in SEVERITIES] for _ in SUSPECTS])


@pytest.mark.parametrize("look", LOOKS.values(), ids=lambda look: look.name)
def test_every_look_is_of_known_faults_and_says_how_it_is_made(look: Look) -> None:
    assert set(look.shows) <= set(FAULTS)
    assert look.label.endswith("?")
    assert look.how.endswith(".")
    assert 0.0 < look.misleads < min(look.shows.values()) <= 0.95
    assert look.minutes > 0
    assert look.needs in PRICES


def test_a_reading_of_an_engine_that_idles_answers_whether_it_idles() -> None:
    assert "dies-at-idle" in [one.name for one in left((), ("cruise-mixture",))]
    asked = [one.name for one in left(("shaft-wiggle",), ("idle-vacuum",))]
    assert asked == [name for name in LOOKS if name not in ("dies-at-idle", "shaft-wiggle")]


@pytest.mark.parametrize("look", LOOKS.values(), ids=lambda look: look.name)
def test_a_reading_that_answers_a_look_is_a_check(look: Look) -> None:
    assert set(look.answered_by) <= {check.name for check in CHECKS}


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("knocked-bowl", "no flame"),
        ("knocked-bowl", "stop it at once"),
        ("covered-horn", "backfire burns"),
        ("choke-cracks-open", "backfire burns"),
        ("better-without-cleaner", "backfire burns"),
    ],
)
def test_the_caution_stands_at_the_step(name: str, said: str) -> None:
    assert said in LOOKS[name].caution


def test_no_question_is_asked_in_the_negative() -> None:
    assert not [one.label for one in LOOKS.values() if re.search(r"\b(no|not)\b", one.label)]


def test_where_a_healthy_part_says_yes_a_fault_says_no() -> None:
    yes = LOOKS["rod-springs-back"].yes((HEALTHY, "power-rod-stuck-down"))
    assert yes[0] == pytest.approx([0.95] * len(SEVERITIES))
    assert yes[1][-1] == pytest.approx(0.15)


def test_a_misspelt_look_is_told_the_nearest_name() -> None:
    with pytest.raises(
        RangeError, match=r"on the list \(did you mean shaft-wiggle\?\), got 'shaft"
    ):
        answers_of({"shaft wigle": "yes"})


def test_whatever_runs_or_drips_has_a_caution() -> None:
    for name in ("covered-horn", "wet-nozzle", "shaft-wiggle", "weak-shot"):
        assert LOOKS[name].caution
    assert "never cover it all" in LOOKS["covered-horn"].caution
    assert "never brake cleaner" in LOOKS["water-at-flange"].how


def test_a_plain_fault_is_seen_and_a_slight_one_is_not() -> None:
    yes = LOOKS["shaft-wiggle"].yes(SUSPECTS)
    assert yes[0] == pytest.approx([0.08] * len(SEVERITIES))
    assert yes[1][0] == pytest.approx(0.08)
    assert yes[1][-1] == pytest.approx(0.9)
    assert yes[2] == pytest.approx([0.08] * len(SEVERITIES))


def test_a_look_weighs_by_bayes_rule() -> None:
    told = seen_likelihood(SUSPECTS, {"shaft-wiggle": True})
    found = weigh(NOTHING_READ, {}, seen=told).shares
    yes = np.mean(LOOKS["shaft-wiggle"].yes(SUSPECTS), axis=1)
    expected = yes * [0.5, 0.25, 0.25]
    assert found == pytest.approx(expected / expected.sum())
    no = weigh(NOTHING_READ, {}, seen=seen_likelihood(SUSPECTS, {"shaft-wiggle": False}))
    assert rank(no)[0].name == HEALTHY


def test_bits_of_a_look_are_the_mutual_information() -> None:
    weighed = weigh(NOTHING_READ, {})
    prior = np.array([0.5, 0.25, 0.25])
    yes = np.mean(LOOKS["shaft-wiggle"].yes(SUSPECTS), axis=1)
    joint = np.array([prior * yes, prior * (1 - yes)])
    apart = joint.sum(axis=1, keepdims=True) * prior
    assert look_bits(weighed, LOOKS["shaft-wiggle"]) == pytest.approx(
        float(np.sum(joint * np.log2(joint / apart)))
    )
    assert look_bits(weighed, LOOKS["vent-clicks"]) == pytest.approx(0.0, abs=1e-12)


def test_a_fault_of_the_second_barrel_is_seen_like_one_of_the_first() -> None:
    yes = LOOKS["covered-horn"].yes(("second-barrel-blocked-main-jet",))
    assert yes[0][-1] == pytest.approx(0.8)


@pytest.mark.parametrize(
    ("seen", "expected"),
    [
        ({"Shaft wiggle": "Yes"}, {"shaft-wiggle": True}),
        ({"weak_shot": "no"}, {"weak-shot": False}),
        ({"wet-nozzle": True}, {"wet-nozzle": True}),
        ({"wet-nozzle": False}, {"wet-nozzle": False}),
    ],
)
def test_answers_are_taken_as_people_write_them(
    seen: dict[str, object], expected: dict[str, bool]
) -> None:
    assert answers_of(seen) == expected


@pytest.mark.parametrize(
    ("seen", "words"),
    [
        ({"kick the tyre": "yes"}, "look must be one of covered-horn"),
        ({"wet-nozzle": "a bit"}, "wet-nozzle must be yes or no, got 'a bit'"),
    ],
)
def test_what_is_no_look_or_answer_is_refused(seen: dict[str, object], words: str) -> None:
    with pytest.raises(RangeError, match=words):
        answers_of(seen)


def test_every_gauge_reading_has_its_tool() -> None:
    for check in CHECKS:
        assert check.name in TOOLS or "mixture" in check.name
    assert set(TOOLS.values()) <= set(PRICES)


def test_what_tells_most_for_its_cost_comes_first_and_owning_a_tool_changes_that() -> None:
    gauges = [Worth(check, 0.8) for check in CHECKS if check.name == "idle-vacuum"]
    looks = [(LOOKS["shaft-wiggle"], 0.3), (LOOKS["vent-clicks"], 0.01)]
    first, second = steps(gauges, looks, ())
    assert (first.name, second.name) == ("shaft-wiggle", "idle-vacuum")
    assert second.price == PRICES["vacuum gauge"]
    first, second = steps(gauges, looks, ("vacuum gauge",))
    assert (first.name, first.price) == ("idle-vacuum", 0.0)
