"""What a class has done in one unit: pages to read and print, and a table to import elsewhere.

Every page is one file of HTML without scripts, and says in words what it shows in colour.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from fuelmarks.book.alike import alike
from fuelmarks.book.class_figures import (
    bins,
    family_counts,
    mastery,
    question_figures,
    slip_counts,
)
from fuelmarks.book.class_record import class_record
from fuelmarks.book.record import ClassRecord, Entry
from fuelmarks.book.spread import foretold_rows, predictions_table, spreads
from fuelmarks.book.writing import page, put, table
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.outcomes import Outcome, in_order, read_outcomes
from fuelmarks.marking.wording import LEVELS, level

__all__ = ["class_page", "marks_csv", "trainee_page", "write_reports"]


def write_reports(course: Course, unit: str) -> Iterator[Path]:
    """Write all reports on `unit` and yield their paths, the class page first."""
    record, outcomes = class_record(course, unit), read_outcomes(course)
    if not record.marked:
        raise CourseError(f"{unit} must be marked before it is reported, got no results")
    folder = course.root / "reports" / unit
    yield put(folder / "class.html", class_page(record, outcomes))
    yield put(folder / "marks.csv", marks_csv(record))
    if record.asked:
        yield put(folder / "predictions.csv", table(predictions_table(record)))
    for entry in record.entries:
        own = trainee_page(record, entry, outcomes)
        yield put(folder / "trainees" / f"{entry.trainee.id}.html", own)


def class_page(record: ClassRecord, outcomes: dict[str, Outcome]) -> str:
    """Return the class page."""
    return page(
        "class.html.j2",
        record=record,
        outcomes=_used(record, outcomes),
        figures=question_figures(record),
        slips=slip_counts(record),
        families=family_counts(record),
        bins=bins(record),
        needs=_needs(record, outcomes),
        spreads=spreads(record),
        pairs=alike(record),
    )


def trainee_page(record: ClassRecord, entry: Entry, outcomes: dict[str, Outcome]) -> str:
    """Return the page that one trainee gets back."""
    used = _used(record, outcomes)
    levels = [(one, mastery(entry, one.code)) for one in used]
    foretold = foretold_rows(record, entry)
    return page("trainee.html.j2", record=record, entry=entry, levels=levels, foretold=foretold)


def marks_csv(record: ClassRecord) -> str:
    """Return the marks as learning-management systems import them: one line a trainee.

    Percent is that of the points that could be earned where anything is marked.
    """
    titles = [f"{one.title} (of {one.out_of:g})" for one in record.questions]
    head = ["id", "first name", "last name", "email", "points", "out of", "marked", "percent"]
    head += ["state", "handed in", "late", "attempt", "late penalty"]
    return table([[*head, *titles], *(_marks_row(record, entry) for entry in record.entries)])


def _marks_row(record: ClassRecord, entry: Entry) -> list[str]:
    """Return one trainee's line of the marks."""
    one, total = entry.trainee, ["", f"{record.out_of:g}", "", ""]
    state = entry.reason or ("to be completed by hand" if entry.waits else "complete")
    if entry.came.waits:
        state += f"; attempt {entry.came.waits} not marked yet"
    came = entry.came
    times = [came.when, came.lateness, str(came.attempt or ""), f"{entry.penalty:g}"]
    if entry.rows:
        percent = "" if entry.share is None else f"{100 * entry.share:.1f}"
        total = [f"{entry.points:g}", f"{record.out_of:g}", f"{entry.out_of:g}", percent]
    points = ["" if row.points is None else f"{row.points:g}" for row in entry.rows]
    points += [""] * (len(record.questions) - len(points))
    return [one.id, one.first_name, one.last_name, one.email, *total, state, *times, *points]


def _used(record: ClassRecord, outcomes: dict[str, Outcome]) -> list[Outcome]:
    """Return the outcomes that the unit's questions serve, in the order of the list."""
    return in_order({code for one in record.questions for code in one.outcomes}, outcomes)


def _needs(record: ClassRecord, outcomes: dict[str, Outcome]) -> list[tuple[Outcome, Any]]:
    """Return for each outcome the trainees by how far they are."""
    found = []
    for one in _used(record, outcomes):
        groups: dict[str, list[str]] = {word: [] for _, word in LEVELS}
        for entry in record.marked:
            word = level(mastery(entry, one.code))
            groups.setdefault(word, []).append(entry.trainee.name)
        found.append((one, groups))
    return found
