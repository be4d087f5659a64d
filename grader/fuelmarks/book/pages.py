"""The instructor's book on a class: pages to read and print, and tables to import elsewhere.

Every page is one file of HTML without scripts, and says in words what it shows in colour.
"""

import csv
import io
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fuelmarks.book.class_figures import (
    bins,
    family_counts,
    mastery,
    question_figures,
    slip_counts,
)
from fuelmarks.book.class_record import ClassRecord, Entry, class_record
from fuelmarks.book.slip_table import slip_table
from fuelmarks.course.course import Course, CourseError, Trainee
from fuelmarks.course.templates import templates
from fuelmarks.marking.wording import LEVELS, level, short, words

__all__ = [
    "class_page",
    "competence_page",
    "marks_csv",
    "trainee_page",
    "write_reports",
]


@dataclass(frozen=True)
class Outcome:
    """Something a trainee can do afterwards."""

    code: str
    title: str


def write_reports(course: Course, unit: str) -> Iterator[Path]:
    """Write all reports on `unit` and yield their paths, the class page first."""
    record, outcomes = class_record(course, unit), read_outcomes(course)
    if not record.marked:
        raise CourseError(f"{unit} must be marked before it is reported, got no results")
    folder = course.root / "reports" / unit
    yield _write(folder / "class.html", class_page(record, outcomes))
    yield _write(folder / "marks.csv", marks_csv(record))
    for entry in record.entries:
        page = trainee_page(record, entry, outcomes)
        yield _write(folder / "trainees" / f"{entry.trainee.id}.html", page)
    records = [record if one == unit else class_record(course, one) for one in _marked(course)]
    yield _write(course.root / "reports" / "competence.html", competence_page(records, outcomes))
    yield _write(course.root / "reports" / "competence.csv", competence_csv(records, outcomes))
    yield _write(course.root / "reports" / "slips.csv", _csv(slip_table(records)))


def read_outcomes(course: Course) -> dict[str, Outcome]:
    """Return the outcomes of the course by code; a course need not have any."""
    path = course.root / "outcomes.toml"
    try:
        read = tomllib.loads(path.read_text(encoding="utf-8")) if path.exists() else {}
    except tomllib.TOMLDecodeError as error:
        raise CourseError(f"{path} must be TOML, got: {error}") from error
    return {code: Outcome(code, str(entry.get("title", code))) for code, entry in read.items()}


def class_page(record: ClassRecord, outcomes: dict[str, Outcome]) -> str:
    """Return the class page."""
    return _page(
        "class.html.j2",
        record=record,
        outcomes=_used(record, outcomes),
        figures=question_figures(record),
        slips=slip_counts(record),
        families=family_counts(record),
        bins=bins(record),
        needs=_needs(record, outcomes),
    )


def trainee_page(record: ClassRecord, entry: Entry, outcomes: dict[str, Outcome]) -> str:
    """Return the page that one trainee gets back."""
    used = _used(record, outcomes)
    levels = [(one, mastery(entry, one.code)) for one in used]
    return _page("trainee.html.j2", record=record, entry=entry, levels=levels)


def competence_page(records: Sequence[ClassRecord], outcomes: dict[str, Outcome]) -> str:
    """Return the record of competence over all units marked so far."""
    table = _competence(records)
    codes = _shown(table, outcomes)
    return _page("competence.html.j2", records=records, codes=codes, table=table)


def competence_csv(records: Sequence[ClassRecord], outcomes: dict[str, Outcome]) -> str:
    """Return the record of competence as a table, shares in percent."""
    table = _competence(records)
    codes = [one.code for one in _shown(table, outcomes)]
    rows = [
        [one.id, one.first_name, one.last_name, *(_percent(shares.get(code)) for code in codes)]
        for one, shares in table
    ]
    return _csv([["id", "first name", "last name", *codes], *rows])


def marks_csv(record: ClassRecord) -> str:
    """Return the marks as learning-management systems import them: one line a trainee."""
    titles = [f"{one.title} (of {one.out_of:g})" for one in record.questions]
    head = ["id", "first name", "last name", "email", "points", "out of", "percent", "state"]
    head += ["handed in", "late", "attempt", "late penalty"]
    return _csv([[*head, *titles], *(_marks_row(record, entry) for entry in record.entries)])


def _marks_row(record: ClassRecord, entry: Entry) -> list[str]:
    """Return one trainee's line of the marks."""
    one, total = entry.trainee, ["", f"{record.out_of:g}", ""]
    state = entry.reason or ("to be completed by hand" if entry.waits else "complete")
    if entry.came.waits:
        state += f"; attempt {entry.came.waits} not marked yet"
    came = entry.came
    times = [came.when, came.lateness, str(came.attempt or ""), f"{entry.penalty:g}"]
    if entry.rows:
        percent = f"{100 * entry.points / record.out_of:.1f}"
        total = [f"{entry.points:g}", f"{record.out_of:g}", percent]
    points = ["" if row.points is None else f"{row.points:g}" for row in entry.rows]
    points += [""] * (len(record.questions) - len(points))
    return [one.id, one.first_name, one.last_name, one.email, *total, state, *times, *points]


def _used(record: ClassRecord, outcomes: dict[str, Outcome]) -> list[Outcome]:
    """Return the outcomes that the unit's questions serve, in the order of the list."""
    return _named({code for one in record.questions for code in one.outcomes}, outcomes)


def _shown(
    table: Sequence[tuple[Trainee, dict[str, float]]], outcomes: dict[str, Outcome]
) -> list[Outcome]:
    """Return the outcomes on which the record of competence says anything."""
    return _named({code for _, shares in table for code in shares}, outcomes)


def _named(codes: set[str], outcomes: dict[str, Outcome]) -> list[Outcome]:
    """Return the outcomes with these codes in the order of the list, strangers last."""
    known = [outcomes[code] for code in outcomes if code in codes]
    return known + [Outcome(code, code) for code in sorted(codes - set(outcomes))]


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


def _competence(records: Sequence[ClassRecord]) -> list[tuple[Trainee, dict[str, float]]]:
    """Return for each trainee the share of the points by outcome, over all `records`."""
    table = []
    for entries in zip(*(record.entries for record in records), strict=True):
        rows = [row for entry in entries for row in entry.rows]
        both = Entry(entries[0].trainee, tuple(rows))
        codes = dict.fromkeys(code for row in rows for code in row.question.outcomes)
        table.append((entries[0].trainee, {code: mastery(both, code) or 0.0 for code in codes}))
    return table


def _marked(course: Course) -> list[str]:
    """Return the units of which anything has been marked."""
    return [
        unit for unit in course.units() if any(course.root.glob(f"autograded/*/{unit}/*.ipynb"))
    ]


def _page(template: str, **values: Any) -> str:
    """Return one page."""
    pages = templates()
    pages.filters.update(words=words, short=short, level=level, percent=_percent, number=_number)
    pages.globals.update(mastery=mastery)
    return pages.get_template(template).render(**values)


def _percent(share: float | None) -> str:
    """Return a share as a whole number of percent."""
    return "" if share is None else f"{100 * share:.0f}"


def _number(points: float | None) -> str:
    """Return points as one writes them."""
    return "" if points is None else f"{points:g}"


def _csv(rows: list[list[str]]) -> str:
    """Return `rows` as CSV in which no cell can act as a formula."""
    text = io.StringIO()
    safe = [
        [f"'{cell}" if cell[:1] in ("=", "+", "-", "@", "\t") else cell for cell in row]
        for row in rows
    ]
    csv.writer(text, lineterminator="\r\n").writerows(safe)
    return text.getvalue()


def _write(path: Path, text: str) -> Path:
    """Write one report."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="")
    return path
