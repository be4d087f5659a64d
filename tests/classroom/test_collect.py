"""Each kind of return gives its row; nothing is lost, nothing doubled, nothing touched outside."""

import re
from dataclasses import replace

import pytest
from fuelmarks.book.class_record import class_record
from fuelmarks.classroom.attempts import attempts
from fuelmarks.classroom.collect import collect
from fuelmarks.classroom.collected import collection_table
from fuelmarks.classroom.refused import refusals
from fuelmarks.course.course import CourseError

from tests import small_unit
from tests.classroom.box import Box, replaced
from tests.classroom.collecting import prints, taken
from tests.classroom.returns import RETURNS, Return
from tests.small_unit import UNIT


def test_the_corpus_is_large() -> None:
    assert len(RETURNS) >= 50


@pytest.mark.parametrize("one", RETURNS.values(), ids=RETURNS)
def test_a_return_gives_its_rows_and_collected_again_adds_nothing(box: Box, one: Return) -> None:
    one.fill(box)
    delivered = prints(box.root)
    found = taken(box)
    assert [(row.trainee, row.outcome) for row in found.rows] == [row[:2] for row in one.rows]
    for row, (_, _, words) in zip(found.rows, one.rows, strict=True):
        assert re.search(words, row.words), row.words
    assert prints(box.root) == delivered
    kept = prints(box.course.root / "submitted")
    again = taken(box)
    assert not again.kept
    assert prints(box.course.root / "submitted") == kept


@pytest.mark.parametrize("one", RETURNS.values(), ids=RETURNS)
def test_whatever_is_returned_the_table_is_one_line_a_row(box: Box, one: Return) -> None:
    one.fill(box)
    found = taken(box)
    lines = collection_table(found).splitlines()
    assert len(lines) == len(found.rows) + 1
    assert all(line.isprintable() for line in lines)


def test_those_who_sent_nothing_are_named(box: Box) -> None:
    box.put("x.ipynb", box.text("t002"))
    assert taken(box).absent == ("t001", "t003")


def test_one_who_sent_it_earlier_is_not_absent(box: Box) -> None:
    box.earlier("x.ipynb", box.text("t001"))
    box.put("x.ipynb", box.text("t002"))
    assert taken(box).absent == ("t003",)


def test_files_that_go_with_no_notebook_are_named(box: Box) -> None:
    box.put("t001/x.ipynb", box.text("t001"))
    box.put("t001/gauge.png", "a picture it does not name")
    box.put("t002/essay.pdf", "%PDF")
    assert set(taken(box).left) == {"t001/gauge.png", "t002/essay.pdf"}


def test_files_that_were_handed_out_are_not_named(box: Box) -> None:
    (box.course.folder("release", UNIT) / "figure.svg").write_text("<svg/>")
    box.put("t001/x.ipynb", box.text("t001"))
    box.put("t001/figure.svg", "<svg>drawn over</svg>")
    assert taken(box).left == ()
    assert attempts(box.course, UNIT, "t001")[0].beside == {}


def test_a_wrong_key_is_told_from_a_wrong_notebook(box: Box) -> None:
    box.put("x.ipynb", box.text("t001"))
    box.put("y.ipynb", box.text("t002"))
    assert not taken(box).wrong_key
    (box.course.root / "term.toml").write_text('key = "a key made by mistake"\n')
    assert taken(box).wrong_key


def test_a_folder_that_is_not_there_is_named(box: Box) -> None:
    rule = "returned must be a folder of notebooks, a notebook or a zip, got"
    with pytest.raises(CourseError, match=rule):
        collect(box.course, UNIT, box.root / "nowhere")


def test_a_unit_that_is_none_is_named(box: Box) -> None:
    with pytest.raises(CourseError, match="unit must be one of 90-small-unit, got '91-other'"):
        collect(box.course, "91-other", box.root)


def test_a_unit_renamed_after_the_hand_out_is_still_itself(
    box: Box, monkeypatch: pytest.MonkeyPatch
) -> None:
    notebook = replaced(box.notebook("t001"), UNIT, "90-first-name")
    renamed = replace(small_unit.EXERCISES, first_name=UNIT)
    monkeypatch.setattr(small_unit, "EXERCISES", renamed)
    box.put("x.ipynb", box.notebook("t001"))
    assert [row.outcome for row in taken(box).rows] == ["kept"]
    box.put("x.ipynb", notebook)
    assert [row.outcome for row in taken(box).rows] == ["another unit"]


def test_work_that_was_refused_is_told_on_the_pages_until_some_is_kept(box: Box) -> None:
    theirs = replaced(box.notebook("t002"), "t002", "t001")
    box.put("a.ipynb", theirs)
    collect(box.course, UNIT, box.root)
    first, second, _ = class_record(box.course, UNIT).entries
    assert first.reason == "refused: holds the numbers of t002 under the name of t001"
    assert (first.missing, second.reason) == (True, "nothing handed in")
    box.put("b.ipynb", box.notebook("t001"))
    collect(box.course, UNIT, box.root)
    assert class_record(box.course, UNIT).entries[0].reason == "not marked yet"


def test_who_delivered_anothers_work_has_it_noted_too(box: Box) -> None:
    box.put("t002/90-small-unit.ipynb", box.notebook("t001"))
    collect(box.course, UNIT, box.root)
    for trainee in ("t001", "t002"):
        (noted,) = refusals(box.course, UNIT, trainee)
        assert noted.why == "is the work of t001, delivered as t002"
