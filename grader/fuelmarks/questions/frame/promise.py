"""How closely an answer has to be given, as it is said to whoever answers."""

from fuelcircuits.quantities.trade_units import labelled

from fuelmarks.questions.frame.exercise import Exercise

__all__ = ["NUMBERS", "enough"]

NUMBERS = {1: "One figure is", 2: "Two figures are", 3: "Three figures are", 4: "Four figures are"}


def enough(exercise: Exercise) -> str:
    """Return how closely is enough: so many figures, or the step to which the trade rounds."""
    if exercise.form != "value":
        return ""
    if exercise.rounded_to:
        step = labelled(f"{exercise.rounded_to:g}", exercise.unit)
        return f"To the nearest {step} is enough."
    figures = NUMBERS.get(exercise.figures, f"{exercise.figures} figures are")
    return f"{figures} enough, with one more on the way."
