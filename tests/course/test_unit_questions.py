"""Questions from a file beside a unit's text: added, changed, voided, taken from a card."""

from pathlib import Path

import pytest
from fuelcircuits.errors import CircuitError
from fuelmarks.course.course import Course
from fuelmarks.course.fingerprint import fingerprint
from fuelmarks.course.unit_questions import copy_questions, keep_questions
from fuelmarks.marking.marking import mark_sheet
from fuelmarks.questions import Choice, draw, load
from fuelmarks.questions.frame.drawing import from_si

FLOAT = "02-float-bowl"
OWN = "20-our-float"
CARD = """
name = "college"
[high_speed]
jet_bore = "1.55 mm"
jet_length = "1/8 in"
air_bleed_bore = "#56 drill"
[choke]
cam_openings = ["6 deg", "4 deg"]
"""
JET = """
card = "college.toml"
[given]
jet_bore = "{card: high_speed.jet_bore} | the bore of the main jet"
other_bore = "{card: high_speed.jet_bore in mm} to 1.75 step 0.05 mm | the bore of another jet"
[[question]]
id = "jet-area"
ask = "The card says {card: high_speed.jet_bore}. What is the area of a jet of **{other_bore}**?"
formula = "area = circle(other_bore)  # the area of the jet"
unit = "mm^2"
expect = "1 to 5"
"""
CHOICE = """
[[question]]
id = "what-sticks"
ask = "The level creeps up at rest. What is wrong?"
right = "needle"
points = 2
[question.options]
needle = "the needle does not close"
float = "the float has drunk fuel"
[question.near]
float = "A heavy float lifts the level too. Does it creep up at rest?"
"""
OPTIONS = '[question.options]\na = "a"\nb = "b"\n'
MORE = """
[given]
spare_area = "2 to 4 step 0.5 cm^2 | the area of a spare float"
[[question]]
id = "spare-shift"
ask = "What would a float of **{spare_area}** rise by?"
formula = "rise = soaked_mass / (fuel_density * spare_area)  # the rise"
unit = "mm"
expect = "2 to 40"
"""


@pytest.fixture
def course(tmp_path: Path) -> Course:
    for unit in (FLOAT, OWN):
        (tmp_path / "units" / unit).mkdir(parents=True)
        (tmp_path / "units" / unit / "unit.md").write_text("# A unit\n")
    (tmp_path / "rigs").mkdir()
    (tmp_path / "rigs" / "college.toml").write_text(CARD)
    return Course.at(tmp_path)


def write(course: Course, unit: str, text: str) -> None:
    (course.root / "units" / unit / "questions.toml").write_text(text)


def test_a_unit_of_the_package_is_as_it_comes_without_a_file(course: Course) -> None:
    assert course.questions(FLOAT) is load(FLOAT)


def test_the_same_file_gives_the_same_set(course: Course) -> None:
    write(course, OWN, JET)
    assert course.questions(OWN) is course.questions(OWN)


def test_numbers_come_from_the_card(course: Course) -> None:
    write(course, OWN, JET)
    made = course.questions(OWN)
    sheets = [draw(made, seed) for seed in range(40)]
    assert {sheet.givens_shown["jet_bore"].text for sheet in sheets} == {"1.55 mm"}
    drawn = {sheet.givens_shown["other_bore"].value for sheet in sheets}
    assert drawn == {1.55, 1.6, 1.65, 1.7, 1.75}
    assert sheets[0].ask(made["jet-area"].ask).startswith("The card says 1.55 mm.")


def test_numbers_that_were_handed_out_stay_when_the_card_changes(course: Course) -> None:
    write(course, OWN, JET)
    before = draw(course.questions(OWN), 7).givens_shown
    keep_questions(course.root, OWN)
    (course.root / "rigs" / "college.toml").write_text(CARD.replace("1.55", "1.35"))
    assert draw(course.questions(OWN), 7).givens_shown == before


def test_added_question_draws_its_own_number_and_leaves_the_others(course: Course) -> None:
    write(course, FLOAT, MORE)
    made = course.questions(FLOAT)
    for seed in range(30):
        old, new = draw(load(FLOAT), seed), draw(made, seed)
        assert {name: new.givens_shown[name] for name in old.givens_shown} == old.givens_shown
        assert 2 <= new.givens_shown["spare_area"].value <= 4
        assert 2 <= from_si(new.answers["spare-shift"], "mm") <= 40


def test_narrower_tolerance_and_other_points_leave_the_numbers(course: Course) -> None:
    write(course, FLOAT, '[[change]]\nid = "buoyancy"\ntolerance = 0.1\npoints = 7\nfigures = 2\n')
    made = course.questions(FLOAT)
    assert (made["buoyancy"].tolerance, made["buoyancy"].points) == (0.1, 7)
    for seed in range(60):
        assert draw(made, seed).givens_shown == draw(load(FLOAT), seed).givens_shown


def test_choice_is_asked_and_marked(course: Course) -> None:
    write(course, OWN, CHOICE)
    made = course.questions(OWN)
    assert isinstance(made["what-sticks"], Choice)
    sheet = draw(made, 1)
    found = {}
    for name in ("needle", "float"):
        record = {"v": 1, "unit": OWN, "exercise": "what-sticks", "kind": "text", "text": name}
        mark = mark_sheet(made, sheet, {"what-sticks": record})["what-sticks"]
        found[name] = (mark.points, mark.verdict)
    assert found == {"needle": (2, "right"), "float": (0.5, "slip:float")}


def test_fingerprint_changes_with_the_questions_and_the_card_alone(course: Course) -> None:
    write(course, OWN, JET)
    first = fingerprint(course.root, OWN)
    assert fingerprint(course.root, OWN) == first
    write(course, OWN, JET.replace("1.75", "1.7"))
    second = fingerprint(course.root, OWN)
    (course.root / "rigs" / "college.toml").write_text(CARD.replace("1.55", "1.5"))
    assert len({first, second, fingerprint(course.root, OWN)}) == 3


def test_learner_takes_the_questions_along(course: Course, tmp_path: Path) -> None:
    write(course, OWN, JET)
    into = tmp_path / "mine"
    copy_questions(course.root, OWN, into)
    (into / "units" / OWN / "unit.md").write_text("")
    taken = Course.at(into).questions(OWN)
    assert draw(taken, 3).answers == draw(course.questions(OWN), 3).answers


@pytest.mark.parametrize(
    ("asked", "given"),
    [
        # ANSI/ASME B94.11M: number 56 is 0.0465 in; 1/8 in is 3.175 mm.
        ("high_speed.air_bleed_bore in mm", "1.1811"),
        ("high_speed.jet_length in mm", "3.175"),
        ("choke.cam_openings.1 in deg", "4"),
    ],
)
def test_a_card_may_be_written_as_the_trade_does(course: Course, asked: str, given: str) -> None:
    range_ = f"{{card: {asked}}} to 9.175 step 0.0001 {asked.rsplit(maxsplit=1)[-1]}"
    write(course, OWN, f'{JET}[[question]]\nid="x"\nask="{range_}"\nright="a"\n{OPTIONS}')
    assert course.questions(OWN)["x"].ask.startswith(f"{given} to 9.175")


def test_a_card_out_of_range_is_refused_before_anybody_has_a_sheet(course: Course) -> None:
    write(course, OWN, JET)
    (course.root / "rigs" / "college.toml").write_text(CARD.replace("1.55 mm", "15.5 mm"))
    rule = "high_speed.jet_bore must be between 0.05 mm and 4 mm .*, got 15.5 mm"
    with pytest.raises(CircuitError, match=rule):
        course.questions(OWN)


WRONG = {
    "no file": (OWN, None, "must have questions in"),
    "no question": (OWN, 'title = "Nothing"', "must have a question, got none"),
    "unknown card": (OWN, JET.replace("college", "other"), "card must be one of college.toml"),
    "no card": (OWN, JET.replace('card = "college.toml"', ""), "must say card ="),
    "card outside": (OWN, JET.replace("college.toml", "../x.toml"), "card must be a file of rigs"),
    "no such entry": (OWN, JET.replace("jet_bore}", "jet}"), "must have high_speed.jet, got"),
    "other kind": (
        OWN,
        JET.replace("in mm}", "in psi}"),
        "must be convertible to psi, got 1.55 mm",
    ),
    "neither sort": (OWN, '[[question]]\nid = "a"\nask = "b"', "must have one of formula, options"),
    "both sorts": (
        OWN,
        CHOICE.replace("points = 2", 'points = 2\nrubric = "x"'),
        "got options and rubric",
    ),
    "wrong right": (
        OWN,
        CHOICE.replace('"needle"', '"nail"'),
        "right must be one of needle, float",
    ),
    "one option": (OWN, CHOICE.replace('float = "the float has drunk fuel"\n', ""), "two options"),
    "near to right": (OWN, CHOICE.replace('float = "A', 'needle = "A'), "near must name wrong"),
    "taken id": (FLOAT, MORE.replace("spare-shift", "buoyancy"), "an id of its own, got buoyancy"),
    "taken given": (FLOAT, MORE.replace("spare_area", "seat_bore"), "a name of its own, got seat_"),
    "change of nothing": (FLOAT, '[[change]]\nid = "lift"\npoints = 3', "must be of one of needle"),
    "points": (FLOAT, '[[change]]\nid = "buoyancy"\npoints = 0', "points must be 1 to 100, got 0"),
    "tolerance": (FLOAT, '[[change]]\nid = "buoyancy"\ntolerance = 2', "tolerance must be 1e-06"),
    "strange entry": (FLOAT, '[[change]]\nid = "buoyancy"\nworth = 2', "got worth"),
}


@pytest.mark.parametrize(("unit", "text", "said"), WRONG.values(), ids=WRONG)
def test_a_mistake_is_refused_in_words(
    course: Course, unit: str, text: str | None, said: str
) -> None:
    if text is not None:
        write(course, unit, text)
    with pytest.raises(CircuitError) as refusal:
        course.questions(unit)
    assert said in str(refusal.value)
    assert "questions.toml" in str(refusal.value)
