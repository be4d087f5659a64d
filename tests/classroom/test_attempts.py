"""Every attempt is kept as it came, with its time, and the newest that can be read counts."""

import os
import re
import struct
import zipfile
from datetime import UTC, datetime, timedelta

import pytest
from fuelmarks.classroom.attempts import attempts
from fuelmarks.classroom.collect import collect
from fuelmarks.gradebook.lateness import lateness

from tests.classroom.box import Box, zipped
from tests.classroom.collecting import own, placed, taken
from tests.small_unit import UNIT


def test_every_attempt_is_kept_and_the_newest_counts(box: Box) -> None:
    for answer, day in (("1", 5), ("2", 7), ("3", 6)):
        box.put(f"{answer}.ipynb", box.text("t001", f"{answer} mm2"), day)
    taken(box)
    assert (own(box), placed(box)) == (["1", "3", "2*"], "2")


def test_an_older_attempt_that_comes_later_counts_no_more(box: Box) -> None:
    for answer, day in (("1", 7), ("2", 5), ("3", 9)):
        box.earlier("x.ipynb", box.text("t001", f"{answer} mm2"), day)
    box.root.mkdir()
    taken(box)
    assert (own(box), placed(box)) == (["1", "2", "3*"], "3")


def test_a_copy_with_a_number_is_the_later_of_two(box: Box) -> None:
    for name, answer in ((f"{UNIT} (2)", "3"), (UNIT, "1"), (f"{UNIT} (1)", "2")):
        box.put(f"{name}.ipynb", box.text("t001", f"{answer} mm2"))
    taken(box)
    assert own(box) == ["1", "2", "3*"]


def test_a_damaged_attempt_is_kept_and_does_not_count(box: Box) -> None:
    box.put("a.ipynb", box.text("t001", "1 mm2"), day=5)
    box.put("b.ipynb", box.text("t001", "2 mm2")[:-300], day=6)
    taken(box)
    assert own(box) == ["1*", "2"]


def test_an_attempt_is_kept_to_the_byte_and_cannot_be_written(box: Box) -> None:
    raw = box.text("t001").encode("utf-16")
    box.put("x.ipynb", raw)
    taken(box)
    path = attempts(box.course, UNIT, "t001")[0].folder / f"{UNIT}.ipynb"
    assert path.read_bytes() == raw
    assert path.stat().st_mode & 0o222 == 0


def test_an_attempt_tells_when_it_came_and_as_what(box: Box) -> None:
    box.put("deep/x.ipynb", box.text("t001"), day=9, hour=8)
    taken(box)
    one = attempts(box.course, UNIT, "t001")[0]
    assert (one.number, one.delivered, one.whole) == (1, "deep/x.ipynb", True)
    assert one.handed_in == datetime(2026, 11, 9, 8, tzinfo=UTC)
    noted = box.course.folder("submitted", UNIT, "t001") / "timestamp.txt"
    assert noted.read_text() == "2026-11-09 08:00:00 UTC\n"


def test_an_edit_where_marking_looks_becomes_an_attempt_and_counts(box: Box) -> None:
    box.put("x.ipynb", box.text("t001", "1 mm2"))
    taken(box)
    box.course.notebook("submitted", UNIT, "t001").write_text(box.text("t001", "2 mm2"))
    assert [row.words for row in taken(box).rows][1] == "found where marking looks, kept"
    assert (own(box), placed(box)) == (["1", "2*"], "2")


def test_a_picture_goes_along_with_its_attempt_and_leaves_with_it(box: Box) -> None:
    box.earlier("t001/x.ipynb", box.text("t001", words="See ![](gauge.png)."), day=8)
    (box.before[0] / "t001" / "gauge.png").write_bytes(b"a picture")
    (box.before[0] / "t001" / "notes.txt").write_bytes(b"not named")
    collect(box.course, UNIT, box.before[0])
    folder = box.course.folder("submitted", UNIT, "t001")
    assert (folder / "gauge.png").read_bytes() == b"a picture"
    assert not (folder / "notes.txt").exists()
    box.put("x.ipynb", box.text("t001", words="No picture."))
    taken(box)
    assert not (folder / "gauge.png").exists()
    assert (attempts(box.course, UNIT, "t001")[0].folder / "gauge.png").exists()


def test_the_same_notebook_with_its_picture_at_last_is_another_attempt(box: Box) -> None:
    text = box.text("t001", words="See ![](gauge.png).")
    box.earlier("x.ipynb", text)
    box.put("x.ipynb", text)
    box.put("gauge.png", b"a picture")
    assert [row.outcome for row in taken(box).rows] == ["kept"]
    assert len(own(box)) == 2


@pytest.mark.parametrize("words", ["x.ipynb", "attempt.json", "timestamp.txt"])
def test_no_file_beside_can_take_the_place_of_what_is_noted(box: Box, words: str) -> None:
    box.put("t001/a.ipynb", box.text("t001", words=f"See {words}."))
    box.put(f"t001/{words}", "forged")
    taken(box)
    one = attempts(box.course, UNIT, "t001")[0]
    assert (one.delivered, one.beside) == ("t001/a.ipynb", {})


def test_a_record_that_tells_nothing_costs_only_its_trainee(box: Box) -> None:
    box.earlier("x.ipynb", box.text("t001"))
    collect(box.course, UNIT, box.before[0])
    record = attempts(box.course, UNIT, "t001")[0].folder / "attempt.json"
    record.chmod(0o644)
    record.write_text("{}")
    box.before = []
    box.put("x.ipynb", box.text("t001", "4 mm2"))
    box.put("y.ipynb", box.text("t002"))
    found = taken(box)
    assert {(row.trainee, row.outcome) for row in found.rows} >= {("t002", "kept")}
    assert any("attempt.json must tell of an attempt" in row.words for row in found.rows)


LATE = {
    "on time": ("t001", 10, 12, timedelta(0)),
    "an hour late": ("t001", 10, 13, timedelta(hours=1)),
    "days late": ("t001", 13, 12, timedelta(days=3)),
    "late for the class": ("t002", 13, 12, timedelta(0)),
}


@pytest.mark.parametrize(("trainee", "day", "hour", "late"), LATE.values(), ids=LATE)
def test_lateness_is_by_the_class_or_by_ones_own_date(
    box: Box, trainee: str, day: int, hour: int, late: timedelta
) -> None:
    box.put("x.ipynb", box.text(trainee), day, hour)
    assert [row.late for row in taken(box).rows] == [late]


def test_without_a_due_date_nothing_is_late_or_on_time(box: Box) -> None:
    key = (box.course.root / "term.toml").read_text().partition("[due]")[0]
    (box.course.root / "term.toml").write_text(key)
    box.put("x.ipynb", box.text("t001"))
    assert [row.late for row in taken(box).rows] == [None]


def test_a_time_that_was_told_counts_for_all(box: Box) -> None:
    box.put("x.ipynb", box.text("t001"), day=9)
    box.when = datetime(2026, 11, 12, 12, tzinfo=UTC)
    assert [row.late for row in taken(box).rows] == [timedelta(days=2)]


def test_a_time_in_the_future_is_now(box: Box) -> None:
    path = box.put("x.ipynb", box.text("t001"))
    os.utime(path, (4_000_000_000, 4_000_000_000))
    when = taken(box).rows[0].handed_in
    assert when is not None
    assert abs(datetime.now(UTC) - when) < timedelta(minutes=5)


def test_a_zips_own_times_count(box: Box) -> None:
    box.put("a.zip", zipped({"x.ipynb": box.text("t001")}), day=20)
    assert taken(box).rows[0].handed_in == datetime(2026, 11, 9, 12).astimezone()


def test_a_zip_that_notes_utc_is_believed(box: Box) -> None:
    def noted(one: zipfile.ZipInfo) -> None:
        stamp = int(datetime(2026, 11, 9, 6, tzinfo=UTC).timestamp())
        one.extra = struct.pack("<HHBi", 0x5455, 5, 1, stamp)

    box.put("a.zip", zipped({"x.ipynb": box.text("t001")}, noted))
    assert taken(box).rows[0].handed_in == datetime(2026, 11, 9, 6, tzinfo=UTC)


def test_a_zip_without_times_has_its_files_time(box: Box) -> None:
    def none(one: zipfile.ZipInfo) -> None:
        one.date_time = (1980, 1, 1, 0, 0, 0)

    box.put("a.zip", zipped({"x.ipynb": box.text("t001")}, none), day=7)
    assert taken(box).rows[0].handed_in == datetime(2026, 11, 7, 12, tzinfo=UTC)


SAID = {
    timedelta(0): "on time",
    timedelta(seconds=1): "late by 1 min",
    timedelta(minutes=59): "late by 59 min",
    timedelta(hours=3): "late by 3 h",
    timedelta(hours=3, minutes=4): "late by 3 h 4 min",
    timedelta(days=2, minutes=5): "late by 2 d 5 min",
    timedelta(days=2, hours=1, minutes=5): "late by 2 d 1 h",
}


@pytest.mark.parametrize(("late", "words"), SAID.items(), ids=SAID.values())
def test_lateness_is_said_in_the_two_largest_units(late: timedelta, words: str) -> None:
    assert lateness(late) == words


def test_a_time_told_later_corrects_the_one_that_is_kept(box: Box) -> None:
    box.put("a.ipynb", box.notebook("t001"), 12)
    collect(box.course, UNIT, box.root)
    told = datetime(2026, 11, 9, 17, 55, tzinfo=UTC)
    (row,) = collect(box.course, UNIT, box.root, told).rows
    assert (row.outcome, row.handed_in, row.late) == ("kept before", told, timedelta(0))
    assert re.search(r"time corrected from 2026-11-12 .* to 2026-11-09 ", row.words)
    (one,) = attempts(box.course, UNIT, "t001")
    assert one.handed_in == told
    place = box.course.folder("submitted", UNIT, "t001") / "timestamp.txt"
    assert place.read_text() == "2026-11-09 17:55:00 UTC\n"
    (again,) = collect(box.course, UNIT, box.root).rows
    assert (again.handed_in, "corrected" in again.words) == (told, False)
