"""The term's book counts what is marked, says what is not, and the record what it rests on."""

import csv
import io
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.book.competence import competences
from fuelmarks.book.record import Entry
from fuelmarks.book.term import term_book
from fuelmarks.book.term_pages import competence_csv, evidence_csv, states, term_csv, write_term
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.commands.cli import main
from fuelmarks.course.course import Course, CourseError
from fuelmarks.gradebook.book import Ledger
from fuelmarks.gradebook.given import Given, Tick
from fuelmarks.runner import Runner

from tests.book.long_term import DAY, OUTCOMES, long_term
from tests.small_unit import UNIT, new_course

BOOK = long_term()
ROWS = list(csv.DictReader(io.StringIO(term_csv(BOOK))))


def entries() -> Iterator[tuple[int, Entry]]:
    for line in BOOK.lines:
        yield from enumerate(line.entries)


def said(entry: Entry) -> str:
    return "; ".join(states(entry))


def test_a_line_for_everyone_with_headings_that_platforms_know() -> None:
    assert list(ROWS[0])[:5] == ["ID number", "First name", "Last name", "Email address", "Group"]
    assert [row["ID number"] for row in ROWS] == [f"t{number:03}" for number in range(1, 25)]
    assert len(ROWS[0]) == 5 + 7 + 2 * 13


def test_points_and_percent_count_only_what_is_marked() -> None:
    for row, line in zip(ROWS, BOOK.lines, strict=True):
        marked = [r for entry in line.entries for r in entry.rows if r.points is not None]
        out_of = sum(r.question.out_of for r in marked)
        points = sum(r.points or 0 for r in marked) - sum(e.penalty for e in line.entries)
        assert (float(row["Points"]), float(row["Out of"])) == (points, out_of)
        assert float(row["Percent"]) == pytest.approx(100 * points / out_of, abs=0.05)


def test_what_is_missing_late_waiting_and_done_again_is_counted() -> None:
    for row, line in zip(ROWS, BOOK.lines, strict=True):
        cells = [said(entry) for entry in line.entries]
        assert int(row["Missing"]) == sum(cell == "missing" for cell in cells)
        assert int(row["Late"]) == sum("late by 1 d 6 h" in cell for cell in cells)
        assert int(row["Waiting"]) == sum("1 waiting" in cell for cell in cells)
        assert int(row["Retakes"]) == 2 * sum("attempt 3 of 3" in cell for cell in cells)


def test_every_state_occurs_and_is_said() -> None:
    everything = {said(entry) for _, entry in entries()}
    assert everything == {
        "",
        "missing",
        "1 waiting",
        "late by 1 d 6 h; 1 less",
        "attempt 3 of 3",
        "on paper",
    }


def test_a_unit_without_work_has_no_points_and_is_not_zero() -> None:
    for number, entry in entries():
        row = next(row for row in ROWS if row["ID number"] == entry.trainee.id)
        cell = row[f"{number:02}-unit (of 16)"]
        assert (cell == "") == entry.missing


def test_groups_have_means_of_those_who_have_a_mark() -> None:
    morning, evening = BOOK.groups
    assert (morning.name, len(morning.lines), evening.name) == ("Morning", 12, "Evening")
    shares = [line.entries[3].share for line in morning.lines if line.entries[3].share is not None]
    assert morning.share_in(3) == pytest.approx(sum(shares) / len(shares))


def test_each_outcome_rests_on_questions_of_a_day() -> None:
    found = competences(BOOK.records, OUTCOMES)
    rows = list(csv.DictReader(io.StringIO(evidence_csv(found))))
    assert {row["how"] for row in rows} == {"in the notebook", "on paper"}
    assert all(row["date"] >= f"{DAY:%Y-%m-%d}" for row in rows)
    for row in rows:
        each = next(one for one in found if one.trainee.id == row["id"])
        standing = each.standing(row["outcome"])
        assert standing is not None
        assert row["question"] in [one.title for one in standing.evidence]
    shown = list(OUTCOMES.values())
    table = list(csv.DictReader(io.StringIO(competence_csv(found, shown))))
    first = found[0].standing("FAM-5")
    assert first is not None
    assert first.share is not None
    assert table[0]["FAM-5"] == f"{100 * first.share:.0f}"


def test_a_written_answer_stands_in_the_record_whether_marked_or_not() -> None:
    found = competences(BOOK.records, OUTCOMES)
    units = sum(not entry.missing for entry in BOOK.lines[0].entries)
    assert len(found[0].written) == units
    assert {one.marked != "" for each in found for one in each.written} == {True, False}


@pytest.fixture
def course(tmp_path: Path, runner: Runner) -> Course:
    """A class of three: one is marked, one wrote on paper, one has not been seen."""
    course = new_course(tmp_path, trainees=3)
    build(course, UNIT)
    first = next(iter(hand_out(course, UNIT)))
    shutil.copytree(first.path.parent, course.folder("submitted", UNIT, first.trainee))
    words = "*Write your answer here.*"
    path = course.notebook("submitted", UNIT, "t001")
    path.write_text(path.read_text().replace(words, "The float lifts, <b>and</b> $F=pA$."))
    assert [done.state for done in mark_class(course, UNIT, runner=runner)] == ["marked"]
    return course


def files(course: Course) -> dict[str, str]:
    paths = list(write_term(course))
    return {str(path.relative_to(course.root / "reports")): path.read_text() for path in paths}


def test_the_record_shows_the_answer_with_its_ticked_rubric(course: Course) -> None:
    ticks = (Tick(3, "says it", True), Tick(1, "with a number", False))
    with Ledger(course, UNIT) as ledger:
        ledger.give("t001", "90-say-it", Given("page", 3, DAY, ticks), "Good.")
    page = files(course)["competence/t001.html"]
    assert "The float lifts, <b>and</b>" in page
    assert 'aria-label="found">☑</span> says it' in page
    assert 'aria-label="not found">☐</span> with a number' in page
    assert f"marked {DAY.astimezone():%Y-%m-%d}" in page
    assert "3 of 4" in page


def test_marks_from_paper_are_typed_in_and_shown_as_such(
    course: Course, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["paper-marks", UNIT, "--course", str(course.root), "--on", "2026-12-04"]
    assert main([*words, "--trainee", "t002", "seat-area=2", "needle-force=3,5"]) == 0
    assert "t002 needle-force: 3.5 of 4, before nothing" in capsys.readouterr().out
    row = list(csv.DictReader(io.StringIO(term_csv(term_book(course)))))[1]
    assert (row["Points"], row["Out of"], row["Percent"]) == ("5.5", "6", "91.7")
    assert row[f"{UNIT} state"] == "2 waiting; on paper"
    pages = files(course)
    said = re.sub(r"<[^>]+>", "", pages["competence/t002.html"])
    assert "3.5 of 4, on paper, 2026-12-04" in " ".join(said.split())
    assert "on paper" in pages["term.html"]
    assert main([*words, "--trainee", "t002", "seat-area=-"]) == 0
    assert "t002 seat-area: 2 on paper is taken back" in capsys.readouterr().out


def test_marks_from_paper_come_as_a_table_all_or_none(
    course: Course, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "marks.csv"
    words = ["paper-marks", UNIT, "--course", str(course.root), "--table", str(path)]
    path.write_text("id;seat-area;Say it\nt002;2;3,5\nt003;9;\n", encoding="utf-8-sig")
    assert main(words) == 2
    assert "marks.csv, line 3: points of t003 for seat-area must be 0 to 2, got '9'" in (
        capsys.readouterr().err
    )
    assert [entry.missing for entry in term_book(course).records[0].entries] == [False, True, True]
    path.write_text("id;seat-area;Say it\nt001;1;\nt002;2;3,5\n")
    assert main(words) == 0
    first, second, _ = term_book(course).records[0].entries
    assert [row.points for row in second.rows] == [2, None, None, 3.5]
    assert (first.rows[0].verdict, first.rows[0].points) == ("on paper", 1)
    assert first.rows[1].verdict != "on paper"


def test_only_a_mark_from_paper_is_taken_back(
    course: Course, capsys: pytest.CaptureFixture[str]
) -> None:
    ticks = (Tick(3, "says it", True),)
    with Ledger(course, UNIT) as ledger:
        ledger.give("t001", "90-say-it", Given("page", 3, DAY, ticks), "Good.")
    words = ["paper-marks", UNIT, "--course", str(course.root), "--trainee", "t001"]
    for name in ("say-it", "seat-area"):
        assert main([*words, "needle-force=1", f"{name}=-"]) == 2
        said = f"a mark that is taken back must be one from paper, got none of t001 for {name}"
        assert said in capsys.readouterr().err
    first = term_book(course).records[0].entries[0]
    assert [row.points for row in first.rows if row.on_paper or row.given] == [3]


UNSOUND = {
    "a decimal comma that parts a cell": (
        "id,seat-area,needle-force\nt002,1,5,2\n",
        "line 2: a row must have no more than the 3 columns of the headings, got 't002, 1, 5, 2'",
    ),
    "a trainee twice": (
        "id,seat-area\nt002,1\nt003,2\nt002,2\n",
        "line 4: a mark must be typed in once, got seat-area of t002 again",
    ),
    "a question twice": (
        "id,seat-area,Seat area\nt002,1,2\n",
        "line 2: a mark must be typed in once, got seat-area of t002 again",
    ),
    "a heading twice": (
        "id,seat-area,seat-area\nt002,1,2\n",
        "line 2: a mark must be typed in once, got seat-area of t002 again",
    ),
    "two columns of trainees": (
        "id,seat-area,id\nt002,1,t003\n",
        "line 1: one column alone must hold the id, got 'id, seat-area, id'",
    ),
}


@pytest.mark.parametrize(("text", "said"), UNSOUND.values(), ids=UNSOUND)
def test_a_table_in_which_a_mark_could_be_lost_is_refused(
    course: Course, tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, said: str
) -> None:
    path = tmp_path / "marks.csv"
    path.write_text(text)
    assert main(["paper-marks", UNIT, "--course", str(course.root), "--table", str(path)]) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--trainee", "t002", "seat-area=1", "Seat-Area=2"], "typed in once, got seat-area of"),
        (["--trainee", "t002", "--table", "marks.csv"], "or in --table FILE, got both"),
        (["--trainee", "t009", "seat-area=1"], "trainee must be in class.csv, got 't009'"),
        (["--trainee", "t002", "no-such=1"], "question must be one of seat-area, "),
        (["--trainee", "t002", "seat-area"], "must be like QUESTION=POINTS, got 'seat-area'"),
        (["--trainee", "t002", "seat-area=many"], "must be 0 to 2, got 'many'"),
        (["--trainee", "t002", "seat-area=nan"], "must be 0 to 2, got 'nan'"),
        (["--trainee", "t002"], "as --trainee ID QUESTION=POINTS, or in --table FILE, got neither"),
        (["--trainee", "t002", "seat-area=1", "--on", "soon"], "date must be like 2026-12-04"),
    ],
)
def test_what_is_no_mark_is_refused_in_words(
    course: Course, words: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["paper-marks", UNIT, "--course", str(course.root), *words]) == 2
    assert said in capsys.readouterr().err


def test_the_tables_begin_with_the_mark_that_spreadsheets_want(course: Course) -> None:
    for path in write_term(course):
        if path.suffix == ".csv":
            assert path.read_bytes().startswith(b"\xef\xbb\xbf"), path.name


def test_a_term_in_which_nothing_has_come_in_says_so(tmp_path: Path) -> None:
    course = new_course(tmp_path)
    build(course, UNIT)
    with pytest.raises(CourseError, match="must be collected or marked before the term"):
        term_book(course)
