"""Directives are found with their line, and what is wrong is named with file, line, rule, value."""

from pathlib import Path

import pytest
from fuelmarks.course.course import CourseError
from fuelmarks.course.directives import Directive, split

PATH = Path("unit.md")

WRONG = {
    "an unknown kind": (":::{quiz} x\n:::\n", "line 1: directive must be one of", "'quiz'"),
    "no name": ("words\n:::{exercise}\n:::\n", "line 2: exercise must have one name", "''"),
    "two names": (":::{predict} a b\n:::\n", "line 1: predict must have one name", "'a b'"),
    "a name with capitals": (":::{predict} Ab\n:::\n", "must have one name", "'Ab'"),
    "no end": ("\n\n:::{begin}\nwords\n", "line 3: begin must end with", "'end of file'"),
    "one inside another": (":::{predict} a\n:::{begin}\n:::\n", "must end before", "':::{begin}'"),
    "a strange option": (":::{begin} colour=red\n:::\n", "must have no other options", "'colour'"),
    "a fence of another kind": ("```{figure} a.png\n```\n", "line 1: a fence must be", "'figure'"),
}


def parts(text: str) -> list[str | Directive]:
    return [part for part in split(text, PATH) if not isinstance(part, str) or part.strip()]


def test_text_and_directives_come_in_order() -> None:
    found = parts("one\n\n:::{written} w points=4\nbody\n:::\ntwo\n")
    assert [getattr(part, "body", part) for part in found] == ["one\n", "body", "two"]


def test_a_directive_knows_its_line_and_options() -> None:
    (found,) = parts("\n\n:::{written} two-words points=4\nbody\n:::\n")
    assert isinstance(found, Directive)
    assert (found.line, found.name, found.points()) == (3, "two-words", 4)


def test_a_directive_in_a_code_fence_is_code() -> None:
    text = "```\n:::{exercise} x\n:::\n```"
    assert parts(text) == [text]


@pytest.mark.parametrize(("text", "rule", "value"), WRONG.values(), ids=WRONG)
def test_what_is_wrong_is_named(text: str, rule: str, value: str) -> None:
    with pytest.raises(CourseError) as caught:
        parts(text)
    assert str(caught.value).startswith("unit.md, line ")
    assert rule in str(caught.value)
    assert str(caught.value).endswith(f"got {value}")


@pytest.mark.parametrize("points", ["", "0", "101", "2.5", "many"])
def test_points_must_be_a_sensible_whole_number(points: str) -> None:
    (found,) = parts(f":::{{written}} w points={points}\nbody\n:::\n")
    assert isinstance(found, Directive)
    with pytest.raises(CourseError, match="points of w must be between 1 and 100"):
        found.points()
