"""Each kind of return gives its row; nothing is lost, nothing doubled, nothing touched outside."""

import hashlib
import os
import re
import shutil
import struct
import zipfile
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.book.class_record import class_record
from fuelmarks.classroom.attempts import attempts, counting
from fuelmarks.classroom.collect import collect
from fuelmarks.classroom.collected import Collected, collection_table
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.refused import refusals
from fuelmarks.course.course import Course, CourseError
from fuelmarks.gradebook.lateness import lateness

from tests import small_unit
from tests.classroom.box import Box, replaced, zipped
from tests.classroom.returns import RETURNS, Return
from tests.small_unit import UNIT, new_course


@pytest.fixture(scope="module")
def handed_out(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A class of three with a due date, and a ninth who left after the hand-out."""
    course = new_course(tmp_path_factory.mktemp("course"), trainees=9)
    build(course, UNIT)
    list(hand_out(course, UNIT))
    listed = (course.root / "class.csv").read_text().splitlines()[:4]
    (course.root / "class.csv").write_text("\n".join(listed))
    dates = f"[due]\n{UNIT} = 2026-11-10T12:00:00Z\n[due.t002]\n{UNIT} = 2026-11-20T12:00:00Z\n"
    with (course.root / "term.toml").open("a") as file:
        file.write(dates)
    return course


@pytest.fixture
def box(handed_out: Course, tmp_path: Path) -> Box:
    """An empty box for a class of its own."""
    shutil.copytree(handed_out.root, tmp_path / "course")
    return Box(Course.at(tmp_path / "course"), tmp_path / "returned")


def taken(box: Box) -> Collected:
    """Return the table of what is in the box, after what was to be collected before it."""
    for folder in box.before:
        collect(box.course, UNIT, folder)
    return collect(box.course, UNIT, box.root, box.when)


def prints(folder: Path) -> dict[str, str]:
    """Return the fingerprints of all files in and below a folder."""
    files = [path for path in folder.rglob("*") if path.is_file() and not path.is_symlink()]
    return {str(path): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


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


def own(box: Box, trainee: str = "t001") -> list[str]:
    """Return the answers in the attempts of a trainee, the one that counts marked with a star."""
    kept = attempts(box.course, UNIT, trainee)
    counts = counting(kept)
    found = []
    for one in kept:
        text = (one.folder / f"{UNIT}.ipynb").read_text()
        answer = text.partition('seat_area = \\"')[2].partition(" ")[0]
        found.append(f"{answer}*" if one == counts else answer)
    return found


def placed(box: Box, trainee: str = "t001") -> str:
    """Return the answer in the notebook that is where marking looks."""
    text = box.course.notebook("submitted", UNIT, trainee).read_text()
    return text.partition('seat_area = \\"')[2].partition(" ")[0]


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
