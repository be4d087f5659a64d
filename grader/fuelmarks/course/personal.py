"""A unit's notebook with one person's numbers: a trainee's, or of one who learns alone."""

from fuelmarks.course.cells import (
    ask_id,
    ask_source,
    begin_id,
    begin_source,
    bench_id,
    bench_source,
    card_id,
)
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import NotebookNode, grade_id, notebook, read, with_text
from fuelmarks.questions import ExerciseSet, Sheet, draw, seed_of

__all__ = [
    "STUDY_KEY",
    "card_in",
    "personal",
    "release_notebook",
    "sheet_of",
    "study_seed",
    "with_rubrics",
]

STUDY_KEY = "study"
"""The key of a sheet in study mode, which everybody may know."""


def release_notebook(course: Course, unit: str) -> NotebookNode:
    """Return the release of `unit`; raise `CourseError` if it has not been built."""
    path = course.notebook("release", unit)
    if not path.exists():
        raise CourseError(f"{unit} must be built before it is used, got no file {path}")
    try:
        return read(path)
    except (ValueError, KeyError, AttributeError) as error:
        raise CourseError(
            f"{path} must be a whole notebook, got: {error}; build it anew"
        ) from error


def card_in(release: NotebookNode, unit: str) -> str:
    """Return the text of the spec card that a release lays down; nothing if it has none."""
    cards = (cell.source for cell in release.cells if grade_id(cell) == card_id(unit))
    return str(next(cards, "")).partition("\n")[2]


def sheet_of(course: Course, exercise_set: ExerciseSet, trainee: str) -> Sheet:
    """Return the numbers that belong to `trainee` this term."""
    return draw(exercise_set, seed_of(trainee, exercise_set.lot, course.key))


def personal(
    release: NotebookNode, exercise_set: ExerciseSet, sheet: Sheet, trainee: str
) -> NotebookNode:
    """Return `release` with the numbers of `trainee` in its set-up cell and its questions."""
    unit = exercise_set.unit
    _check_built(release, exercise_set)
    card = card_in(release, unit)
    own = {ask_id(unit, one.id): ask_source(one, sheet, card) for one in exercise_set}
    for one in exercise_set:
        own |= {bench_id(unit, one.id): code for code in bench_source(one, sheet)}
    rig = release.metadata.get("fuelcircuits", {}).get("rig", "")
    own[begin_id(unit)] = begin_source(exercise_set, sheet, trainee, "class", rig)
    cells = [with_text(cell, own.get(grade_id(cell), cell.source)) for cell in release.cells]
    return notebook(cells, release.metadata)


def _check_built(release: NotebookNode, exercise_set: ExerciseSet) -> None:
    """Raise `CourseError` if the questions were changed since the release was built."""
    cells = {grade_id(cell): cell for cell in release.cells if grade_id(cell)}
    unit = exercise_set.unit
    worth = {f"{unit[:2]}-{one.id}": one.points for one in exercise_set}
    asked = {name for name, cell in cells.items() if _asks_a_machine(cell)}
    for name in (*worth, *sorted(asked - worth.keys())):
        now, built = (
            worth.get(name),
            cells[name].metadata.nbgrader.points if name in asked else None,
        )
        if now != built:
            had = "none" if built is None else f"{built:g}"
            is_now = "no question" if now is None else f"worth {now:g} points"
            rule = f"{unit} must be built again: {name[3:]} is {is_now} now"
            raise CourseError(f"{rule}, got {had} in the release")


def _asks_a_machine(cell: NotebookNode) -> bool:
    """Return whether a cell hands over what a machine marks: nbgrader gives it all points else."""
    return cell.cell_type == "code" and bool(cell.metadata.nbgrader.get("grade"))


def with_rubrics(release: NotebookNode, stored: dict[str, str]) -> NotebookNode:
    """Return `release` with the locked text nbgrader keeps, which holds the rubrics."""
    for cell in release.cells:
        if cell.metadata.get("nbgrader", {}).get("locked"):
            cell.source = stored.get(grade_id(cell), cell.source)
    return release


def study_seed(trainee: str, exercise_set: ExerciseSet) -> int:
    """Return the seed of a study-mode sheet."""
    return seed_of(trainee, exercise_set.lot, STUDY_KEY)
