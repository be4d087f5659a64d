"""Worked answers of the whole course: every step is there, and the last is the answer."""

import pytest
from fuelmarks.marking.worked import worked, worked_text
from fuelmarks.questions import draw, load
from fuelmarks.questions.frame.drawing import shown_answer

from tests.authoring.test_guards import UNITS


@pytest.mark.parametrize("unit", UNITS)
def test_last_line_comes_to_the_answer(unit: str) -> None:
    exercise_set = load(unit)
    for seed in range(3):
        sheet = draw(exercise_set, seed)
        for exercise in exercise_set:
            lines = worked(exercise, sheet)
            if exercise.method is None:
                assert lines == []
                continue
            assert len(lines) == len(exercise.method.formula.steps)
            three = shown_answer(exercise, sheet.answers[exercise.id], 3).split()[0]
            last = lines[-1].result.split(" = ")[-1].split()[0].rstrip("°").replace("−", "-")
            assert float(last) == pytest.approx(float(three.rstrip("°")), rel=6e-3)
            assert len(worked_text(exercise, sheet)) == len(lines)


def test_sentence_begins_with_a_capital_and_names_what_was_turned() -> None:
    exercise_set = load("02-float-bowl")
    sheet = draw(exercise_set, 1)
    area, push = worked_text(exercise_set["needle-force"], sheet)
    assert area.startswith("The area of the seat = π/4 · (")
    assert area.endswith("mm²")
    assert "psi = " in push
    assert push.endswith("m²)")
