"""A unit is its block of TOML, with the questions that need Python in their places."""

import sys
from pathlib import Path

import pytest
from fuelmarks.questions import Choice
from fuelmarks.questions.frame.unit import unit_of
from fuelmarks.questions.frame.worded import BlockError

BLOCK = """
title = "A shaft"
[given]
shaft = "6 to 8 step 1 mm | the diameter of the shaft"
[[question]]
id = "section"
ask = "What is its section?"
formula = "section = circle(shaft)  # the section"
unit = "mm^2"
expect = "20 to 60"
[[question]]
id = "half"
ask = "And half of it?"
formula = "half = section / 2  # the half"
unit = "mm^2"
expect = "10 to 30"
"""


def choice(name: str) -> Choice:
    return Choice(
        id=name,
        ask="",
        options={"yes": "yes", "no": "no"},
        right=lambda given: "yes",
        why="",
        points=1,
        outcomes=(),
    )


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    (tmp_path / "shaft_room").mkdir()
    (tmp_path / "shaft_room/__init__.py").touch()
    (tmp_path / "shaft_room/questions.toml").write_text(BLOCK)
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.delitem(sys.modules, "shaft_room", raising=False)
    return "shaft_room"


def test_questions_of_python_stand_where_they_belong(package: str) -> None:
    after = {"": (choice("first"),), "section": (choice("one"), choice("two"))}
    found = unit_of(package, unit="90-shaft", first_name="90-axle", after=after)
    assert [each.id for each in found] == ["first", "section", "one", "two", "half"]
    assert (found.unit, found.lot, found.title) == ("90-shaft", "90-axle", "A shaft")
    assert [given.name for given in found.givens] == ["shaft"]


def test_a_question_after_none_of_the_block_is_refused(package: str) -> None:
    with pytest.raises(BlockError, match=r"must be one of .*'half'.*, got 'whole'"):
        unit_of(package, unit="90-shaft", after={"whole": (choice("one"),)})


def test_a_fault_in_the_block_names_the_unit(package: str, tmp_path: Path) -> None:
    (tmp_path / package / "questions.toml").write_text("title = 3")
    with pytest.raises(BlockError, match=r"^90-shaft/questions\.toml: block: title must be a text"):
        unit_of(package, unit="90-shaft")
