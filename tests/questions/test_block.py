"""Questions written without Python: read, proved, and refused in words where they do not fit."""

import pytest
from fuelmarks.authoring.checker import faults
from fuelmarks.questions import ExerciseSet, draw
from fuelmarks.questions.frame.block import read_block
from fuelmarks.questions.frame.worded import BlockError

FLOAT = """
title = "The float, by our shop"

[given]
seat_bore     = "2.2 to 2.8 step 0.1 mm | the bore of the needle seat"
pump_pressure = "3.8 to 6.2 step 0.1 psi | the pump's pressure on the gauge"
needle_arm    = "8 to 11 step 1 mm | the arm of the needle"
float_arm     = "48, 50, 52, 54 mm | the arm of the float"
float_mass    = "8 to 12 step 0.5 g | the mass of float and lever"

[[question]]
id      = "needle-push"
ask     = "The seat has a bore of **{seat_bore}**, the pump holds **{pump_pressure}**. The push?"
formula = "force = pump_pressure * circle(seat_bore)   # the push on the needle"
unit    = "N"
expect  = "0.02 to 1.5"
points  = 2

[[question]]
id      = "buoyancy"
ask     = "The needle sits **{needle_arm}** from the fulcrum. What buoyancy holds it shut?"
formula = '''
at_float = needle_push * needle_arm / float_arm   # the needle's push at the float
weight   = float_mass * g                         # the weight of the float
buoyancy = at_float + weight                      # the buoyancy
'''
unit    = "N"
expect  = "0.05 to 0.6"
points  = 3

[[question.slip]]
name    = "weight-taken-off"
instead = "buoyancy = at_float - weight"
comment = "Both the weight and the needle push the float down. So which sign?"
"""


def made(text: str = FLOAT) -> ExerciseSet:
    block = read_block(text, "questions.toml")
    return ExerciseSet("20-my-own", block.title, block.givens, block.exercises)


def test_a_block_is_a_set_that_can_be_drawn_and_marked() -> None:
    exercise_set = made()
    assert not list(faults(exercise_set, range(60)))
    assert exercise_set["buoyancy"].follows == ("needle-push",)
    assert exercise_set.title == "The float, by our shop"


def test_answers_are_those_of_the_formula() -> None:
    sheet = draw(made(), 1)
    given = sheet.givens
    push = given["pump_pressure"] * 0.7853981633974483 * given["seat_bore"] ** 2
    lift = push * given["needle_arm"] / given["float_arm"] + 9.81 * given["float_mass"]
    assert sheet.answers == pytest.approx({"needle-push": push, "buoyancy": lift}, rel=1e-12)


def test_the_words_of_a_question_may_name_a_constant() -> None:
    said = '[constant]\nrise = "3.3 percent | the rise | common practice, no source"\n[[question]]'
    text = FLOAT.replace("[[question]]", said, 1).replace("The push?", "It rises by {rise}.")
    assert draw(made(text), 1).ask(made(text)["needle-push"].ask).endswith("It rises by 3.3 %.")


def test_a_slip_replaces_a_step_and_leaves_the_others() -> None:
    (slip,), sheet = made()["buoyancy"].slips, draw(made(), 1)
    weight = 9.81 * sheet.givens["float_mass"]
    wrong = slip.wrong(sheet.givens, sheet.answers)
    assert wrong == pytest.approx(sheet.answers["buoyancy"] - 2 * weight, rel=1e-12)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("2.2 to 2.8 step 0.1 mm |", "2.2 to 2.8 mm |", "given seat_bore must read"),
        ("2.2 to 2.8 step 0.1 mm |", "2.8 to 2.2 step 0.1 mm |", "must rise from low to high"),
        ("2.2 to 2.8 step 0.1 mm |", "2.2 to 2.8 step 0.1 furlongs-ish |", "seat_bore: unit"),
        ("| the bore of the needle seat", "", "must end in | and its words"),
        ("seat_bore     =", "SeatBore =", "must have a name of small letters"),
        ("circle(seat_bore)", "circle(seat_bor)", "got seat_bor"),
        ("circle(seat_bore)", "seat_bore", "as N asks"),
        ("at_float + weight", "at_float + float_mass", "like kinds"),
        ("at_float - weight", "at_float - wait", "slip weight-taken-off must use known names"),
        ('expect  = "0.02 to 1.5"', 'expect  = "1.5"', "expect must read LOW to HIGH"),
        ('expect  = "0.02 to 1.5"', "", "must have expect, got none"),
        ("points  = 2", 'points  = "two"', "points must be a number"),
        ("points  = 2", "points  = 0", "points must be 1 to 100"),
        ("points  = 2", "worth  = 2", "got worth"),
        ('unit    = "N"\nexpect  = "0.02', 'unit    = "kg"\nexpect  = "0.02', "as kg asks"),
        ('id      = "needle-push"', 'id      = "Needle push"', "small letters, digits and hyphens"),
        ("[[question]]", "[[question]", "must be TOML"),
        ("**{seat_bore}**", "**{seat_bor}**", "needle-push: ask must name givens or constants"),
    ],
)
def test_a_mistake_is_refused_in_words(old: str, new: str, said: str) -> None:
    assert old in FLOAT
    with pytest.raises(BlockError) as refusal:
        made(FLOAT.replace(old, new, 1))
    assert said in str(refusal.value)
    assert str(refusal.value).startswith("questions.toml")


def test_a_table_is_read_between_its_lines() -> None:
    block = read_block(
        """
        [given]
        morning = "-20, -10, 0 degC | the temperature"
        [table.evaporated]
        places = [-20, 0]
        place_unit = "degC"
        values = [20, 50]
        value_unit = "percent"
        words = "the share that evaporates"
        [[question]]
        id = "share"
        ask = "How much evaporates at **{morning}**?"
        formula = "share = evaporated(morning)  # the share"
        unit = "percent"
        expect = "10 to 60"
        """,
        "questions.toml",
    )
    shares = {
        reading: block.exercises[0].reference({"morning": 273.15 + reading}, {})
        for reading in (-20, -10, 0)
    }
    assert shares == pytest.approx({-20: 0.2, -10: 0.35, 0: 0.5})
