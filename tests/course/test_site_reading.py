"""A page of the site asks for nothing that only a notebook can do."""

import re

import pytest
from fuelmarks.course.course import Course
from fuelmarks.course.unit_text import filled_text

from course.site.reading import for_readers
from tests.places import COURSE_FOLDER

COURSE = Course(COURSE_FOLDER)
CODE = re.compile(r"^```.*?^```$", re.M | re.S)
ASKS = re.compile(r"[^.]*\b(?:[Rr]un (?:the (?:grey )?cell|it)|cells?|below: it says)\b[^.]*\.")
ELSEWHERE = re.compile(r"otebook|\bthere\b|There,")


@pytest.mark.parametrize("unit", COURSE.units())
def test_whoever_reads_is_asked_to_run_nothing_but_in_the_notebook(unit: str) -> None:
    text = filled_text(COURSE.text(unit), COURSE.root / "rigs")
    asks = ASKS.findall(CODE.sub("", for_readers(text)))
    assert [one for one in asks if not ELSEWHERE.search(one)] == []
    assert ASKS.search(CODE.sub("", text))


def test_a_reader_is_told_what_to_do_instead() -> None:
    text = (
        "Run the two grey cells first: they lay out your numbers. Then write down what you think."
    )
    assert for_readers(text) == (
        "Nothing has to be run on this page: the box below has the numbers. Then write down what "
        "you think."
    )
    ends = (
        "A value in quotes with its unit, or a formula, where a cell has `...`. A ratio has none."
    )
    assert for_readers(ends) == (
        "Work them out on paper, step by step; the last step says what it should come to. A ratio "
        "has none."
    )
