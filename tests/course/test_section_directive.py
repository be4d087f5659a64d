"""The directive that puts a labelled section into a unit's text."""

from pathlib import Path

import pytest
from fuelmarks.course.course import CourseError
from fuelmarks.course.directives import Directive, split
from fuelmarks.course.sections import section_picture
from fuelmarks.gradebook.written_page import written_html

from tests.places import COURSE_FOLDER

RIGS = COURSE_FOLDER / "rigs"


def asked(line: str, body: str = "") -> Directive:
    (found,) = [
        part
        for part in split(f"{line}\n{body}\n:::\n", Path("unit.md"))
        if isinstance(part, Directive)
    ]
    return found


def test_a_section_is_one_image_that_holds_its_own_data() -> None:
    image = section_picture(asked(":::{section} off-idle"), RIGS).image()
    assert image.startswith('<img alt="The idle port of plover')
    assert 'src="data:image/svg+xml;base64,' in image
    assert "5 mixture screw" in image


@pytest.mark.parametrize(
    ("line", "body", "told"),
    [
        (":::{section} carburetor", "", "section must be one of shop-arithmetic, air-path"),
        (":::{section} pump rig=heron", "", "rig must be one of dunlin, plover, got 'heron'"),
        (":::{section} pump", "1 plunger", "section must be empty"),
        (":::{section}", "", "section must have one name"),
        (":::{section} pump scale=3", "", "section must have no other options, got 'scale'"),
    ],
)
def test_what_cannot_be_drawn_is_refused_with_its_line(line: str, body: str, told: str) -> None:
    with pytest.raises(CourseError, match="line 1") as error:
        section_picture(asked(line, body), RIGS)
    assert told in str(error.value)


def test_a_page_of_marks_says_in_words_what_a_section_shows() -> None:
    image = section_picture(asked(":::{section} pump"), RIGS).image()
    html = written_html(f"{image}\n\nMy answer stands below.")
    assert "[drawing: The accelerator pump of plover" in html
    assert "My answer stands below." in html
    assert "base64" not in html
