"""Wrong answers are told what they look like, without points; and what may be carried on."""

from dataclasses import replace

import pytest
from fuelcircuits.answer_sheet.sheet import record
from fuelcircuits.quantities.units import Q
from fuelmarks.marking.marking import Mark, Marks, mark_sheet
from fuelmarks.questions import Values, draw, load
from fuelmarks.questions.frame.drawing import from_si, margin

SET = load("02-float-bowl")
SHEET = draw(SET, 3)
BAR_FOR_PSI = 1e5 / 6894.757
NEXT_TO_NOTHING = (1e-30, -1e-30, 0.0, 1e-6)


def marked(answers: dict[str, object]) -> Marks:
    records = {name: dict(record(SET.unit, name, value)) for name, value in answers.items()}
    return mark_sheet(SET, SHEET, records)


def one(name: str, number: float) -> Mark:
    """Return the mark for an answer in the question's unit."""
    return marked({name: Q(number, SET[name].unit or "")})[name]


def right(name: str) -> float:
    """Return the right answer in the question's unit."""
    return from_si(SHEET.answers[name], SET[name].unit)


def test_a_hint_names_the_family_and_earns_nothing() -> None:
    found = one("needle-force", BAR_FOR_PSI * right("needle-force"))
    assert (found.verdict, found.points) == ("hint:given-unit", 0.0)
    assert "gone in as bar" in found.comment
    assert found.comment in found.study_comment


def test_a_class_comment_never_gives_the_right_number_away() -> None:
    found = one("needle-force", BAR_FOR_PSI * right("needle-force"))
    assert f"{right('needle-force'):.3g}" not in found.comment


@pytest.mark.parametrize("off", [1.03, 0.97])
def test_right_but_rough_is_told_about_rounding(off: float) -> None:
    found = one("needle-force", off * right("needle-force"))
    assert (found.verdict, found.points) == ("hint:rounding", 0.0)
    assert "look at your rounding" in found.comment


def test_the_authors_words_come_first_and_earn_their_share() -> None:
    found = one("needle-force", 4 * right("needle-force"))
    assert (found.verdict, found.points) == ("slip:diameter-for-radius", 1.0)


def test_a_slip_written_roughly_is_met_by_half_its_last_figure() -> None:
    slip = right("needle-force") / 6.894757
    rough = float(f"{slip:.2g}")
    assert 0.01 < abs(rough / slip - 1) < 0.5e-3 / rough
    assert one("needle-force", rough).verdict == "slip:psi-as-kpa"
    assert one("needle-force", rough * (1 + 1e-9)).verdict != "slip:psi-as-kpa"


def test_a_hint_is_judged_with_the_trainees_own_earlier_values_too() -> None:
    own = 0.7 * right("needle-force")
    arms = SHEET.givens["needle_arm"] / SHEET.givens["float_arm"]
    value = own * arms + SHEET.givens["float_mass"]
    found = marked({"needle-force": Q(own, "N"), "buoyancy": Q(value, "N")})["buoyancy"]
    assert found.verdict == "hint:factor-missing"
    assert "the pull of gravity" in found.comment


@pytest.mark.parametrize("value", NEXT_TO_NOTHING)
def test_next_to_nothing_everywhere_earns_nothing(value: float) -> None:
    answers = {each.id: Q(value, each.unit or "") for each in SET}
    assert marked(dict(answers)).points == 0


def test_what_cannot_be_carried_on_is_told() -> None:
    far = 1e-6 * right("needle-force")
    arms = SHEET.givens["needle_arm"] / SHEET.givens["float_arm"]
    value = far * arms + SHEET.givens["float_mass"] * 9.81
    found = marked({"needle-force": Q(far, "N"), "buoyancy": Q(value, "N")})["buoyancy"]
    assert found.points < 3
    assert found.verdict != "follow-through"


@pytest.mark.parametrize("off", [0.2, 1.5, 4.0])
def test_an_honest_slip_is_carried_on_as_before(off: float) -> None:
    own = off * right("needle-force")
    arms = SHEET.givens["needle_arm"] / SHEET.givens["float_arm"]
    value = own * arms + SHEET.givens["float_mass"] * 9.81
    found = marked({"needle-force": Q(own, "N"), "buoyancy": Q(value, "N")})["buoyancy"]
    assert (found.verdict, found.points) == ("follow-through", 3.0)


def test_dropped_values_are_named_where_nothing_else_is_known() -> None:
    share = SHEET.givens["new_pressure"] / SHEET.givens["supply_pressure"] - 1
    far = 4000 * right("needle-force")
    push = far * share * SHEET.givens["needle_arm"] / SHEET.givens["float_arm"]
    stiff = SHEET.givens["fuel_density"] * 9.81 * SHEET.givens["float_area"]
    answers = {"needle-force": Q(far, "N"), "pump-level-shift": Q(push / stiff, "m")}
    found = marked(dict(answers))["pump-level-shift"]
    assert (found.verdict, found.points) == ("implausible", 0.0)
    assert "Nothing can be carried on from your own value of needle-force" in found.comment


def test_a_question_without_a_formula_hints_at_nothing() -> None:
    def nothing(given: Values, earlier: Values) -> float:
        return right("needle-force")

    sums = [each for each in SET if each.form == "value"]
    lambdas = tuple(replace(each, reference=nothing) for each in sums)
    plain = replace(SET, exercises=lambdas)
    value = Q(BAR_FOR_PSI * right("needle-force"), "N")
    records = {"needle-force": dict(record(SET.unit, "needle-force", value))}
    assert mark_sheet(plain, SHEET, records)["needle-force"].verdict in ("wrong", "implausible")


def test_margin_of_the_rounding_hint_ends_at_twice_the_tolerance() -> None:
    exercise = SET["needle-force"]
    span = margin(exercise, SHEET.answers[exercise.id]) / SHEET.answers[exercise.id]
    assert one(exercise.id, (1 + 1.99 * span) * right(exercise.id)).verdict == "hint:rounding"
    assert one(exercise.id, (1 + 2.01 * span) * right(exercise.id)).verdict != "hint:rounding"
