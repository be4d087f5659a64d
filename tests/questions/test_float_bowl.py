"""Drawn sheets stay as they are for ever, and the float unit's references are right."""

import re
from dataclasses import replace
from math import pi, sqrt

import numpy as np
import pytest
from fuelcircuits.errors import CardError, ConvergenceError
from fuelcircuits.physics.circuits.float_bowl import starvation_demand, steady
from fuelcircuits.physics.circuits.float_lever import FloatBowl
from fuelcircuits.physics.circuits.needle_valve import seat_force
from fuelcircuits.physics.matter.fuel import Fuel, density
from fuelmarks.formula.value import steps_of
from fuelmarks.questions import (
    Exercise,
    ExerciseSet,
    Given,
    Sheet,
    Shown,
    Slip,
    draw,
    load,
    seed_of,
)
from fuelmarks.questions.frame.drawing import from_si, to_si

from tests.published.table import Row, rows

UNIT = "02-float-bowl"
SET = load(UNIT)
INCH, PSI, POUND, POUND_FORCE = 0.0254, 6894.757, 0.45359237, 4.4482216  # NIST SP 811
GRAVITY = 9.81  # m/s2, as the questions say
SHEETS = [draw(SET, seed) for seed in range(12)]

PINNED = {
    0: (
        2.5,
        5.5,
        8.0,
        56.0,
        12.0,
        745.0,
        8.0,
        15.5,
        2.1,
        47.0,
        70.0,
        12.8,
        0.7,
        30.0,
        16.5,
        2.9,
        3100.0,
        0.8,
        1.23,
        5.5,
        15.5,
        19.0,
    ),
    1: (
        2.4,
        4.3,
        9.0,
        54.0,
        8.0,
        730.0,
        7.0,
        18.0,
        3.5,
        58.0,
        78.0,
        12.6,
        0.62,
        29.5,
        17.0,
        3.1,
        3050.0,
        0.84,
        1.24,
        5.5,
        15.5,
        16.5,
    ),
    2**64 - 1: (
        2.5,
        5.5,
        9.5,
        46.0,
        11.0,
        730.0,
        6.6,
        18.0,
        3.5,
        64.0,
        85.0,
        12.8,
        0.7,
        30.2,
        19.5,
        4.8,
        2450.0,
        0.82,
        1.24,
        5.5,
        15.5,
        18.0,
    ),
}


@pytest.mark.parametrize(("seed", "values"), PINNED.items())
def test_a_seed_draws_the_same_numbers_for_ever(seed: int, values: tuple[float, ...]) -> None:
    assert tuple(shown.value for shown in draw(SET, seed).givens_shown.values()) == values


def test_a_seed_belongs_to_trainee_unit_and_key() -> None:
    # RFC 2104 with SHA-256; the value comes from openssl dgst -sha256 -hmac term
    assert seed_of("ada", SET.lot, "term") == 3524323996041270517
    assert (
        len({seed_of(*about) for about in (("a", "b", "c"), ("b", "b", "c"), ("a", "b", "d"))}) == 3
    )


def test_neighbours_get_different_numbers() -> None:
    drawn = {tuple(sheet.givens.values()) for sheet in SHEETS}
    assert len(drawn) == len(SHEETS)


@pytest.mark.parametrize(
    ("given", "values"),
    [
        (Given("a", "", "psi", low=4.0, high=4.3, step=0.1), (4.0, 4.1, 4.2, 4.3)),
        (Given("a", "", "mm", choices=(2.0, 2.4)), (2.0, 2.4)),
    ],
)
def test_values_are_exact_in_the_decimals_shown(given: Given, values: tuple[float, ...]) -> None:
    assert given.values == values


@pytest.mark.parametrize(
    ("shown", "text", "literal"),
    [
        (Shown(5.1, "psi"), "5.1 psi", 'Q(5.1, "psi")'),
        (Shown(58.0, "mm"), "58 mm", 'Q(58, "mm")'),
        (Shown(12.6, ""), "12.6", "12.6"),
        (Shown(3.0, "1"), "3", "3"),
    ],
)
def test_a_given_is_shown_in_words_and_in_code(shown: Shown, text: str, literal: str) -> None:
    assert (shown.text, shown.literal) == (text, literal)


def one(low: float, wrong: float) -> ExerciseSet:
    """Return a set whose only answer is its given (1 to 4), with a slip that adds `wrong`."""
    slip = Slip("more", lambda given, earlier: given["size"] + wrong, 0.5, "")
    exercise = Exercise(
        id="size",
        ask="{size}",
        unit="m",
        reference=lambda given, earlier: given["size"],
        tolerance=0.01,
        why="",
        low=low,
        high=9.0,
        points=1,
        outcomes=(),
        slips=(slip,),
    )
    return ExerciseSet("92-one", "", (Given("size", "", "m", low=1, high=4, step=1),), (exercise,))


def test_answers_out_of_range_are_drawn_again() -> None:
    assert {draw(one(3.0, 1.0), seed).answers["size"] for seed in range(40)} == {3.0, 4.0}


@pytest.mark.parametrize(("low", "wrong"), [(5.0, 1.0), (1.0, 0.001)])
def test_a_set_that_cannot_be_marked_is_refused(low: float, wrong: float) -> None:
    with pytest.raises(ConvergenceError, match="draw for 92-one must succeed"):
        draw(one(low, wrong), 1)


def test_a_slip_that_is_told_apart_only_sometimes_is_drawn_again() -> None:
    assert {draw(one(1.0, 0.05), seed).answers["size"] for seed in range(40)} == {1.0, 2.0}


def test_numbers_that_make_no_number_are_drawn_again() -> None:
    root = replace(one(1.0, 5.0)["size"], reference=lambda given, earlier: sqrt(given["size"] - 2))
    whole = replace(one(1.0, 5.0), exercises=(replace(root, slips=(), low=0.0),))
    assert {draw(whole, seed).givens["size"] for seed in range(40)} == {2.0, 3.0, 4.0}


@pytest.mark.parametrize(
    "unit", ["2-float", "03-no-such-unit", "02-float-level", "../x", "", "07-float-circuit"]
)
def test_a_unit_without_exercises_is_refused(unit: str) -> None:
    with pytest.raises(CardError, match="unit must have an exercise set"):
        load(unit)


@pytest.mark.parametrize("unit", ["psi", "degC", "degF", "delta_degC", "percent", "cm^2"])
def test_shown_units_convert_there_and_back(unit: str) -> None:
    assert from_si(to_si(12.5, unit), unit) == pytest.approx(12.5, rel=1e-12)


@pytest.mark.parametrize("exercise", SET.exercises, ids=lambda exercise: exercise.id)
def test_formulas_use_the_steps_they_say_they_follow(exercise: Exercise) -> None:
    sheet = SHEETS[0]
    earlier = {name: sheet.answers[name] for name in exercise.follows}
    assert exercise.reference(sheet.givens, earlier) == sheet.answers[exercise.id]
    for name in exercise.follows:
        with pytest.raises(KeyError):
            exercise.reference(sheet.givens, {one: earlier[one] for one in earlier if one != name})


@pytest.mark.parametrize("exercise", SET.exercises, ids=lambda exercise: exercise.id)
def test_a_question_shows_only_givens_that_exist(exercise: Exercise) -> None:
    assert "{" not in SHEETS[0].ask(exercise.ask)
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", exercise.id)


@pytest.mark.parametrize("exercise", SET.exercises, ids=lambda exercise: exercise.id)
def test_no_comment_holds_a_number_of_the_sheet(exercise: Exercise) -> None:
    words = " ".join((*(slip.comment for slip in exercise.slips), *exercise.hints))
    assert f"{from_si(SHEETS[0].answers[exercise.id], exercise.unit):.3g}" not in words.split()


@pytest.mark.parametrize("row", rows("7 float-lever-valve balance"))
def test_the_balance_is_that_of_the_textbook(row: Row) -> None:
    weight = 62.3 * POUND_FORCE / (12 * INCH) ** 3  # N/m3, the book's water
    givens = {
        "seat_bore": 0.5 * INCH,
        "supply_pressure": 20 * PSI,
        "needle_arm": 4 * INCH,
        "float_arm": 18 * INCH,
        "float_mass": 0.0,
        "fuel_density": weight / GRAVITY,
    }
    answers: dict[str, float] = {}
    for name in ("needle-force", "buoyancy"):
        answers[name] = SET[name].reference(givens, answers)
    ball = (6 / pi * 1.5 * answers["buoyancy"] / weight) ** (1 / 3)
    assert ball / INCH == row.approx


def bowl_of(sheet: Sheet, **changes: float) -> FloatBowl:
    """Return the float circuit of the physics with the sheet's dimensions.

    The needle is blunt, so that the drop stop leaves the seat wide open, as the question says.
    """
    given = sheet.givens
    immersed = sheet.answers["buoyancy"] / (given["fuel_density"] * GRAVITY)
    height = 2 * immersed / given["float_area"]  # half under the fuel
    width = given["float_area"] / 2 / 36e-3
    dimensions = {
        "depth": 60e-3,
        "bowl_area": 27e-4,
        "float_setting": 9e-3,
        "specified_level": 15e-3,
        "float_length": 36e-3,
        "float_height": height,
        "float_width": width,
        "float_mass": given["float_mass"],
        "float_arm": given["float_arm"],
        "needle_arm": given["needle_arm"],
        "drop_stop": 9e-3,
        "seat_bore": given["seat_bore"],
        "needle_taper": 1.2,
        "needle_mass": 0.0,
        "fuel_pressure": given["supply_pressure"],
        "inlet_discharge": given["seat_coefficient"],
    }
    return FloatBowl(**{**dimensions, **changes})


def step_of(sheet: Sheet, question: str, step: str) -> float:
    """Return what one step of a question's formula comes to."""
    method = SET[question].method
    assert method
    return steps_of(method.formula, method.values(sheet.givens, sheet.answers))[step]


def fuel_of(sheet: Sheet) -> Fuel:
    """Return the sheet's petrol."""
    return Fuel(petrol_density=sheet.givens["fuel_density"])


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
def test_force_and_buoyancy_are_those_of_the_physics(sheet: Sheet) -> None:
    given, answers = sheet.givens, sheet.answers
    state = steady(bowl_of(sheet), fuel_of(sheet), 0.0)
    force = seat_force(given["supply_pressure"], given["seat_bore"])
    assert answers["needle-force"] == pytest.approx(float(force), rel=1e-9)
    assert answers["buoyancy"] == pytest.approx(float(state.buoyancy), rel=0.01)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
def test_level_shifts_are_near_those_of_the_round_ended_float(sheet: Sheet) -> None:
    given, answers, bowl, fuel = sheet.givens, sheet.answers, bowl_of(sheet), fuel_of(sheet)
    heavy = replace(bowl, float_mass=given["float_mass"] + given["soaked_mass"])
    level = steady(bowl, fuel, 0.0).level
    pump = steady(bowl, fuel, 0.0, given["new_pressure"]).level - level
    soaked = steady(heavy, fuel, 0.0).level - level
    assert answers["pump-level-shift"] == pytest.approx(pump, rel=0.04)
    assert answers["soaked-level-shift"] == pytest.approx(soaked, rel=0.04)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
def test_hot_fuel_lifts_the_level_as_the_densities_of_the_physics_say(sheet: Sheet) -> None:
    given, fuel = sheet.givens, fuel_of(sheet)
    hot, cool = (float(density(fuel, kelvin)) for kelvin in (given["bowl_temperature"], 288.15))
    assert step_of(sheet, "hot-level-shift", "hot_density") == pytest.approx(hot, rel=0.002)
    deeper = sheet.answers["buoyancy"] / GRAVITY * (1 / hot - 1 / cool) / given["float_area"]
    assert sheet.answers["hot-level-shift"] == pytest.approx(deeper, rel=0.04)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
def test_the_inlet_passes_what_the_physics_says(sheet: Sheet) -> None:
    demand = sheet.givens["air_flow"] / sheet.givens["air_fuel_ratio"]
    passes = float(starvation_demand(bowl_of(sheet), fuel_of(sheet)))
    assert sheet.answers["inlet-reserve"] * demand == pytest.approx(passes, rel=1e-6)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
def test_a_reserve_is_used_up_when_the_pressure_has_fallen_by_its_square(sheet: Sheet) -> None:
    weak = sheet.givens["supply_pressure"] / sheet.answers["inlet-reserve"] ** 2
    passes = float(starvation_demand(bowl_of(sheet), fuel_of(sheet), weak))
    assert passes == pytest.approx(sheet.givens["air_flow"] / sheet.givens["air_fuel_ratio"])


def test_answers_are_plain_floats() -> None:
    assert all(type(value) is float for sheet in SHEETS for value in sheet.answers.values())
    assert np.all(np.isfinite([list(sheet.answers.values()) for sheet in SHEETS]))
