"""A class is marked once, whatever happens on the way, and one bad notebook costs only itself."""

import errno
import os
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, TypeAlias

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.book.class_record import class_record
from fuelmarks.classroom import mark_class as marking_desk
from fuelmarks.classroom.collect import collect
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import Done, mark_class, submitted
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import read
from fuelmarks.demo.invented_class import HABITS, hand_in
from fuelmarks.gradebook.book import Ledger
from fuelmarks.gradebook.opening import new_gradebook
from fuelmarks.runner import Limits, Runner
from nbgrader.api import Gradebook, get_alembic_version

from tests.small_unit import UNIT, new_course

LIMITS = Limits(cell_seconds=5.0)
Marker: TypeAlias = Callable[..., Iterator[Done]]
ROWS = (
    "select student_id, name, auto_score, needs_manual_grade from grade "
    "join submitted_notebook s on s.id = grade.notebook_id "
    "join submitted_assignment a on a.id = s.assignment_id "
    "join base_cell c on c.id = cell_id order by 1, 2"
)


@pytest.fixture(scope="module")
def handed_in(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A class of twelve that has handed in, one habit each; nothing is marked."""
    course = new_course(tmp_path_factory.mktemp("course"), trainees=len(HABITS))
    build(course, UNIT)
    list(hand_out(course, UNIT))
    list(hand_in(course, UNIT, course.root / "returned"))
    collect(course, UNIT, course.root / "returned")
    return course


@pytest.fixture(scope="module")
def mark() -> Iterator[Marker]:
    """Marking with one warm runner for all tests here."""
    with Runner(limits=LIMITS) as runner:
        yield lambda course, **asked: mark_class(course, UNIT, runner=runner, **asked)


@pytest.fixture(scope="module")
def marked(handed_in: Course, mark: Marker) -> dict[str, Done]:
    """What became of each of the twelve."""
    found = {done.trainee: done for done in mark(handed_in)}
    return {habit: found[one.id] for habit, one in zip(HABITS, handed_in.trainees(), strict=True)}


@pytest.fixture
def two(tmp_path: Path) -> Course:
    """A course with two submissions, left as they were handed out."""
    course = new_course(tmp_path, trainees=2)
    build(course, UNIT)
    for one in hand_out(course, UNIT):
        shutil.copytree(one.path.parent, course.folder("submitted", UNIT, one.trainee))
    return course


def rows(course: Course) -> list[tuple[Any, ...]]:
    with sqlite3.connect(course.root / "gradebook.db") as book:
        return book.execute(ROWS).fetchall()


def states(running: Iterator[Done]) -> list[str]:
    return [done.state for done in running]


VERDICTS = {
    "right": ["right", "right", "right"],
    "right in other units": ["right", "right", "right"],
    "one slip, carried on": ["slip:radius", "follow-through", "follow-through"],
    "half of it blank": ["right", "blank", "blank"],
    "an exception": ["right", "missing", "right"],
    "an endless loop": ["right", "right", "missing"],
    "text with decimal commas": ["right", "right", "right"],
    "wrong kinds and no units": ["wrong-dimension", "no-unit", "right"],
}


@pytest.mark.parametrize(("habit", "verdicts"), VERDICTS.items(), ids=VERDICTS)
def test_a_habit_earns_its_verdicts(
    marked: dict[str, Done], habit: str, verdicts: list[str]
) -> None:
    marks = marked[habit].marks
    assert marks is not None
    assert [one.verdict for one in marks.marks] == verdicts


def test_a_copied_cell_costs_nothing(marked: dict[str, Done]) -> None:
    assert marked["cells copied"].state == "marked"


def test_a_deleted_answer_is_missing_and_the_rest_counts(marked: dict[str, Done]) -> None:
    marks = marked["cells deleted"].marks
    assert marks is not None
    assert marks["needle-force"].verdict == "missing"
    assert marks["float-lift"].points > 0


def test_a_broken_file_is_named_and_passed_over(marked: dict[str, Done]) -> None:
    broken = marked["file broken off"]
    assert broken.state == "passed over"
    assert "must be a whole notebook, got a damaged file" in broken.reason


def test_points_reach_the_gradebook(handed_in: Course, marked: dict[str, Done]) -> None:
    with Gradebook(handed_in.gradebook) as book:
        for done in marked.values():
            if done.marks is not None:
                found = book.find_submission_notebook(UNIT, UNIT, done.trainee)
                assert (found.score, found.max_score) == (done.marks.points, 13)


def test_written_questions_wait_for_a_hand(handed_in: Course, marked: dict[str, Done]) -> None:
    waiting = {name for _, name, _, waits in rows(handed_in) if waits}
    assert waiting == {"90-say-it"}
    assert len(marked) == 12


def test_the_grader_sees_the_rubric_in_the_marked_notebook(
    handed_in: Course, marked: dict[str, Done]
) -> None:
    path = handed_in.notebook("autograded", UNIT, marked["right"].trainee)
    assert "1 point: says it." in path.read_text()


def test_a_blank_written_answer_gets_nothing_as_in_nbgrader(mark: Marker, two: Course) -> None:
    states(mark(two))
    assert {(score, waits) for _, name, score, waits in rows(two) if name == "90-say-it"} == {
        (0, 0)
    }


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


def test_lateness_is_noted_and_costs_what_nbgrader_is_told(mark: Marker, two: Course) -> None:
    with (two.root / "nbgrader_config.py").open("a") as file:
        file.write('c.LateSubmissionPlugin.penalty_method = "zero"\n')
    with Gradebook(two.gradebook) as book:
        book.update_or_create_assignment(UNIT, duedate="2026-01-10 12:00:00 UTC")
    for day, trainee in enumerate(("t001", "t002"), start=10):
        noted = two.folder("submitted", UNIT, trainee) / "timestamp.txt"
        noted.write_text(f"2026-01-{day} 11:00:00 UTC\n")
        path = two.notebook("submitted", UNIT, trainee)
        right = 'Q(3.14159 * seat_bore.m**2 / 4, \\"mm**2\\")'
        path.write_text(path.read_text().replace('seat_area = \\"\\"', f"seat_area = {right}"))
    states(mark(two))
    with Gradebook(two.gradebook) as book:
        found = [book.find_submission_notebook(UNIT, UNIT, one) for one in ("t001", "t002")]
        assert [one.score for one in found] == [2, 2]
        assert [one.late_submission_penalty for one in found] == [None, 2]


def test_files_beside_a_submission_go_along_but_no_links(mark: Marker, two: Course) -> None:
    folder = two.folder("submitted", UNIT, "t001")
    (folder / "note.txt").write_text("mine")
    (folder / "key").symlink_to(two.root / "term.toml")
    states(mark(two))
    beside = {path.name for path in two.folder("autograded", UNIT, "t001").iterdir()}
    assert beside == {f"{UNIT}.ipynb", "note.txt"}


def test_a_linked_submission_is_passed_over(mark: Marker, two: Course) -> None:
    path = two.notebook("submitted", UNIT, "t001")
    path.unlink()
    path.symlink_to(two.notebook("submitted", UNIT, "t002"))
    assert states(mark(two)) == ["passed over", "marked"]


def test_a_marked_notebook_cannot_be_mistaken_for_an_unmarked_one(
    mark: Marker, two: Course
) -> None:
    states(mark(two))
    notebook = read(two.notebook("autograded", UNIT, "t001"))
    assert len(notebook.metadata["fuelmarks"]["digest"]) == 64


def test_a_unit_must_be_built_before_it_is_marked(mark: Marker, tmp_path: Path) -> None:
    course = new_course(tmp_path)
    new_gradebook(course)
    with pytest.raises(CourseError, match="90-small-unit must be built before it is marked"):
        states(mark(course))


def test_the_gradebook_notes_the_version_nbgrader_would(tmp_path: Path) -> None:
    course = new_course(tmp_path)
    new_gradebook(course)
    with sqlite3.connect(tmp_path / "gradebook.db") as book:
        found = book.execute("select version_num from alembic_version").fetchall()
    assert found == [(get_alembic_version(),)]


def test_the_course_sets_the_limits_for_our_command_too(mark: Marker, two: Course) -> None:
    with (two.root / "nbgrader_config.py").open("a") as file:
        file.write("c.RunApart.cell_seconds = 0.5\n")
    path = two.notebook("submitted", UNIT, "t001")
    path.write_text(path.read_text().replace('seat_area = \\"\\"', "import time; time.sleep(2)"))
    first = next(iter(mark(two))).marks
    assert first is not None
    assert "ran too long" in first["seat-area"].comment


@pytest.mark.parametrize("seconds", ["0", "-1", "'10'", "True"])
def test_a_limit_that_is_none_is_named(mark: Marker, two: Course, seconds: str) -> None:
    with (two.root / "nbgrader_config.py").open("a") as file:
        file.write(f"c.RunApart.notebook_seconds = {seconds}\n")
    with pytest.raises(CourseError, match=r"RunApart\.notebook_seconds must be a positive number"):
        states(mark(two))


def test_results_come_while_marking_goes_on(mark: Marker, two: Course) -> None:
    running: Iterator[Done] = mark(two)
    assert next(running).trainee == "t001"
    running.close()  # type: ignore[attr-defined]
    assert states(mark(two))[0] == "kept"


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


def test_files_beside_a_submission_go_along_within_limits(mark: Marker, two: Course) -> None:
    folder = two.folder("submitted", UNIT, "t001")
    (folder / "huge.png").write_bytes(bytes(6_000_000))
    for number in range(30):
        (folder / f"{number:02}.txt").write_text("small")
    states(mark(two))
    names = {path.name for path in two.folder("autograded", UNIT, "t001").iterdir()}
    assert "huge.png" not in names
    assert len(names) == 21


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


def test_two_markings_at_once_do_not_mix(mark: Marker, two: Course) -> None:
    running: Iterator[Done] = mark(two)
    next(running)
    with pytest.raises(CourseError, match="one command at a time must change"):
        states(mark(two))
    assert states(running) == ["marked"]
