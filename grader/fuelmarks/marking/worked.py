"""The worked answer to a question, step by step, in the numbers of one sheet."""

from fuelmarks.formula.worked import Line
from fuelmarks.marking.adjusting import asked_of
from fuelmarks.questions import Adjustment, Exercise, Sheet
from fuelmarks.questions.frame.drawing import right_answer

__all__ = ["worked", "worked_text"]


def worked(exercise: Exercise, sheet: Sheet) -> list[Line]:
    """Return the steps to the right answer; none for a question without a formula."""
    method = exercise.method
    return method.lines(sheet.givens, sheet.answers) if method else []


def worked_text(exercise: Exercise, sheet: Sheet) -> list[str]:
    """Return the steps as lines of text."""
    if isinstance(exercise, Adjustment):
        asked = "; ".join(asked_of(exercise, sheet.givens))
        return [f"One way to set it: {right_answer(exercise, sheet)}", f"Asked was: {asked}"]
    return [_in_one(line) for line in worked(exercise, sheet)]


def _in_one(line: Line) -> str:
    """Return one step as text, with what was turned into other units first."""
    first = "; ".join(f"{one.shown} = {one.turned}" for one in line.conversions)
    step = f"{line.words[0].upper()}{line.words[1:]} = {line.text} = {line.result}"
    return f"{step}   ({first})" if first else step
