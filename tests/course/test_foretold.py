"""Predictions: asked twice, read in one place, and no key in anything that is handed out."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from fuelcircuits.answer_sheet.sheet import begin, hand_over, record
from fuelmarks.authoring.build import source_notebook
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.foretold import Foretold, foretold_in
from fuelmarks.course.notebook import text_of
from fuelmarks.study.predictions import predictions
from fuelmarks.study.telling import tell

from tests.places import TOP
from tests.small_unit import EXERCISES, TEXT

COURSE = Course.at(TOP / "course")


def code(*lines: str) -> list[Mapping[str, Any]]:
    return [{"cell_type": "code", "source": line} for line in lines]


@pytest.mark.parametrize("unit", COURSE.units())
def test_no_notebook_holds_a_key(unit: str) -> None:
    exercise_set = COURSE.questions(unit)
    made = text_of(source_notebook(COURSE.text(unit), exercise_set, COURSE.root / "rigs"))
    assert exercise_set.predictions
    for key in exercise_set.predictions:
        assert key.why[:30] not in made
        for name in (f"prediction-{key.id}", f"now-{key.id}"):
            assert f'hand_over(\\"{unit}\\", \\"{name}\\"' in made


@pytest.mark.parametrize(
    ("lines", "then", "now"),
    [
        (('prediction_narrow_slot = "A"', 'now_narrow_slot = "b "'), "A", "B"),
        (("  prediction_narrow_slot='c'  # mine",), "C", ""),
        (('prediction_narrow_slot = "A"', 'prediction_narrow_slot = "B"'), "B", ""),
        (('prediction_narrow_slot = "A"', 'prediction_narrow_slot = ""'), "A", ""),
        (('now_narrow_slot = "it rises"',), "", "it rises"),
    ],
)
def test_letters_are_read_as_they_are_written(lines: tuple[str, ...], then: str, now: str) -> None:
    found = foretold_in(code(*lines))
    assert found == {"narrow-slot": Foretold("narrow-slot", then, now)}


def test_a_file_may_keep_its_lines_in_a_list() -> None:
    cells = [{"cell_type": "code", "source": ["# mine\n", 'prediction_level = "A"\n']}, {}]
    assert foretold_in(cells)["level"].then == "A"


def test_nothing_written_is_nothing_foretold() -> None:
    assert foretold_in(code('prediction_level = ""', "level = 'A'")) == {}


def test_the_end_says_what_was_said_at_first(capsys: pytest.CaptureFixture[str]) -> None:
    begin("90-small-unit")
    options = ["A", "B"]
    hand_over("90-small-unit", "prediction-level", "a", options=options)
    hand_over("90-small-unit", "now-level", "B", options=options, first="prediction-level")
    said = capsys.readouterr().out.splitlines()
    assert said == ["Handed over: A.", "At first you said A.", "Handed over: B."]


def test_without_a_first_answer_the_end_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    begin("90-small-unit")
    hand_over("90-small-unit", "now-level", "B", options=["A", "B"], first="prediction-level")
    assert "There is no first answer" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ("A", "A is right. More"),
        (" a ", "A is right. More"),
        ("C", "You say C; it is A. More"),
        ("", "Write the letter of your choice"),
        ("it rises", 'Write one letter between the quotes, such as "A".'),
        (3, "Write one letter"),
    ],
)
@pytest.mark.parametrize("which", ["prediction", "now"])
def test_study_mode_answers_at_once_but_not_for_nothing(
    value: object, said: str, which: str
) -> None:
    unit, name = "02-float-bowl", f"{which}-pump-pressure"
    told = tell(unit, "specimen", name, {name: record(unit, name, value)}, 1)
    assert told.startswith(said)
    assert "points" not in told


@pytest.mark.parametrize(
    ("text", "exercise_set", "message"),
    [
        (TEXT.replace("- B: it", "- C: it"), EXERCISES, "and so on, each once, got 'A, C'"),
        (TEXT.replace("- B: it", "- A: it"), EXERCISES, "each once"),
        (TEXT.replace("} level", "} depth"), EXERCISES, "must have a key of its name"),
        (TEXT.replace("- A: it rises\n- B: it falls\n", ""), EXERCISES, "each once, got 'none'"),
    ],
)
def test_a_prediction_that_cannot_be_answered_is_refused(
    tmp_path: Path, text: str, exercise_set: Any, message: str
) -> None:
    path = tmp_path / "unit.md"
    path.write_text(text)
    with pytest.raises(CourseError, match=r"unit\.md, line \d+: .*") as caught:
        source_notebook(path, exercise_set, tmp_path)
    assert message in str(caught.value)


def test_a_key_to_nothing_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "unit.md"
    path.write_text(TEXT.replace(":::{predict} level", ":::{written} level points=1"))
    with pytest.raises(CourseError, match="prediction must be asked in the text, got no 'level'"):
        source_notebook(path, EXERCISES, tmp_path)


def test_the_first_letter_is_kept_before_the_key_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    unit, name = "02-float-bowl", "prediction-pump-pressure"
    (tmp_path / "my-progress.json").write_text('{"version": 1, "units": {}}')
    (tmp_path / unit).mkdir()
    monkeypatch.chdir(tmp_path / unit)
    for letter in ("c", "a"):
        tell(unit, "specimen", name, {name: record(unit, name, letter)}, 1)
        source = f'prediction_pump_pressure = "{letter}"'
        cells = [{"cell_type": "code", "source": source}]
        (tmp_path / unit / f"{unit}.ipynb").write_text(json.dumps({"cells": cells}))
    assert [(one.name, one.then, one.now) for one in predictions(tmp_path)] == [
        ("pump pressure", "C", "A")
    ]
