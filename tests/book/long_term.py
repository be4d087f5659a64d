"""A term of many units and a class of two groups, made without a course or a gradebook."""

from datetime import UTC, datetime, timedelta

from fuelmarks.book.came import Came
from fuelmarks.book.record import NOTHING, ClassRecord, Entry, Question, Row
from fuelmarks.book.term import Group, Line, TermBook
from fuelmarks.course.class_list import Trainee
from fuelmarks.course.outcomes import Outcome
from fuelmarks.gradebook.given import Given, Tick
from fuelmarks.questions import ExerciseSet

__all__ = ["DAY", "OUTCOMES", "long_term"]

DAY = datetime(2026, 10, 5, 16, 0, tzinfo=UTC)
OUTCOMES = {
    f"FAM-{number}": Outcome(f"FAM-{number}", f"Works out the thing of number {number} and says so")
    for number in range(1, 50)
}
TICKS = (Tick(2, "the level is a balance.", True), Tick(2, "why it smells.", False))
WORDS = "<p>The float lifts until what comes in equals what goes out. <strong>So.</strong></p>"


def long_term(units: int = 13, trainees: int = 24) -> TermBook:
    """Return the book of a term in which everything that can happen to a trainee happens."""
    people = [
        Trainee(f"t{number:03}", f"First{number}", f"Floatwell-Needlesworth{number}", "", group)
        for number in range(1, trainees + 1)
        for group in ("Morning" if number % 2 else "Evening",)
    ]
    records = tuple(_record(number, people) for number in range(units))
    lines = [Line(entries) for entries in zip(*(one.entries for one in records), strict=True)]
    groups = tuple(
        Group(name, tuple(line for line in lines if line.trainee.group == name))
        for name in ("Morning", "Evening")
    )
    return TermBook(records, groups)


def _record(unit: int, people: list[Trainee]) -> ClassRecord:
    """Return the record of one unit."""
    codes = [f"FAM-{1 + (4 * unit + at) % 49}" for at in range(4)]
    questions = (
        *(Question(at + 1, f"question-{at}", 3, (code,)) for at, code in enumerate(codes)),
        Question(5, "say-it", 4, by_hand=True),
    )
    entries = tuple(_entry(unit, at, one, questions) for at, one in enumerate(people))
    name, title = f"{unit:02}-unit", f"Circuit number {unit}"
    return ClassRecord(name, title, ExerciseSet(name, title, (), ()), questions, entries)


def _entry(unit: int, at: int, trainee: Trainee, questions: tuple[Question, ...]) -> Entry:
    """Return what one trainee has in one unit: missing, late, on paper, waiting, or all done."""
    luck = (7 * unit + 3 * at) % 11
    handed_in = DAY + timedelta(days=7 * unit)
    if luck == 0:
        return Entry(trainee, reason=NOTHING)
    paper = Given("paper", 3, handed_in) if luck == 1 else None
    rows = [
        Row(one, float((luck + one.number) % 4), "right", given=paper) for one in questions[:-1]
    ]
    waits = luck == 2
    given = None if waits else Given("page", 2, handed_in + timedelta(days=2), TICKS)
    points = None if waits else 2.0
    rows.append(
        Row(questions[-1], points, "marked by hand", "Well said.", written=WORDS, given=given)
    )
    late = timedelta(hours=30) if luck == 3 else timedelta(0)
    kept = 3 if luck == 4 else 1
    came = Came() if paper else Came(handed_in, late, kept, kept)
    return Entry(trainee, tuple(rows), penalty=1.0 if luck == 3 else 0.0, came=came)
