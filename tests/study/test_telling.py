"""Study mode: hints one by one, then the answer."""

from importlib.metadata import entry_points
from pathlib import Path
from typing import Any

import pytest
from fuelcircuits.answer_sheet.sheet import STUDY, record
from fuelcircuits.quantities.units import Q
from fuelmarks.course.personal import study_seed
from fuelmarks.questions import draw, load
from fuelmarks.study.telling import tell

UNIT, TRAINEE = "02-float-bowl", "specimen"
SHEET = draw(load(UNIT), study_seed(TRAINEE, load(UNIT)))
FORCE, LIFT = SHEET.answers["needle-force"], SHEET.answers["buoyancy"]
WEIGHT = 9.81 * SHEET.givens["float_mass"]


def told(value: object, tries: int = 1) -> str:
    """Return what study mode says about `value` as the needle force."""
    return told_last({"needle-force": value}, tries)


def told_last(answers: dict[str, object], tries: int = 1) -> str:
    """Return what study mode says about the last of these answers."""
    records: dict[str, Any] = {name: record(UNIT, name, one) for name, one in answers.items()}
    return tell(UNIT, TRAINEE, list(answers)[-1], records, tries)


def test_the_answer_sheet_finds_study_mode() -> None:
    (found,) = entry_points(group=STUDY)
    assert found.load() is tell


def test_a_right_answer_is_confirmed_with_its_reason() -> None:
    words = told(Q(FORCE, "N").to("lbf"))
    assert words.startswith("2 of 2 points. Right. Worked answer:")


def test_a_slip_is_named_and_earns_its_share() -> None:
    pressure = SHEET.givens["supply_pressure"]
    wrong = (pressure + 101_325.0) / pressure * FORCE
    assert told(Q(wrong, "N")).startswith("1 of 2 points. You took the absolute pressure.")


def test_a_wrong_earlier_step_is_followed_through() -> None:
    carried = 1.3 * (LIFT - WEIGHT) + WEIGHT
    words = told_last({"needle-force": Q(1.3 * FORCE, "N"), "buoyancy": Q(carried, "N")})
    assert "your own value of needle-force" in words


@pytest.mark.parametrize(("tries", "hints", "answer"), [(1, 1, 0), (2, 2, 0), (3, 0, 1)])
def test_each_try_brings_a_hint_and_the_third_the_answer(
    tries: int, hints: int, answer: int
) -> None:
    words = told(Q(0.9, "N"), tries)
    assert (words.count("Hint:"), words.count("Worked answer")) == (hints, answer)


@pytest.mark.parametrize(("value", "hints"), [(0.1, 0), (None, 0), (Q(1, "psi"), 1)])
def test_hints_come_only_where_the_method_is_in_doubt(value: object, hints: int) -> None:
    assert told(value).count("Hint:") == hints


@pytest.mark.parametrize("value", [0.1, "about one", [1, 2]])
def test_what_is_only_written_amiss_never_brings_the_answer(value: object) -> None:
    assert "Worked answer" not in told(value, 5)


@pytest.mark.parametrize(
    ("unit", "exercise"), [("77-none", "needle-force"), (UNIT, "no-such-exercise")]
)
def test_an_exercise_that_is_not_there_is_named(unit: str, exercise: str) -> None:
    assert "must be" in tell(unit, TRAINEE, exercise, {}, 1) or "must have" in tell(
        unit, TRAINEE, exercise, {}, 1
    )


@pytest.mark.parametrize("wish", ["show", " Show me ", "?"])
def test_a_wish_brings_the_worked_answer_step_by_step(wish: str) -> None:
    words = told(wish).splitlines()
    assert words[0].startswith("0 of 2 points. ")
    assert "Worked answer:" in words[0]
    assert words[1].startswith("The area of the seat = π/4 · (")
    assert words[2].startswith("The push on the needle = ")
    assert " psi = " in words[2]


def test_third_try_brings_the_steps_and_the_first_says_how_to_wish_for_them() -> None:
    first, third = told(Q(0.9, "N"), 1), told(Q(0.9, "N"), 3)
    assert "The push on the needle = " in third
    assert "The push on the needle = " not in first
    assert 'write "show" as your answer' in first
    assert 'write "show"' not in third


def test_questions_of_ones_own_are_found_above_the_notebook(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own = tmp_path / "units" / "20-our-float"
    own.mkdir(parents=True)
    (own / "questions.toml").write_text(
        '[given]\nbore = "2 mm | the bore"\n[[question]]\nid = "hole"\nask = "How large?"\n'
        'formula = "area = circle(bore)  # the area"\nunit = "mm^2"\nexpect = "1 to 9"\n'
    )
    (tmp_path / "20-our-float").mkdir()
    monkeypatch.chdir(tmp_path / "20-our-float")
    answer = {"hole": record("20-our-float", "hole", Q(3.14, "mm^2"))}
    words = tell("20-our-float", "specimen", "hole", answer, 1)
    assert words.startswith("1 of 1 points. Right.")
    assert "The area = π/4 · (2 mm)² = 3.142 mm²" in words
