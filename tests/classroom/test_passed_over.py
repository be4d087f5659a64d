"""A notebook that cannot be marked is named and passed over, and costs nobody but itself."""

from typing import Any

import pytest
from fuelmarks.book.class_record import class_record
from fuelmarks.classroom import mark_class as marking_desk
from fuelmarks.course.course import Course, CourseError

from tests.classroom.marks import Marker, rows, states
from tests.small_unit import UNIT


def test_a_linked_submission_is_passed_over(mark: Marker, two: Course) -> None:
    path = two.notebook("submitted", UNIT, "t001")
    path.unlink()
    path.symlink_to(two.notebook("submitted", UNIT, "t002"))
    assert states(mark(two)) == ["passed over", "marked"]


def test_anothers_work_in_a_folder_is_passed_over_and_not_marked_as_ones_own(
    mark: Marker, two: Course
) -> None:
    other = two.notebook("submitted", UNIT, "t002")
    two.notebook("submitted", UNIT, "t001").write_text(other.read_text())
    first, second = mark(two)
    assert (first.state, second.state) == ("passed over", "marked")
    assert first.reason == "90-small-unit.ipynb is the notebook of t002"


def test_anothers_numbers_under_ones_own_name_are_passed_over(mark: Marker, two: Course) -> None:
    mixed = two.notebook("submitted", UNIT, "t002").read_text().replace("t002", "t001")
    two.notebook("submitted", UNIT, "t001").write_text(mixed)
    first = next(iter(mark(two)))
    assert "holds the numbers of t002 under the name of t001" in first.reason


def test_another_unit_is_passed_over(mark: Marker, two: Course) -> None:
    path = two.notebook("submitted", UNIT, "t001")
    path.write_text(path.read_text().replace(UNIT, "91-other-unit"))
    first = next(iter(mark(two)))
    assert first.reason == "90-small-unit.ipynb holds unit 91-other-unit, not 90-small-unit"


def test_with_another_key_nobody_is_marked_anew_and_no_report_is_written(
    mark: Marker, two: Course
) -> None:
    states(mark(two))
    before = rows(two)
    (two.root / "term.toml").write_text('key = "a key made by mistake"\n')
    for done in mark(two, again=True):
        assert "holds numbers of nobody in the class: the key in term.toml" in done.reason
    assert rows(two) == before
    with pytest.raises(CourseError, match=r"put the key in term\.toml back, or mark again"):
        class_record(two, UNIT)


FOLDERS = {
    "where it was handed in": ("submitted", "must be a plain file, got another kind"),
    "where it is marked": ("autograded", "must be free or a plain file, got another kind; move it"),
}


@pytest.mark.parametrize(("step", "sentence"), FOLDERS.values(), ids=FOLDERS)
def test_a_folder_named_like_the_notebook_costs_only_itself(
    mark: Marker, two: Course, step: str, sentence: str
) -> None:
    path = two.notebook(step, UNIT, "t001")
    path.unlink(missing_ok=True)
    path.mkdir(parents=True)
    first, second = mark(two)
    assert (first.state, second.state) == ("passed over", "marked")
    assert sentence in first.reason
    assert [bool(entry.rows) for entry in class_record(two, UNIT).entries] == [False, True]


@pytest.mark.parametrize("place", ["work", "keep"])
def test_whatever_else_is_wrong_with_one_is_named_and_stops_nobody(
    mark: Marker, two: Course, monkeypatch: pytest.MonkeyPatch, place: str
) -> None:
    whole = getattr(marking_desk._Desk, place)

    def strange(desk: Any, trainee: str, *rest: Any) -> Any:
        if trainee == "t001":
            raise ZeroDivisionError("division by zero\nin line 3")
        return whole(desk, trainee, *rest)

    monkeypatch.setattr(marking_desk._Desk, place, strange)
    first, second = mark(two)
    assert (first.reason, second.state) == ("ZeroDivisionError: division by zero", "marked")


@pytest.mark.parametrize("fault", [PermissionError(13, "no rights"), OSError(28, "disk full")])
def test_a_change_that_was_entered_is_told_though_the_notebook_could_not_be_kept(
    mark: Marker, two: Course, monkeypatch: pytest.MonkeyPatch, fault: OSError
) -> None:
    states(mark(two))
    path = two.notebook("submitted", UNIT, "t001")
    right = 'seat_area = Q(3.14159 * seat_bore.m**2 / 4, \\"mm**2\\")'
    path.write_text(path.read_text().replace('seat_area = \\"\\"', right))

    def strange(*_: Any) -> None:
        raise fault

    monkeypatch.setattr(marking_desk._Desk, "keep", strange)
    first = next(mark(two))
    assert first.state == "passed over"
    assert [one.words for one in first.changes] == ["90-seat-area: 0 becomes 2"]
