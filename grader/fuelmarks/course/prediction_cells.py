"""The cells of a prediction: asked before the bench is opened, and once more at the end.

They carry no mark and no key, so nbgrader need not know them: a returned notebook keeps them as
they are.
"""

from collections.abc import Sequence

from fuelmarks.course.foretold import AGAIN, FIRST, Asked
from fuelmarks.course.notebook import NotebookNode, new_cell

__all__ = ["again_cells", "is_answer", "predict_cells"]

HEADING = """## What you said, and what you say now

Now you know the circuit. Answer your predictions once more, and run the cell behind each: it says \
what you wrote at first. Where the two differ, tell yourself in a sentence why."""


def predict_cells(unit: str, asked: Asked) -> list[NotebookNode]:
    """Return question, answer and hand-over of a prediction."""
    ask = f"**Your prediction.** {_in_words(asked)}"
    return _three(unit, FIRST, asked, ask, "write the letter of your choice before you go on")


def again_cells(unit: str, asked: Sequence[Asked]) -> list[NotebookNode]:
    """Return the cells that bring the predictions back; none if none was asked for."""
    if not asked:
        return []
    cells = [new_cell("markdown", HEADING, name=f"{unit[:2]}-{AGAIN}")]
    for one in asked:
        ask = f"**{one.title}.** {_in_words(one)}"
        cells += _three(unit, AGAIN, one, ask, "the letter you would choose now")
    return cells


def is_answer(cell: NotebookNode, unit: str) -> bool:
    """Say whether a letter is written in `cell`."""
    begins = cell.id.startswith((f"{unit[:2]}-{FIRST}-", f"{unit[:2]}-{AGAIN}-"))
    return begins and str(cell.id).endswith("-answer")


def _three(unit: str, which: str, asked: Asked, ask: str, note: str) -> list[NotebookNode]:
    """Return question, answer and hand-over; the one at the end says what was answered first."""
    exercise = f"{which}-{asked.name}"
    variable, label = exercise.replace("-", "_"), f"{unit[:2]}-{exercise}"
    letters = ", ".join(f'"{letter}"' for letter in asked.options)
    first = f', first="{FIRST}-{asked.name}"' if which == AGAIN else ""
    hand_over = f'hand_over("{unit}", "{exercise}", lambda: {variable}, options=[{letters}]{first})'
    return [
        new_cell("markdown", ask, name=f"{label}-ask"),
        new_cell("code", f'{variable} = ""  # {note}', name=f"{label}-answer"),
        new_cell("code", hand_over, name=label),
    ]


def _in_words(asked: Asked) -> str:
    """Return question and answers as text."""
    options = "\n".join(f"- {letter}: {words}" for letter, words in asked.options.items())
    return f"{asked.question}\n\n{options}"
