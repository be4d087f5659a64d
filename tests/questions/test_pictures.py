"""Questions that show a picture: what is drawn is the trainee's own, and nothing else says it."""

import csv
import re
from collections import Counter
from collections.abc import Mapping
from math import atan2, degrees
from pathlib import Path
from xml.etree import ElementTree

import pytest
from fuelcircuits.answer_sheet.sheet import record
from fuelcircuits.drawings.gauges.column import column
from fuelcircuits.drawings.gauges.dial import dial
from fuelcircuits.drawings.gauges.pins import pins
from fuelcircuits.drawings.gauges.rule import rule
from fuelcircuits.drawings.number import Number
from fuelmarks.course.cells import ask_source, begin_source, sketch_picture
from fuelmarks.course.course import Course
from fuelmarks.marking.marking import Mark, mark_sheet
from fuelmarks.questions import Choice, ExerciseSet, draw, load
from fuelmarks.questions.frame.block import read_block
from fuelmarks.questions.frame.worded import BlockError

from tests.benchmarks.pictures import answered, written
from tests.places import COURSE_FOLDER

CARD = (COURSE_FOLDER / "rigs" / "plover.toml").read_text("utf-8")
UNITS = {unit: load(unit) for unit in Course(COURSE_FOLDER).units()}
PICTURED = [
    (unit, one.id) for unit, every in UNITS.items() for one in every if one.sketch is not None
]
SEEDS = range(6)
READ: list[Mapping[str, str]] = list(
    csv.DictReader(Path(__file__).with_name("picture_readings.csv").read_text("utf-8").splitlines())
)
"""Readings as people write them, right and wrong, and what each is told."""

each_pictured = pytest.mark.parametrize(("unit", "name"), PICTURED)


@each_pictured
def test_a_picture_is_sound_and_is_part_of_the_question(unit: str, name: str) -> None:
    exercises = UNITS[unit]
    for seed in SEEDS:
        sheet = draw(exercises, seed)
        one = exercises[name]
        assert one.sketch is not None
        drawn = sketch_picture(one.sketch, sheet, CARD)
        ElementTree.fromstring(drawn.svg)
        assert "nan" not in drawn.svg
        assert drawn.image() in ask_source(one, sheet, CARD)


def drawn_givens(exercises: ExerciseSet) -> list[str]:
    return [one.name for one in exercises.givens if one.drawn]


@pytest.mark.parametrize("unit", [unit for unit in UNITS if drawn_givens(UNITS[unit])])
def test_what_a_picture_shows_is_written_nowhere(unit: str) -> None:
    exercises = UNITS[unit]
    for seed in SEEDS:
        sheet = draw(exercises, seed)
        setup = begin_source(exercises, sheet, "t001", "class")
        asks = [re.sub(r'src="[^"]*"', "", ask_source(one, sheet, CARD)) for one in exercises]
        for name in drawn_givens(exercises):
            assert name not in setup
            assert all(f"{{{name}}}" not in one.ask for one in exercises)
            if name not in ("jet_pin", "marked_part"):  # five pins, and a number that is no size
                shown = sheet.givens_shown[name].text
                mine = [
                    ask
                    for one, ask in zip(exercises, asks, strict=True)
                    if one.sketch and name in one.sketch.givens
                ]
                assert all(shown not in ask for ask in mine)


def test_the_dial_is_read_on_either_scale_and_its_tail_is_half_a_turn_away() -> None:
    # From the drawing alone: the angle of the pointer's tip between those of 0 and of 30 inHg.
    for inches in (18.5, 20.0, 22.5):
        svg = dial(Number("", inches * 3386.389)).svg
        x, y = map(float, re.findall(r'class="solid" d="M([\d.]+) ([\d.]+)L', svg)[0])
        turn = (degrees(atan2(y - 150, x - 150)) - 120) % 360
        assert turn / 300 * 30 == pytest.approx(inches, abs=0.05)


def test_the_tubes_surfaces_stand_apart_by_the_vacuum() -> None:
    for inches in (6.0, 8.5, 10.5):
        svg = column(Number("", inches * 249.089)).svg
        heights = [float(y) for y in re.findall(r'class="line" d="M[\d.]+ ([\d.]+)L', svg)]
        low, high = max(heights), min(heights)
        marks = re.findall(r'class="thin" d="M[\d.]+ ([\d.]+)L', svg)
        inch = (max(map(float, marks)) - min(map(float, marks))) / 12
        assert (low - high) / inch == pytest.approx(inches, abs=0.02)


def test_the_rule_shows_the_depth_at_the_beams_lower_edge() -> None:
    svg = rule(Number("", 17.5e-3)).svg
    marks = sorted(float(y) for y in re.findall(r'class="thin" d="M176.0 ([\d.]+)L', svg))
    foot = marks[-1]
    assert (foot - 175.0) / (foot - marks[-2]) * 0.5 == pytest.approx(17.5, abs=0.01)


def test_three_pins_go_and_two_stop() -> None:
    drawn = pins(Number("", 1.5e-3))
    assert drawn.alt.count("goes in") == 3
    assert "1.50 mm goes in, 1.52 mm stops" in drawn.alt


@pytest.mark.parametrize(
    ("sketch", "told"),
    [
        ("clock: bore", "sketch must be one of dial, column"),
        ("dial: bore bore", "sketch dial must have 1 givens (vacuum), got 2"),
        ("dial: width", "sketch must be drawn with givens, got 'width'"),
    ],
)
def test_a_sketch_that_cannot_be_drawn_is_refused(sketch: str, told: str) -> None:
    block = f"""
[given]
bore = "2 to 3 step 0.1 mm | the bore"
[[question]]
id = "area"
ask = "What is the area of **{{bore}}**?"
sketch = "{sketch}"
formula = "area = circle(bore)"
unit = "mm^2"
expect = "3 to 8"
"""
    with pytest.raises(BlockError) as error:
        read_block(block, "questions.toml")
    assert told in str(error.value)


def marked(unit: str, name: str, answer: str, seed: int) -> Mark:
    handed_over = {name: dict(record(unit, name, answer))}
    return mark_sheet(UNITS[unit], draw(UNITS[unit], seed), handed_over)[name]


def reading(unit: str, given: str, seed: int) -> float:
    return draw(UNITS[unit], seed).givens_shown[given].value


@pytest.mark.parametrize("row", READ, ids=lambda row: f"{row['question']}, {row['why']}")
def test_a_reading_is_told_what_it_is(row: Mapping[str, str]) -> None:
    for seed in (0, 1, 3):
        text = written(row, draw(UNITS[row["unit"]], seed))
        found = marked(row["unit"], row["question"], text, seed)
        assert found.verdict == row["told"], text
        assert (found.points < found.out_of) is (row["told"] != "right")


def test_each_instrument_is_read_rightly_and_wrongly_five_times() -> None:
    read = Counter((row["question"], row["told"] == "right") for row in READ)
    assert len(read) == 10
    assert set(read.values()) == {5}


BARE = "Not right, and not one of the usual slips."


@each_pictured
def test_a_wrong_answer_to_a_picture_is_told_where_to_look(unit: str, name: str) -> None:
    found = list(answered(UNITS[unit], UNITS[unit][name]))
    wrong = [one for one in found if one.mark.verdict != "right"]
    assert len(found) - len(wrong) >= 3
    assert len(wrong) >= 5
    for one in wrong:
        assert one.mark.points < one.mark.out_of
        assert one.mark.comment not in ("", BARE), one
    assert sum(one.mark.verdict in ("wrong", "implausible") for one in wrong) < len(wrong) / 2


@pytest.mark.parametrize("unit", ["05-off-idle", "08-pump"])
def test_the_marked_part_is_right_and_every_other_is_told_its_job(unit: str) -> None:
    one = UNITS[unit]["name-the-part"]
    assert isinstance(one, Choice)
    names = list(one.options)
    for seed in SEEDS:
        which = names[round(reading(unit, "marked_part", seed))]
        for name in names:
            found = marked(unit, "name-the-part", name, seed)
            assert (found.verdict == "right") is (name == which)
            if name != which:
                assert found.points == 0
                assert "Its job:" in found.comment
    assert {round(reading(unit, "marked_part", seed)) for seed in range(60)} == set(range(5))
