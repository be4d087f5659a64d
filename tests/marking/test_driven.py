"""A drive that is handed in is driven again: its marks are those of the limits that it kept."""

import json
from typing import Any

import pytest
from fuelcircuits.answer_sheet.record import LONGEST_DRIVE
from fuelcircuits.answer_sheet.sheet import record
from fuelmarks.marking.marking import Mark, mark_sheet
from fuelmarks.questions import Driven, Sheet, draw, load
from fuelmarks.questions.frame.driven import ALL_KEPT
from fuelmarks.runner.protocol import checked_record

UNIT, NAME = "08-pump", "pull-away"
PUMP = load(UNIT)
ASKED = PUMP[NAME]
assert isinstance(ASKED, Driven)
SHEET: Sheet = draw(PUMP, 1)
GOOD = ASKED.examples[ALL_KEPT]


def mark(text: str) -> Mark:
    """Return the mark of a text that went the way of every answer."""
    handed_over: Any = checked_record(json.loads(json.dumps(record(UNIT, NAME, text))))
    return mark_sheet(PUMP, SHEET, {NAME: handed_over})[NAME]


def changed(**parts: Any) -> str:
    return json.dumps(json.loads(GOOD) | parts)


def outing(**parts: Any) -> str:
    return changed(outing=json.loads(GOOD)["outing"] | parts)


def test_a_careful_drive_earns_all() -> None:
    assert (mark(GOOD).verdict, mark(f"\n{GOOD}\n").points) == ("right", 2)


POINTS = {"not-away": 0, "stalled": 1.5, "misfired": 1, "vacuum-lost": 1.5}


@pytest.mark.parametrize("name", POINTS)
def test_each_slip_is_told_and_costs_its_limits(name: str) -> None:
    assert isinstance(ASKED, Driven)
    found = mark(ASKED.examples[name])
    assert (found.verdict, found.points) == (f"slip:{name}", POINTS[name])
    assert ASKED.near[name][1].split(".")[0] in found.comment


UNFIT = {
    "the name of what is right": ALL_KEPT,
    "no drive at all": "I drove well.",
    "half a drive": GOOD[: len(GOOD) // 2],
    "another form": changed(drive=2),
    "another step": changed(step=0.01),
    "an easier start": outing(speed=200.0),
    "another rig": outing(rig="dunlin"),
    "a faulty car": outing(fault="blocked-pump-jet"),
    "no such gear": outing(gear=["low"]),
    "no words": outing(engine={}, fault=[]),
    "a foot of another shape": changed(feet=[[1, {}, [], 0, 1, 1]]),
    "a gear that is no word": changed(feet=[[1, 0.0, ["low"], 0.0, True, False]]),
    "half an hour": changed(feet=[[90_000, 0.0, "low", 0.0, True, False]]),
    "a depth of brackets": '{"drive"' + "[" * 50_000,
    "no number": changed(feet=[[1, float("nan"), "low", 0.0, True, False]]),
    "longer than any drive": changed(feet=[[1, 0.1, "low", 0.0, True, False]] * 3000),
}


@pytest.mark.parametrize("text", UNFIT.values(), ids=UNFIT)
def test_what_is_no_drive_of_the_task_earns_nothing_and_stops_nothing(text: str) -> None:
    found = mark(text)
    assert (found.verdict, found.points) == ("not-a-name", 0)
    assert found.comment.startswith("This drive cannot be marked: ")


def test_an_open_answer_is_blank() -> None:
    assert mark("").verdict == "blank"


def test_only_a_drive_may_be_long() -> None:
    assert len(record(UNIT, NAME, '{"drive"' + "x" * 99_999)["text"]) == LONGEST_DRIVE + 1
    assert len(record(UNIT, NAME, "x" * 99_999)["text"]) == 1001
