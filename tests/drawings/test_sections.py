"""Sections: what a card says is where the drawing has it, and every number names its part."""

import re
from collections.abc import Iterator
from math import cos, sin
from xml.etree import ElementTree

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.drawings.parts import parts
from fuelcircuits.drawings.section.layout import Layout, layout
from fuelcircuits.drawings.section.low_speed import port
from fuelcircuits.drawings.sections import SECTIONS, section
from fuelcircuits.physics.network.rig import Rig
from fuelmarks.course.course import Course

from tests.places import COURSE_FOLDER

RIGS = {name: read_rig(COURSE_FOLDER / "rigs" / f"{name}.toml") for name in ("plover", "dunlin")}
EVERYTHING = ("valve", "down", "main", "idle", "shot", "jet", "piston", "pump")
COURSE = Course(COURSE_FOLDER)
PLACE = re.compile(r":::\{section\} (\S+)(?: rig=(\w+))?\n")

each_rig = pytest.mark.parametrize("rig", RIGS.values(), ids=RIGS)
each_section = pytest.mark.parametrize("name", SECTIONS)


def places(rig: Rig) -> Layout:
    return layout(rig, EVERYTHING, 80.0)


@each_rig
@each_section
def test_a_section_is_sound_and_says_what_it_shows(name: str, rig: Rig) -> None:
    drawn = section(name, rig)
    ElementTree.fromstring(drawn.svg)
    assert "nan" not in drawn.svg
    named = SECTIONS[name][1](rig).named
    assert all(f"{one.number} {one.name}" in drawn.alt for one in named)


@each_rig
@each_section
def test_every_number_points_into_the_drawing_at_a_part_of_its_own(name: str, rig: Rig) -> None:
    sheet = SECTIONS[name][1](rig)
    left, top, right, foot = sheet.window
    wide, high = (right - left) * sheet.scale, (foot - top) * sheet.scale
    for one in sheet.named:
        x, y = one.target
        assert 0 <= x <= wide, one.name
        assert 0 <= y <= high, one.name
    assert len({one.target for one in sheet.named}) == len(sheet.named)
    assert len({one.part for one in sheet.named}) == len(sheet.named)
    assert [one.number for one in sheet.named] == [str(n + 1) for n in range(len(sheet.named))]


@each_rig
def test_heights_are_those_of_the_card(rig: Rig) -> None:
    at, bowl = places(rig), rig.float_bowl
    assert at.level == pytest.approx(1e3 * bowl.specified_level)
    assert at.floor == pytest.approx(1e3 * bowl.depth)
    assert at.level - at.lip == pytest.approx(1e3 * rig.high_speed.lip)
    # the idle-port chamber hangs by its fall under the by-pass, which the fuel is lifted to
    chamber = at.level - 1e3 * rig.low_speed.lift + 1e3 * rig.low_speed.fall
    here = port(at, rig)
    assert here.roof < chamber < here.screw + 4


@each_rig
def test_the_shut_plate_meets_the_slot_as_the_card_has_it(rig: Rig) -> None:
    # The rim's lower corner, worked from the plate's own shape: half the plate up its slope, half
    # its thickness back across it. Below it lies what feeds at the stop.
    at, here, path = places(rig), port(places(rig), rig), rig.air_path
    angle = path.throttle_closed_angle
    half, thick = 500 * path.throttle_bore / cos(angle), 500 * rig.low_speed.plate_edge
    corner = at.shaft - half * sin(angle) + thick * cos(angle)
    assert here.top < corner, "the slot must reach above the shut plate's rim"
    assert here.foot == pytest.approx(at.shaft - 1e3 * rig.low_speed.slot_start)
    assert here.foot - here.top == pytest.approx(1e3 * rig.low_speed.slot_height)


@each_rig
def test_fuel_comes_to_the_idle_tube_by_the_main_jet(rig: Rig) -> None:
    at = places(rig)
    order = ("jet", "idle", "main", "down")
    across = [at.x[name] for name in order]
    assert across == sorted(across)
    assert at.x["jet"] < at.column < at.x["shot"] < at.x["idle"]


@each_rig
def test_the_booster_sits_in_the_main_venturi(rig: Rig) -> None:
    at = places(rig)
    assert at.lip < at.throat < at.shaft - at.bore * 0.3
    assert 500 * rig.air_path.booster_outside < at.venturi < at.bore


def told() -> Iterator[tuple[str, str, str, str]]:
    """Yield unit, section, rig and the text up to the next section, wherever there is one."""
    for unit in COURSE.units():
        text = COURSE.text(unit).read_text("utf-8")
        part = text.partition("## What is in there")[2].partition("\n## ")[0]
        shown = list(PLACE.finditer(part))
        for at, place in enumerate(shown):
            end = shown[at + 1].start() if at + 1 < len(shown) else len(part)
            yield unit, place[1], place[2] or "plover", part[place.end() : end]


@pytest.mark.parametrize(
    ("unit", "name", "rig", "text"), [pytest.param(*one, id=f"{one[0]}-{one[2]}") for one in told()]
)
def test_the_text_walks_the_numbers_of_its_section(
    unit: str, name: str, rig: str, text: str
) -> None:
    words = text.replace("**", "")
    for one in SECTIONS[name][1](RIGS[rig]).named:
        close = [
            words[max(0, hit.start() - 60) : hit.start()].lower()
            for hit in re.finditer(rf"\({one.number}\)", words)
        ]
        assert close, f"{unit}: the text must name ({one.number}), {one.name}"
        last = parts()[one.part].name.split()[-1]
        assert any(last in before for before in close), f"({one.number}) is {one.name}"
