"""Questions that show a picture: what is drawn is the trainee's own, and nothing else says it."""

import re
from collections.abc import Callable
from math import atan2, degrees
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

from tests.places import COURSE_FOLDER

CARD = (COURSE_FOLDER / "rigs" / "plover.toml").read_text("utf-8")
UNITS = {unit: load(unit) for unit in Course(COURSE_FOLDER).units()}
PICTURED = [
    (unit, one.id) for unit, every in UNITS.items() for one in every if one.sketch is not None
]
SEEDS = range(6)

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


DIAL, TUBE, RULE, JET = "00-shop-arithmetic", "04-low-speed", "02-float-bowl", "06-high-speed"
Write = Callable[[float], str]
READ: dict[tuple[str, str, str], tuple[tuple[Write, ...], tuple[tuple[Write, str], ...]]] = {
    # the question, its given, five right readings, five wrong ones with what is told
    (DIAL, "read-dial", "dial_vacuum"): (
        (
            lambda v: f"{v} inHg",
            lambda v: f"{v + 0.1:.1f} inHg",
            lambda v: f"{v * 3.386389:.1f} kPa",
            lambda v: f"{v * 33.86389:.0f} mbar",
            lambda v: f"{v * 25.4:.0f} mmHg",
        ),
        (
            (lambda v: f"{v * 3.386389:.1f} inHg", "slip:other-scale"),
            (lambda v: f"{v - 18} inHg", "slip:wrong-end"),
            (lambda v: f"{v + 0.5} inHg", "slip:one-mark-high"),
            (lambda v: f"{v - 0.5} inHg", "slip:one-mark-low"),
            (lambda v: f"{v}", "no-unit"),
        ),
    ),
    (TUBE, "read-tube", "tube_vacuum"): (
        (
            lambda v: f"{v} inH2O",
            lambda v: f"{v + 0.05:.2f} inH2O",
            lambda v: f"{v * 249.089:.0f} Pa",
            lambda v: f"{v * 0.249089:.2f} kPa",
            lambda v: f"{v * 25.4:.0f} mmH2O",
        ),
        (
            (lambda v: f"{v / 2} inH2O", "slip:one-leg"),
            (lambda v: f"{v * 2} inH2O", "slip:legs-twice"),
            (lambda v: f"{v + 0.25} inH2O", "slip:one-mark-high"),
            (lambda v: f"{v - 0.25} inH2O", "slip:one-mark-low"),
            (lambda v: f"{v} mm", "wrong-dimension"),
        ),
    ),
    (RULE, "read-rule", "drop_depth"): (
        (
            lambda v: f"{v} mm",
            lambda v: f"{v + 0.1:.1f} mm",
            lambda v: f"{v / 10:.2f} cm",
            lambda v: f"{v / 25.4:.3f} in",
            lambda v: f"{v - 0.1:.1f} mm",
        ),
        (
            (lambda v: f"{v + 4} mm", "slip:upper-edge"),
            (lambda v: f"{v + 0.5} mm", "slip:one-mark-high"),
            (lambda v: f"{v - 0.5} mm", "slip:one-mark-low"),
            (lambda v: f"{v} kPa", "wrong-dimension"),
            (lambda v: "", "blank"),
        ),
    ),
    (JET, "gauge-jet", "jet_pin"): (
        (
            lambda v: f"{v:.2f} mm",
            lambda v: f"{v / 25.4:.4f} in",
            lambda v: f"{v / 10:.3f} cm",
            lambda v: f"{v * 1000:.0f} um",
            lambda v: f"{v:.2f}".replace(".", ",") + " mm",
        ),
        (
            (lambda v: f"{v + 0.02:.2f} mm", "slip:first-that-stops"),
            (lambda v: f"{v - 0.02:.2f} mm", "slip:one-too-thin"),
            (lambda v: f"{v - 0.04:.2f} mm", "slip:thinnest"),
            (lambda v: f"{v:.2f}", "no-unit"),
            (lambda v: "all five", "not-a-number"),
        ),
    ),
}


@pytest.mark.parametrize("asked", READ, ids=lambda asked: asked[1])
def test_five_right_readings_and_five_wrong_ones(asked: tuple[str, str, str]) -> None:
    unit, name, given = asked
    right, wrong = READ[asked]
    for seed in (0, 3):
        value = reading(unit, given, seed)
        for write in right:
            found = marked(unit, name, write(value), seed)
            assert found.verdict == "right", write(value)
        for write, verdict in wrong:
            found = marked(unit, name, write(value), seed)
            assert found.verdict == verdict, write(value)
            assert found.points < found.out_of


def test_leaves_add_and_the_slips_are_told() -> None:
    unit, seed = "03-bowl-vents", 1
    thick, thin = (reading(unit, given, seed) for given in ("thick_leaf", "thin_leaf"))
    assert marked(unit, "feel-gap", f"{thick + thin:.2f} mm", seed).verdict == "right"
    assert marked(unit, "feel-gap", f"{(thick + thin) / 25.4:.4f} in", seed).verdict == "right"
    assert marked(unit, "feel-gap", f"{thick} mm", seed).verdict == "slip:thick-leaf-alone"
    assert marked(unit, "feel-gap", f"{thick - thin:.2f} mm", seed).verdict == "slip:leaf-taken-off"


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
