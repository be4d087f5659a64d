"""A class is marked once, whatever happens on the way: marked again, stopped, killed, half full."""

import errno
import os
import shutil
from collections.abc import Iterator
from typing import Any

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.classroom import mark_class as marking_desk
from fuelmarks.classroom.collect import collect
from fuelmarks.classroom.mark_class import Done, submitted
from fuelmarks.course.course import Course, CourseError
from fuelmarks.gradebook.book import Ledger
from nbgrader.api import Gradebook

from tests.classroom.marks import Marker, rows, states
from tests.small_unit import UNIT


def test_marking_again_keeps_what_is_done(mark: Marker, two: Course) -> None:
    assert states(mark(two)) == ["marked", "marked"]
    before = rows(two)
    assert states(mark(two)) == ["kept", "kept"]
    assert rows(two) == before


def test_a_changed_submission_is_marked_again(mark: Marker, two: Course) -> None:
    states(mark(two))
    path = two.notebook("submitted", UNIT, "t002")
    path.write_text(path.read_text().replace('seat_area = \\"\\"', 'seat_area = \\"1 mm^2\\"'))
    assert states(mark(two)) == ["kept", "marked"]


def test_a_gradebook_that_was_lost_is_filled_again(mark: Marker, two: Course) -> None:
    states(mark(two))
    (two.root / "gradebook.db").unlink()
    build(two, UNIT)
    assert states(mark(two)) == ["marked", "marked"]


def test_only_some_are_marked_when_asked(mark: Marker, two: Course) -> None:
    assert [done.trainee for done in mark(two, only=["t002"])] == ["t002"]


def test_a_trainee_who_handed_in_nothing_is_named(two: Course) -> None:
    with pytest.raises(CourseError, match="trainee must have handed in 90-small-unit, got 't009'"):
        submitted(two, UNIT, ["t009"])


def test_again_marks_what_is_done_already(mark: Marker, two: Course) -> None:
    states(mark(two))
    assert states(mark(two, again=True)) == ["marked", "marked"]


def test_marks_given_by_hand_survive_marking_again(mark: Marker, two: Course) -> None:
    states(mark(two))
    with Gradebook(two.gradebook) as book:
        grade = book.find_grade("90-seat-area", UNIT, UNIT, "t001")
        grade.manual_score = 1.5
        book.db.commit()
    states(mark(two, again=True))
    with Gradebook(two.gradebook) as book:
        grade = book.find_grade("90-seat-area", UNIT, UNIT, "t001")
        assert (grade.auto_score, grade.manual_score, grade.score) == (0, 1.5, 1.5)
        assert grade.needs_manual_grade


def test_results_come_while_marking_goes_on(mark: Marker, two: Course) -> None:
    running: Iterator[Done] = mark(two)
    assert next(running).trainee == "t001"
    running.close()  # type: ignore[attr-defined]
    assert states(mark(two))[0] == "kept"


def test_two_markings_at_once_do_not_mix(mark: Marker, two: Course) -> None:
    running: Iterator[Done] = mark(two)
    next(running)
    with pytest.raises(CourseError, match="one command at a time must change"):
        states(mark(two))
    assert states(running) == ["marked"]


class Killed(BaseException):
    """Marking ends here, as if the machine had been switched off."""


@pytest.mark.parametrize("moment", ["work", "enter", "keep"])
def test_marking_killed_at_any_moment_loses_nothing_and_doubles_nothing(
    mark: Marker, two: Course, monkeypatch: pytest.MonkeyPatch, moment: str
) -> None:
    def killed(*_: Any, **__: Any) -> None:
        raise Killed

    where = {"work": marking_desk._Desk, "enter": Ledger, "keep": marking_desk._Desk}[moment]
    with monkeypatch.context() as patch:
        patch.setattr(where, moment, killed)
        with pytest.raises(Killed):
            states(mark(two))
    assert states(mark(two)) == ["marked", "marked"]
    assert len(rows(two)) == 8
    assert all(score == 0 for _, _, score, _ in rows(two))


def test_killed_after_the_rows_and_before_the_file_marks_the_same_again(
    mark: Marker, two: Course, monkeypatch: pytest.MonkeyPatch
) -> None:
    states(mark(two))
    before = rows(two)
    two.notebook("autograded", UNIT, "t001").unlink()
    assert states(mark(two)) == ["marked", "kept"]
    assert rows(two) == before


def test_an_error_while_entering_one_leaves_no_half_of_it(
    mark: Marker, two: Course, monkeypatch: pytest.MonkeyPatch
) -> None:
    states(mark(two))
    before = rows(two)
    path = two.notebook("submitted", UNIT, "t001")
    right = 'Q(3.14159 * seat_bore.m**2 / 4, \\"mm**2\\")'
    path.write_text(path.read_text().replace('seat_area = \\"\\"', f"seat_area = {right}"))
    whole = Ledger._grade

    def stops_half_way(ledger: Ledger, book: Any, grade: Any, *rest: Any) -> Any:
        found = whole(ledger, book, grade, *rest)
        return 1 / 0 if grade.name == "90-say-it" else found

    monkeypatch.setattr(Ledger, "_grade", stops_half_way)
    assert states(mark(two)) == ["passed over", "kept"]
    assert rows(two) == before


def test_a_full_disk_stops_the_class_with_a_sentence(
    mark: Marker, two: Course, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(marking_desk._Desk, "keep", full)
        with pytest.raises(CourseError, match="the disk must have room for the marked notebook of"):
            states(mark(two))
    assert states(mark(two)) == ["marked", "marked"]


def test_an_attempt_whose_collection_was_stopped_is_put_in_place_and_marked(
    mark: Marker, two: Course
) -> None:
    returned = two.root / "returned"
    returned.mkdir()
    text = two.notebook("submitted", UNIT, "t001").read_text()
    for number, answer in enumerate(("None", '\\"3 mm2\\"')):
        path = returned / f"{number}.ipynb"
        path.write_text(text.replace('seat_area = \\"\\"', f"seat_area = {answer}  # tried"))
        os.utime(path, (1_700_000_000 + number, 1_700_000_000 + number))
    collect(two, UNIT, returned)
    place = two.notebook("submitted", UNIT, "t001")
    counts = place.read_text()
    shutil.copyfile(two.root / "submitted/t001/attempts" / UNIT / "002" / place.name, place)
    assert states(mark(two)) == ["marked", "marked"]
    assert place.read_text() == counts
    place.unlink()
    assert submitted(two, UNIT) == ["t001", "t002"]
    assert states(mark(two)) == ["kept", "kept"]
