"""What stands on the page for marking by hand: one written question, and everybody's answer."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from fuelmarks.course.cells import ANSWER_HERE, RUBRIC, ask_id
from fuelmarks.course.course import Course, CourseError, Trainee
from fuelmarks.course.notebook import NotebookNode, grade_id, read
from fuelmarks.course.personal import release_notebook
from fuelmarks.course.rubric import Item, rubric_in
from fuelmarks.gradebook.entered import stored_sources
from fuelmarks.gradebook.pictures import Pictures, pictures_in
from fuelmarks.gradebook.standing import Standing, standings
from fuelmarks.gradebook.written_page import written_html

__all__ = ["Answer", "Question", "answers_to", "question_of", "written_questions"]

SCHEME = "=== BEGIN MARK SCHEME ==="


@dataclass(frozen=True)
class Question:
    """A written question: what is asked, as HTML, and the items of its rubric."""

    unit: str
    name: str
    ask: str
    out_of: float
    rubric: tuple[Item, ...]

    @property
    def title(self) -> str:
        """Return the name as words."""
        return self.name.replace("-", " ").capitalize()

    @property
    def grade_id(self) -> str:
        """Return the name in the gradebook."""
        return f"{self.unit[:2]}-{self.name}"


@dataclass(frozen=True)
class Answer:
    """One trainee's answer as clean HTML (nothing: it was left empty), and where it stands."""

    trainee: Trainee
    html: str
    standing: Standing
    ticked: tuple[bool, ...]

    @property
    def waits(self) -> bool:
        """Say whether nobody has marked it yet."""
        return self.standing.points is None

    @property
    def elsewhere(self) -> bool:
        """Say whether a person gave its points by other means than ticks."""
        return bool(self.html) and not self.waits and self.standing.given is None


def written_questions(course: Course, unit: str) -> tuple[str, ...]:
    """Return the names of the questions of `unit` that are marked by hand."""
    course.text(unit)
    return tuple(_written(course, unit))


def question_of(course: Course, unit: str, name: str) -> Question:
    """Return the question `name` of `unit`; raise `CourseError` if it is none marked by hand."""
    cells = _written(course, unit)
    if name not in cells:
        known = ", ".join(cells) or "none"
        raise CourseError(f"question of {unit} marked by hand must be one of {known}, got {name!r}")
    out_of = float(cells[name].metadata.nbgrader.points)
    source = stored_sources(course, unit).get(ask_id(unit, name), "")
    ask, _, scheme = source.partition(SCHEME)
    return Question(unit, name, written_html(_body(ask)), out_of, rubric_in(scheme, out_of))


def answers_to(course: Course, question: Question) -> Iterator[Answer]:
    """Yield the answers that are there, in the order of the class list."""
    found = standings(course, question.unit, question.grade_id)
    for trainee in course.trainees():
        path = course.notebook("autograded", question.unit, trainee.id)
        if trainee.id in found and path.is_file():
            cells = {grade_id(cell): cell for cell in read(path).cells}
            html = _html(cells.get(question.grade_id), path)
            standing = found[trainee.id]
            yield Answer(trainee, html, standing, _ticked(standing, question.rubric))


def _written(course: Course, unit: str) -> dict[str, NotebookNode]:
    """Return the cells for written answers in the release of `unit`, by question."""
    return {
        grade_id(cell)[3:]: cell
        for cell in release_notebook(course, unit).cells
        if (marks := cell.metadata.get("nbgrader", {})).get("grade")
        and marks.get("solution")
        and cell.cell_type == "markdown"
    }


def _html(cell: NotebookNode | None, path: Path) -> str:
    """Return what was written in a cell of the notebook at `path` as HTML."""
    if cell is None or cell.source.strip() in ("", ANSWER_HERE):
        return ""
    return written_html(cell.source, Pictures(pictures_in(cell.get("attachments")), path.parent))


def _ticked(standing: Standing, rubric: Sequence[Item]) -> tuple[bool, ...]:
    """Return which items of the rubric were ticked, as far as they still read the same."""
    ticks = standing.given.ticks if standing.given else ()
    words = {one.words for one in ticks if one.ticked}
    return tuple(item.words in words for item in rubric)


def _body(ask: str) -> str:
    """Return a question without its heading and without what is only for marking."""
    lines = ask.partition(RUBRIC)[0].strip().splitlines()
    return "\n".join(line for line in lines if not line.startswith("### "))
