"""A class's runner rehearses what was handed out, if enough notebooks follow to be worth it."""

import pytest
from fuelmarks.classroom.rehearsal import FEWEST, rehearsal
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import read

from tests.small_unit import UNIT


@pytest.fixture
def many(two: Course) -> Course:
    """A course with as many notebooks as are worth a rehearsal."""
    for number in range(3, FEWEST + 1):
        path = two.notebook("submitted", UNIT, f"t{number:03}")
        path.parent.mkdir(parents=True)
        path.touch()
    return two


def test_the_code_of_the_release_is_rehearsed_for_many(many: Course) -> None:
    cells = read(many.notebook("release", UNIT)).cells
    code = [one.source for one in cells if one.cell_type == "code"]
    assert [one.source for one in rehearsal(many, UNIT)] == code
    assert any("begin(" in source for source in code)


def test_nothing_is_for_few(two: Course) -> None:
    assert rehearsal(two, UNIT) == []


def test_nothing_is_if_only_some_of_many_are_marked(many: Course) -> None:
    names = [f"t{number:03}" for number in range(1, FEWEST + 1)]
    assert rehearsal(many, UNIT, names[1:]) == []
    assert rehearsal(many, UNIT, names) != []


def test_a_release_that_cannot_be_read_is_left_to_marking(many: Course) -> None:
    many.notebook("release", UNIT).write_text("{")
    assert rehearsal(many, UNIT) == []
