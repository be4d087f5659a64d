"""The exchange as a process: a round of work through nbgrader's own classes."""

import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from fuelmarks.book.pages import write_reports
from fuelmarks.classroom.attempts import attempts, retime
from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.classroom.sending import collect_sent, send_feedback
from fuelmarks.commands.cli import main
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import grade_id, read, write
from fuelmarks.gradebook.settings import settings
from fuelmarks.runner import Runner
from nbgrader.coursedir import CourseDirectory
from nbgrader.exchange import ExchangeError, ExchangeFactory

from tests.server.counter import Counter
from tests.server.pressing import NOTEBOOK, answer, press, wired
from tests.small_unit import UNIT


def test_each_fetches_his_own_notebook(round_of_work: dict[str, Path], course: Course) -> None:
    for name, home in round_of_work.items():
        given = read(course.notebook("handout", UNIT, name))
        fetched = read(home / UNIT / NOTEBOOK)
        assert fetched.cells[0] == given.cells[0]
        assert name in fetched.cells[[grade_id(c) for c in given.cells].index("90-begin")].source


def test_what_was_fetched_is_never_written_over(
    round_of_work: dict[str, Path], become: Callable[[str], None]
) -> None:
    become("t001")
    before = (round_of_work["t001"] / UNIT / NOTEBOOK).read_bytes()
    with pytest.raises(ExchangeError, match="must be fetched once"):
        press("FetchAssignment", round_of_work["t001"])
    press("FetchAssignment", round_of_work["t001"], replace_missing_files=True)
    assert (round_of_work["t001"] / UNIT / NOTEBOOK).read_bytes() == before


def test_the_list_shows_what_is_released_and_what_was_handed_in(
    desk: Counter, round_of_work: dict[str, Path], become: Callable[[str], None]
) -> None:
    become("t001")
    (one,) = press("List", round_of_work["t001"])
    assert (one["assignment_id"], one["status"]) == (UNIT, "fetched")
    (handed,) = press("List", round_of_work["t001"], cached=True)
    (attempt,) = handed["submissions"]
    today = f"{desk.store.hand_ins(UNIT, 't001')[0].handed_in:%Y-%m-%d %H.%M.%S}"
    assert attempt["timestamp"] == f"{today} UTC, attempt 1"


def test_what_is_collected_is_kept_marked_and_given_back_to_its_owner_alone(
    round_of_work: dict[str, Path],
    course: Course,
    become: Callable[[str], None],
    runner: Runner,
) -> None:
    become("teacher")
    assert [row.outcome for row in collect_sent(course, UNIT).rows] == ["kept", "kept"]
    assert [row.outcome for row in collect_sent(course, UNIT).rows] == ["kept before"] * 2
    marked = mark_class(course, UNIT, runner=runner)
    assert [done.state for done in marked] == ["marked", "marked"]
    list(write_reports(course, UNIT))
    assert [why for _, why in send_feedback(course, UNIT)] == ["", ""]
    for name, home in round_of_work.items():
        become(name)
        press("FetchFeedback", home)
        (page,) = (home / UNIT / "feedback").glob("*/*.html")
        own = course.root / "reports" / UNIT / "trainees" / f"{name}.html"
        assert page.read_bytes() == own.read_bytes()
        (listed,) = press("List", home, cached=True)
        assert listed["submissions"][0]["has_local_feedback"]
        assert not listed["submissions"][0]["feedback_updated"]


def test_who_handed_in_nothing_or_is_not_marked_keeps_nobody_from_his_comments(
    round_of_work: dict[str, Path],
    course: Course,
    become: Callable[[str], None],
    runner: Runner,
    tmp_path: Path,
) -> None:
    become("teacher")
    own = Course.at(Path(shutil.copytree(course.root, tmp_path / "course")))
    with (own.root / "class.csv").open("a", encoding="utf-8") as listed:
        listed.write("t003,First3,Last3,\n")
    collect_sent(own, UNIT)
    list(mark_class(own, UNIT, runner=runner))
    shutil.rmtree(own.root / "autograded" / "t001")
    list(write_reports(own, UNIT))
    said = dict(send_feedback(own, UNIT))
    why = f"what was handed in must be marked first; `fuelmarks mark {UNIT}`"
    assert said == {"t001": why, "t002": ""}


def test_a_later_attempt_counts_with_its_own_time_and_a_corrected_time_stays(
    round_of_work: dict[str, Path], course: Course, become: Callable[[str], None]
) -> None:
    become("t001")
    answer(round_of_work["t001"] / UNIT / NOTEBOOK, "Better words.")
    began = datetime.now(UTC)
    press("Submit", round_of_work["t001"])
    become("teacher")
    collect_sent(course, UNIT)
    *_, last = attempts(course, UNIT, "t001")
    assert began <= last.handed_in <= datetime.now(UTC)
    forgiven = datetime(2026, 1, 2, 3, 4, tzinfo=UTC)
    retime(last, forgiven)
    collect_sent(course, UNIT)
    *_, again = attempts(course, UNIT, "t001")
    assert (again.number, again.handed_in) == (last.number, forgiven)


def test_the_instructors_buttons_release_and_collect_too(
    round_of_work: dict[str, Path], course: Course, become: Callable[[str], None]
) -> None:
    become("teacher")
    config = settings(course)
    directory = CourseDirectory(config=config, assignment_id=UNIT)
    exchange = ExchangeFactory(config=config)
    exchange.ReleaseAssignment(coursedir=directory, authenticator=None).start()
    exchange.Collect(coursedir=directory, authenticator=None).start()
    exchange.ReleaseFeedback(coursedir=directory, authenticator=None).start()
    (listed,) = exchange.List(coursedir=directory, authenticator=None).start()
    assert listed["assignment_id"] == UNIT


def test_the_commands_do_the_same(
    round_of_work: dict[str, Path],
    course: Course,
    become: Callable[[str], None],
    capsys: pytest.CaptureFixture[str],
) -> None:
    become("teacher")
    (course.folder("handout", UNIT, "t001") / ".ipynb_checkpoints").mkdir()  # somebody has looked
    here = ["--course", str(course.root)]
    assert main(["hand-out", UNIT, "--release", *here]) == 0
    assert "2 released on the class server, 0 not" in capsys.readouterr().out
    assert main(["collect", UNIT, *here]) == 0
    assert "0 kept of 3 delivered" in capsys.readouterr().out
    assert main(["report", UNIT, "--release", *here]) == 0
    assert "2 given back on the class server, 0 not" in capsys.readouterr().out
    become("t001")
    assert main(["collect", UNIT, *here]) == 2
    assert "must be an instructor, got 't001'" in capsys.readouterr().err
    become("teacher")
    assert main(["grades", UNIT, *here]) == 2
    assert "got no token_url under lti in server.toml" in capsys.readouterr().err


def test_anothers_work_under_ones_own_name_is_told_and_counts_for_nobody(
    desk: Counter,
    round_of_work: dict[str, Path],
    course: Course,
    become: Callable[[str], None],
    tmp_path: Path,
) -> None:
    other = read(round_of_work["t002"] / UNIT / NOTEBOOK)
    write(other, tmp_path / "copied.ipynb")
    answer(tmp_path / "copied.ipynb", "Copied, then changed a little.")
    before = [len(attempts(course, UNIT, name)) for name in ("t001", "t002")]
    sent = wired((tmp_path / "copied.ipynb").read_bytes())
    assert desk.ask("POST", f"hand-ins/{UNIT}", "token-of-t001", sent)[0] == 200
    become("teacher")
    found = [row for row in collect_sent(course, UNIT).rows if row.outcome == "another's"]
    assert [row.words for row in found] == ["is the work of t002, delivered as t001"]
    assert [len(attempts(course, UNIT, name)) for name in ("t001", "t002")] == before
