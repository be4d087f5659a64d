"""The notebook cells that a directive becomes, with nbgrader's metadata and steady ids.

What differs from trainee to trainee, the set-up cell and the question, has its text made by
`begin_source` and `ask_source`: the build, the hand-out and the marking use the same two.
"""

from typing import Any

from fuelcircuits.answer_sheet.sheet import Mode
from fuelcircuits.benches import class_name
from fuelcircuits.drawings.picture import Picture
from fuelcircuits.quantities.settings_text import Dial

from fuelmarks.course.notebook import Kind, NotebookNode, new_cell
from fuelmarks.questions import (
    Adjustment,
    Choice,
    Driven,
    Exercise,
    ExerciseSet,
    Selection,
    Sheet,
)
from fuelmarks.questions.frame.drawing import right_code
from fuelmarks.questions.frame.sketch import Sketch

__all__ = [
    "ANSWER_HERE",
    "ask_id",
    "ask_source",
    "begin_cells",
    "begin_id",
    "begin_source",
    "bench_id",
    "bench_source",
    "card_id",
    "exercise_cells",
    "sketch_picture",
    "written_cells",
]

ANSWER_HERE = "*Write your answer here.*"
TO_SET = (
    "Set the bench below with the controls named here, and leave the others alone. Then write down "
    "in the answer's cell where each of them stands, for what you move by hand is not kept; the "
    "text under *Share this setting* does as well. What the bench reads there is worked out anew."
)
RUBRIC = "### Rubric"
NOBODYS = "*This question counts for nobody: {why}*"


def begin_id(unit: str) -> str:
    """Return the grade id of the set-up cell of `unit`."""
    return f"{unit[:2]}-begin"


def card_id(unit: str) -> str:
    """Return the grade id of the cell that lays down the card of `unit`."""
    return f"{unit[:2]}-card"


def ask_id(unit: str, name: str) -> str:
    """Return the grade id of the question cell of an exercise of `unit`."""
    return f"{unit[:2]}-{name}-ask"


def bench_id(unit: str, name: str) -> str:
    """Return the grade id of the cell that lays out the bench of an exercise of `unit`."""
    return f"{unit[:2]}-{name}-bench"


def begin_source(
    exercise_set: ExerciseSet, sheet: Sheet, trainee: str, mode: Mode, rig: str = ""
) -> str:
    """Return the set-up code: imports, the answer sheet, the rig, the trainee's givens."""
    givens = [
        f"{given.name} = {sheet.givens_shown[given.name].literal}  # {given.meaning}"
        for given in exercise_set.givens
        if not given.drawn
    ]
    lines = [
        f"from fuelcircuits import Q, begin, hand_over{', read_rig' if rig else ''}",
        "",
        f'sheet = begin("{exercise_set.unit}", trainee="{trainee}", mode="{mode}")',
        *([f'rig = read_rig("{rig}.toml")'] if rig else []),
        "",
        "# Your numbers",
        *givens,
    ]
    return "\n".join(lines)


def ask_source(exercise: Exercise, sheet: Sheet, card: str = "") -> str:
    """Return the question of `exercise` with the trainee's givens filled in, and its sketch.

    `card` is the text of the unit's spec card, for a sketch that shows its rig.
    """
    parts = [_heading(exercise.id, exercise.points), sheet.ask(exercise.ask)]
    if exercise.void:
        parts.insert(1, NOBODYS.format(why=exercise.void))
    if exercise.sketch:
        parts.append(sketch_picture(exercise.sketch, sheet, card).image())
    if isinstance(exercise, Adjustment):
        parts.append(_to_set(exercise))
    if exercise.form == "name" and isinstance(exercise, Choice | Selection):
        parts.append("\n".join(f"- `{one}`: {words}" for one, words in exercise.options.items()))
    return "\n\n".join(parts)


def bench_source(exercise: Exercise, sheet: Sheet) -> list[str]:
    """Return the code that lays out the bench of a question, as the job came in; none without."""
    if not isinstance(exercise, Adjustment):
        return []
    stands = {name: each.of(sheet.givens) for name, each in exercise.stands.items()}
    stood = ", ".join(f"{name}={value!r}" for name, value in stands.items())
    kind, name = class_name(exercise.bench), f"{exercise.variable}_bench"
    made = f"{kind}(rig).stand({stood})" if stands else f"{kind}(rig)"
    return [f"from fuelcircuits import {kind}\n\n{name} = {made}\n{name}"]


def sketch_picture(sketch: Sketch, sheet: Sheet, card: str = "") -> Picture:
    """Return a question's sketch with the numbers of a sheet."""
    texts = {name: shown.text for name, shown in sheet.givens_shown.items()}
    return sketch.picture(card, texts, sheet.givens)


def begin_cells(
    exercise_set: ExerciseSet,
    sheet: Sheet,
    trainee: str,
    mode: Mode,
    *,
    rig: str = "",
    card: str = "",
) -> list[NotebookNode]:
    """Return the locked set-up cell, and before it the rig's spec card if there is one."""
    unit = exercise_set.unit
    source = begin_source(exercise_set, sheet, trainee, mode, rig)
    cells = [_graded("code", begin_id(unit), source, locked=True)]
    if rig:
        cells.insert(0, _card_cell(card_id(unit), f"%%writefile {rig}.toml\n{card}"))
    return cells


def _card_cell(grade_id: str, source: str) -> NotebookNode:
    """Return the locked cell that lays down the rig's card; folded, since it is long."""
    cell = _graded("code", grade_id, source, locked=True)
    cell.metadata["jupyter"] = {"source_hidden": True}
    return cell


def exercise_cells(
    unit: str, exercise: Exercise, sheet: Sheet, card: str = ""
) -> list[NotebookNode]:
    """Return question, answer and hand-over of `exercise`."""
    number, name = unit[:2], exercise.variable
    answer = (
        f"{name} = {_open(exercise)}\n"
        "### BEGIN SOLUTION\n"
        f"{name} = {right_code(exercise, sheet, digits=5)}\n"
        "### END SOLUTION"
    )
    hand_over = f'hand_over("{unit}", "{exercise.id}", lambda: {name}, {_fits(exercise)})'
    bench = [
        _graded("code", bench_id(unit, exercise.id), one, locked=True)
        for one in bench_source(exercise, sheet)
    ]
    return [
        _graded(
            "markdown", ask_id(unit, exercise.id), ask_source(exercise, sheet, card), locked=True
        ),
        *bench,
        _graded("code", f"{number}-{exercise.id}-answer", answer, solution=True),
        _graded("code", f"{number}-{exercise.id}", hand_over, locked=True, points=exercise.points),
    ]


def written_cells(
    unit: str, name: str, body: str, points: int, void: str = ""
) -> list[NotebookNode]:
    """Return question and answer of a question marked by hand; `void` says why it counts no more.

    The rubric stays in the gradebook, where whoever marks by hand sees it.
    """
    question, _, rubric = body.partition(RUBRIC)
    points = 0 if void else points
    note = f"{NOBODYS.format(why=void)}\n\n" if void else ""
    ask = f"{_heading(name, points)} · marked by hand\n\n{note}{question.strip()}"
    if rubric:
        scheme = f"**For marking**\n\n{rubric.strip()}"
        ask += f"\n\n=== BEGIN MARK SCHEME ===\n\n{scheme}\n\n=== END MARK SCHEME ==="
    grade_id = f"{unit[:2]}-{name}"
    return [
        _graded("markdown", ask_id(unit, name), ask, locked=True),
        _graded("markdown", grade_id, ANSWER_HERE, solution=True, points=points),
    ]


def _to_set(exercise: Adjustment) -> str:
    """Return which controls are to be set, and how the answer is written down."""
    rows = [f"- `{name}`: *{one.label}*{_unit(one)}" for name, one in exercise.dials.items()]
    return "\n".join([TO_SET, "", *rows])


def _unit(dial: Dial) -> str:
    """Return in which unit a control is read, unless its name says so."""
    return f", in {dial.unit}" if dial.unit and dial.unit not in dial.label else ""


def _heading(name: str, points: int) -> str:
    """Return the heading of a question: its name and what it is worth."""
    words = name.replace("-", " ").capitalize()
    return f"### {words} · {points} point{'' if points == 1 else 's'}"


def _open(exercise: Exercise) -> str:
    """Return what stands in an answer cell before there is an answer."""
    if isinstance(exercise, Driven):
        return '""""""  # press Copy this drive, and paste it in the middle of the quotes'
    if isinstance(exercise, Choice):
        return '""  # one name from the list, between the quotes'
    if isinstance(exercise, Selection):
        return '""  # names from the list, between the quotes, with commas'
    if isinstance(exercise, Adjustment):
        shown = ", ".join(f"{name} = ..." for name in exercise.moves)
        return f'""  # between the quotes, where it stands: {shown}'
    if exercise.unit in ("", "1"):
        return '""  # your answer, a plain number between the quotes, for example "1.2"'
    typed = exercise.unit.replace("^", "").replace("**", "").replace("percent", "%")
    return f'""  # your answer with its unit, between the quotes, for example "1.2 {typed}"'


def _fits(exercise: Exercise) -> str:
    """Return what the hand-over cell may know of an answer: its kind, and what is believable."""
    if isinstance(exercise, Driven):
        return "drive=True"
    if isinstance(exercise, Choice | Selection):
        names = "".join(f'\n    "{name}",' for name in exercise.options)
        return f"options=[{names}\n]"
    if isinstance(exercise, Adjustment):
        dials = "".join(
            f'\n    "{name}": ("{one.label}", "{one.unit}", {one.low:g}, {one.high:g}),'
            for name, one in exercise.dials.items()
        )
        return f"sets={{{dials}\n}}"
    return f'unit="{exercise.unit}", low={exercise.low:g}, high={exercise.high:g}'


def _graded(
    kind: Kind,
    grade_id: str,
    source: str,
    *,
    locked: bool = False,
    solution: bool = False,
    points: int | None = None,
) -> NotebookNode:
    """Return a cell that nbgrader knows by `grade_id`."""
    nbgrader: dict[str, Any] = {
        "grade": points is not None,
        "grade_id": grade_id,
        "locked": locked,
        "schema_version": 3,
        "solution": solution,
        "task": False,
    }
    if points is not None:
        nbgrader["points"] = points
    return new_cell(kind, source, name=grade_id, metadata={"nbgrader": nbgrader})
