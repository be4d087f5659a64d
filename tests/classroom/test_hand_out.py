"""Each trainee gets numbers of his own, whole, and what lies there is never lost or mistaken."""

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.classroom import hand_out as desk
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import grade_id, read
from fuelmarks.course.personal import sheet_of

from tests.small_unit import EXERCISES, UNIT, new_course


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A course handed out to twelve trainees."""
    course = new_course(tmp_path_factory.mktemp("course"), trainees=12)
    build(course, UNIT)
    list(hand_out(course, UNIT))
    return course


def sources(course: Course, trainee: str) -> dict[str, str]:
    cells = read(course.notebook("handout", UNIT, trainee)).cells
    return {grade_id(cell): cell.source for cell in cells if grade_id(cell)}


def test_numbers_differ_from_trainee_to_trainee(course: Course) -> None:
    drawn = {
        sources(course, one.id)["90-begin"].partition("# Your")[2] for one in course.trainees()
    }
    assert len(drawn) >= 11


def test_a_trainee_gets_the_numbers_that_marking_will_draw(course: Course) -> None:
    sheet = sheet_of(course, EXERCISES, "t002")
    cells = sources(course, "t002")
    assert f"supply_pressure = {sheet.givens_shown['supply_pressure'].literal}" in cells["90-begin"]
    assert sheet.givens_shown["seat_bore"].text in cells["90-seat-area-ask"]


def test_a_handed_out_notebook_is_in_class_mode_under_its_name(course: Course) -> None:
    line = 'sheet = begin("90-small-unit", trainee="t003", mode="class")'
    assert line in sources(course, "t003")["90-begin"]


def test_handing_out_again_leaves_notebooks_alone(course: Course) -> None:
    path = course.notebook("handout", UNIT, "t001")
    before = path.stat().st_mtime_ns
    assert {one.state for one in hand_out(course, UNIT)} == {"there"}
    assert path.stat().st_mtime_ns == before


def test_a_new_key_gives_new_numbers(course: Course, tmp_path: Path) -> None:
    other = new_course(tmp_path, trainees=12)
    (tmp_path / "term.toml").write_text('key = "next term, another key"\n')
    sheets = [
        [sheet_of(c, EXERCISES, f"t{n:03}").givens for n in range(1, 13)] for c in (course, other)
    ]
    assert sheets[0] != sheets[1]


def test_a_unit_must_be_built_before_it_is_handed_out(tmp_path: Path) -> None:
    with pytest.raises(CourseError, match="90-small-unit must be built before it is used"):
        list(hand_out(new_course(tmp_path), UNIT))


@pytest.fixture
def two(tmp_path: Path) -> Course:
    """A course of two, built and handed out, with a figure beside the unit's text."""
    course = new_course(tmp_path, trainees=2)
    (course.root / "units" / UNIT / "float.svg").write_text("<svg/>")
    build(course, UNIT)
    list(hand_out(course, UNIT))
    return course


def states(course: Course) -> list[str]:
    return [one.state for one in hand_out(course, UNIT)]


def reasons(course: Course) -> list[str]:
    return [one.reason for one in hand_out(course, UNIT)]


def other(course: Course, trainee: str) -> str:
    return course.notebook("handout", UNIT, trainee).read_text()


def test_a_figure_goes_along(two: Course) -> None:
    assert (two.folder("handout", UNIT, "t002") / "float.svg").read_text() == "<svg/>"


def test_the_notebook_is_the_last_thing_that_is_written(
    two: Course, monkeypatch: pytest.MonkeyPatch
) -> None:
    shutil.rmtree(two.root / "handout")

    def full(*_: object) -> None:
        raise OSError("No space left on device")

    monkeypatch.setattr(desk, "write", full)
    with pytest.raises(OSError, match="No space left"):
        list(hand_out(two, UNIT))
    assert os.listdir(two.folder("handout", UNIT, "t001")) == ["float.svg"]


BEGUN = {
    "an empty folder": lambda folder: None,
    "a figure alone": lambda folder: (folder / "float.svg").write_text("<svg/>"),
    "half a notebook under another name": lambda folder: (
        folder / f".{UNIT}.ipynb.part"
    ).write_text("{"),
}


@pytest.mark.parametrize("begun", BEGUN.values(), ids=BEGUN)
def test_what_a_hand_out_left_that_was_stopped_is_finished(
    two: Course, begun: Callable[[Path], object]
) -> None:
    whole = other(two, "t001")
    folder = two.folder("handout", UNIT, "t001")
    shutil.rmtree(folder)
    folder.mkdir()
    begun(folder)
    assert states(two) == ["made", "there"]
    assert other(two, "t001") == whole
    assert sorted(os.listdir(folder)) == [f"{UNIT}.ipynb", "float.svg"]


@pytest.mark.parametrize("left", [b"", b'{"cells": [{"cell', b"\0" * 500], ids=["", "half", "nul"])
def test_a_half_written_notebook_is_made_good_and_kept_aside(two: Course, left: bytes) -> None:
    whole = other(two, "t001")
    path = two.notebook("handout", UNIT, "t001")
    path.write_bytes(left)
    first = next(iter(hand_out(two, UNIT)))
    assert (first.state, other(two, "t001")) == ("made good", whole)
    assert path.with_suffix(".damaged").read_bytes() == left
    assert f"what was there is {UNIT}.damaged" in first.reason


def test_two_damaged_notebooks_are_both_kept(two: Course) -> None:
    path = two.notebook("handout", UNIT, "t001")
    for left in (b"{1", b"{2"):
        path.write_bytes(left)
        list(hand_out(two, UNIT))
    kept = [path.with_name(f"{UNIT}.damaged{end}").read_bytes() for end in ("", "-2")]
    assert kept == [b"{1", b"{2"]


def test_the_specimen_at_a_trainees_name_is_named_and_left(two: Course) -> None:
    path = two.notebook("handout", UNIT, "t001")
    path.write_bytes(two.notebook("release", UNIT).read_bytes())
    first, second = hand_out(two, UNIT)
    assert (first.state, second.state) == ("refused", "there")
    assert "with the specimen's numbers; move it away if nobody works in it" in first.reason
    assert path.read_bytes() == two.notebook("release", UNIT).read_bytes()


def test_anothers_notebook_is_named_and_left(two: Course) -> None:
    two.notebook("handout", UNIT, "t001").write_text(other(two, "t002"))
    assert "is the notebook of t002" in reasons(two)[0]
    assert other(two, "t001") == other(two, "t002")


def test_anothers_numbers_under_ones_own_name_are_named(two: Course) -> None:
    mixed = other(two, "t002").replace('trainee=\\"t002\\"', 'trainee=\\"t001\\"')
    two.notebook("handout", UNIT, "t001").write_text(mixed)
    assert "holds the numbers of t002 under the name of t001" in reasons(two)[0]


def test_another_key_is_noticed_and_nothing_is_overwritten(two: Course) -> None:
    before = [other(two, one) for one in ("t001", "t002")]
    (two.root / "term.toml").write_text('key = "a key made by mistake"\n')
    assert states(two) == ["refused", "refused"]
    assert all("holds numbers of nobody in the class" in why for why in reasons(two))
    assert [other(two, one) for one in ("t001", "t002")] == before


def test_a_trainees_work_in_the_very_folder_is_left_alone(two: Course) -> None:
    path = two.notebook("handout", UNIT, "t001")
    path.write_text(other(two, "t001").replace('seat_area = \\"\\"', "seat_area = 3"))
    (path.parent / "float.svg").write_text("<svg>drawn over</svg>")
    worked = path.read_text()
    assert states(two) == ["there", "there"]
    assert path.read_text() == worked
    assert (path.parent / "float.svg").read_text() == "<svg>drawn over</svg>"


def test_a_new_trainee_gets_a_notebook_and_the_others_keep_theirs(two: Course) -> None:
    with (two.root / "class.csv").open("a") as file:
        file.write("t003,Cleo,Needleby,\n")
    assert states(two) == ["there", "there", "made"]


@pytest.mark.parametrize("kind", ["folder", "link"])
def test_what_is_no_file_stops_only_itself(two: Course, kind: str) -> None:
    path = two.notebook("handout", UNIT, "t001")
    path.unlink()
    path.mkdir() if kind == "folder" else path.symlink_to(two.root / "term.toml")
    assert states(two) == ["refused", "there"]
    assert reasons(two)[0] == "must be a plain file, got another kind"


def test_a_damaged_release_is_named(two: Course) -> None:
    two.notebook("release", UNIT).write_text('{"cells": [')
    with pytest.raises(CourseError, match=r"must be a whole notebook, got: .*; build it anew"):
        list(hand_out(two, UNIT))
