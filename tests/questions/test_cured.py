"""Right answers that were refused, and wrong ones that were accepted: cured on every sheet."""

import math

import pytest
from fuelmarks.questions import ExerciseSet, Sheet, draw, load
from fuelmarks.questions.frame.drawing import from_si, margin

from tests.slips.habits import said

DRAWS = 400

ROUNDED = [
    ("11-setting-up", "gauge-uncertainty", 2),
    ("11-setting-up", "repeat-uncertainty", 2),
    ("11-setting-up", "level-uncertainty", 2),
    ("11-setting-up", "ratio-uncertainty", 2),
    ("11-setting-up", "highest-reading", 3),
]
REFUSED = [
    ("00-shop-arithmetic", "fuel-absolute", "standard-barometer"),
    ("00-shop-arithmetic", "manifold-pressure", "standard-barometer"),
    ("01-air-path", "angle-for-twice", "root-two-times-the-angle"),
    ("01-air-path", "open-area", "cosines-subtracted"),
    ("10-exhaust", "gas-lambda", "y-undivided"),
    ("10-exhaust", "blend-ratio", "shares-by-volume"),
]


def sheets(exercise_set: ExerciseSet) -> list[Sheet]:
    return [draw(exercise_set, seed) for seed in range(DRAWS)]


@pytest.mark.parametrize(("unit", "name", "figures"), ROUNDED)
def test_as_many_figures_as_promised_are_right(unit: str, name: str, figures: int) -> None:
    exercise_set = load(unit)
    exercise = exercise_set[name]
    assert exercise.figures == figures
    for sheet in sheets(exercise_set):
        found = said(exercise_set, exercise, sheet, sheet.answers[name], figures)
        assert found.verdict == "right", sheet.seed


@pytest.mark.parametrize(("unit", "name", "slip"), REFUSED)
def test_what_passed_for_right_is_told_from_it(unit: str, name: str, slip: str) -> None:
    exercise_set = load(unit)
    exercise = exercise_set[name]
    (wrong,) = (one.wrong for one in exercise.slips if one.name == slip)
    for sheet in sheets(exercise_set):
        value = wrong(sheet.givens, sheet.answers)
        found = said(exercise_set, exercise, sheet, value, 6)
        assert found.verdict == f"slip:{slip}", sheet.seed


def test_asked_again_the_barometer_passes_only_where_it_is_the_standard_one() -> None:
    exercise_set = load("02-float-bowl")
    exercise = exercise_set["manifold-pressure"]
    for sheet in sheets(exercise_set):
        value = 101_325.0 - sheet.givens["manifold_vacuum"]
        right = sheet.answers[exercise.id]
        near = abs(sheet.givens["ambient_pressure"] - 101_325.0) < 100.0
        assert (abs(value - right) <= margin(exercise, right)) == near, sheet.seed


def test_three_figures_in_psi_are_right_for_the_fuel_too() -> None:
    exercise_set = load("00-shop-arithmetic")
    exercise = exercise_set["fuel-absolute"]
    psi = 6894.757  # NIST SP 811
    for sheet in sheets(exercise_set):
        right = sheet.answers[exercise.id]
        assert abs(round(right / psi, 1) * psi - right) <= margin(exercise, right), sheet.seed


def test_a_right_lambda_with_three_figures_is_right() -> None:
    exercise_set = load("10-exhaust")
    exercise = exercise_set["gas-lambda"]
    for sheet in sheets(exercise_set):
        found = said(exercise_set, exercise, sheet, sheet.answers[exercise.id], 3)
        assert found.verdict == "right", sheet.seed


def test_a_tenth_of_a_degree_is_right() -> None:
    exercise_set = load("01-air-path")
    exercise = exercise_set["angle-for-twice"]
    for sheet in sheets(exercise_set):
        right = sheet.answers[exercise.id]
        tenth = math.radians(round(from_si(right, "deg"), 1))
        assert abs(tenth - right) <= margin(exercise, right), sheet.seed
