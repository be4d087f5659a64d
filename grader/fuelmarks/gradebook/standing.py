"""How far marking by hand has got: what each trainee's answer to one question has by now."""

from dataclasses import dataclass

from fuelmarks.course.course import Course
from fuelmarks.gradebook.given import Given, given_to
from fuelmarks.gradebook.hand_marks import add_tables, digest_of
from fuelmarks.gradebook.opening import in_words, open_gradebook

__all__ = ["Standing", "standings"]


@dataclass(frozen=True)
class Standing:
    """Points (None: it waits), comment, digest of the text that is entered, how it was marked."""

    points: float | None
    comment: str = ""
    digest: str = ""
    given: Given | None = None


@in_words()
def standings(course: Course, unit: str, question: str) -> dict[str, Standing]:
    """Return by trainee where the answer to `question` (its name in the gradebook) stands."""
    book = open_gradebook(course)
    found: dict[str, Standing] = {}
    try:
        add_tables(book.engine)
        for sheet in book.notebook_submissions(unit, unit):
            grade = next(one for one in sheet.grades if one.name == question)
            notes = [one.manual_comment for one in sheet.comments if one.name == question]
            known = grade.manual_score if grade.manual_score is not None else grade.auto_score
            found[sheet.student.id] = Standing(
                points=None if known is None else float(known),
                comment="".join(note or "" for note in notes),
                digest=digest_of(book.db, grade.id),
                given=given_to(book.db, [grade]).get(question),
            )
    finally:
        book.close()
    return found
