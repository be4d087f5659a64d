"""Write the term's book and the record of competence: pages to print, tables for elsewhere."""

import math
from collections.abc import Iterator, Sequence
from pathlib import Path

from fuelmarks.book.competence import Competence, competences
from fuelmarks.book.record import Entry
from fuelmarks.book.slip_table import slip_table
from fuelmarks.book.term import Line, TermBook, term_book
from fuelmarks.book.writing import page, percent, put, table
from fuelmarks.classroom.observed import read_observed
from fuelmarks.course.course import Course
from fuelmarks.course.outcomes import Outcome, in_order, read_outcomes

__all__ = [
    "competence_csv",
    "competence_page",
    "evidence_csv",
    "states",
    "term_csv",
    "write_term",
]

ACROSS = 12
"""How many outcomes stand side by side on A4."""
PEOPLE = ("ID number", "First name", "Last name", "Email address", "Group")
"""Headings by which learning platforms know whose line it is."""
TOTALS = ("Points", "Out of", "Percent", "Missing", "Late", "Waiting", "Retakes")


def write_term(course: Course) -> Iterator[Path]:
    """Write the book of the term and yield the paths, its page first."""
    book, outcomes = term_book(course), read_outcomes(course)
    folder = course.root / "reports"
    yield put(folder / "term.html", page("term.html.j2", book=book, states=states))
    yield put(folder / "term.csv", term_csv(book))
    found = competences(book.records, outcomes, read_observed(course))
    shown = in_order({one.outcome.code for each in found for one in each.standings}, outcomes)
    yield put(folder / "competence.html", competence_page(book, found, shown))
    yield put(folder / "competence.csv", competence_csv(found, shown))
    yield put(folder / "evidence.csv", evidence_csv(found))
    yield put(folder / "slips.csv", table(slip_table(book.records)))
    for one in found:
        own = page("one_competence.html.j2", one=one, records=book.records)
        yield put(folder / "competence" / f"{one.trainee.id}.html", own)


def competence_page(book: TermBook, found: Sequence[Competence], shown: Sequence[Outcome]) -> str:
    """Return the record of the class, with no more outcomes side by side than fit on A4."""
    across = math.ceil(len(shown) / max(1, math.ceil(len(shown) / ACROSS)))
    blocks = [shown[at : at + across] for at in range(0, len(shown), max(1, across))]
    watched = [one.outcome for one in found[0].doing] if found else []
    return page(
        "competence.html.j2", records=book.records, blocks=blocks, found=found, watched=watched
    )


def term_csv(book: TermBook) -> str:
    """Return the book as a table: points of each unit in one column, its state in the next."""
    units = [
        heading
        for record in book.records
        for heading in (f"{record.unit} (of {record.out_of:g})", f"{record.unit} state")
    ]
    rows = [_line(line) for line in book.lines]
    return table([[*PEOPLE, *TOTALS, *units], *rows])


def competence_csv(found: Sequence[Competence], shown: Sequence[Outcome]) -> str:
    """Return the record of competence: shares in percent, and what was watched with its day."""
    watched = [one.outcome.code for one in found[0].doing] if found else []
    head = ["id", "first name", "last name", *(one.code for one in shown), *watched]
    rows = [
        [
            *(each.trainee.id, each.trainee.first_name, each.trainee.last_name),
            *(percent(_share(each, one.code)) for one in shown),
            *(one.brief for one in each.doing),
        ]
        for each in found
    ]
    return table([head, *rows])


def evidence_csv(found: Sequence[Competence]) -> str:
    """Return on what each outcome rests: a line for each trainee, outcome, and what shows it."""
    head = ["id", "outcome", "unit", "question", "points", "out of", "how", "date"]
    head += ["reading", "result", "watched by", "line"]
    rows = [row for each in found for row in (*_answered(each), *_watched(each))]
    return table([head, *rows])


def _answered(each: Competence) -> Iterator[list[str]]:
    """Yield a line for every question that counts for an outcome of knowing."""
    for standing in each.standings:
        for one in standing.evidence:
            yield [
                *(each.trainee.id, standing.outcome.code, one.unit, one.title),
                *(f"{one.points:g}", f"{one.out_of:g}", one.how, one.day, "", "", "", ""),
            ]


def _watched(each: Competence) -> Iterator[list[str]]:
    """Yield a line for every piece of work that was watched."""
    for done in each.doing:
        for one in done.watched:
            yield [
                *(each.trainee.id, done.outcome.code, "", "", "", "", "watched", one.seen.day),
                *(one.seen.reading, one.seen.result, one.seen.watched_by, str(one.number)),
            ]


def states(entry: Entry) -> list[str]:
    """Return what is to be said of one trainee's unit, the weightiest first."""
    if not entry.rows:
        return ["missing" if entry.missing else entry.reason]
    waiting = sum(row.points is None for row in entry.rows)
    came = entry.came
    said = [f"{waiting} waiting" if waiting else ""]
    said += [came.lateness if came.is_late else ""]
    said += [f"{entry.penalty:g} less" if entry.penalty else ""]
    said += [f"attempt {came.attempt} of {came.kept}" if came.kept > 1 else ""]
    said += [f"attempt {came.waits} not marked yet" if came.waits else ""]
    said += ["on paper" if any(row.on_paper for row in entry.rows) else ""]
    return [one for one in said if one]


def _line(line: Line) -> list[str]:
    """Return one trainee's line of the table."""
    one = line.trainee
    share = "" if line.share is None else f"{100 * line.share:.1f}"
    totals = [f"{line.points:g}", f"{line.out_of:g}", share]
    counts = [str(count) for count in (line.missing, line.late, line.waiting, line.retakes)]
    cells: list[str] = []
    for entry in line.entries:
        cells += [f"{entry.points:g}" if entry.out_of else ""]
        cells += ["; ".join(states(entry)) or "complete"]
    people = [one.id, one.first_name, one.last_name, one.email, one.group]
    return [*people, *totals, *counts, *cells]


def _share(each: Competence, code: str) -> float | None:
    """Return the share of an outcome's points, None if nothing shows it."""
    standing = each.standing(code)
    return standing.share if standing else None
