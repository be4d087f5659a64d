"""What the settings of a bench amount to: the bench reads them, and each reading is judged.

Only the controls that the question names are taken from the answer; all else stands as the job
came in. Each reading that is as it is wanted earns its part, one within twice what may be off
half of it. What is left as it came in earns nothing.
"""

import re
from collections.abc import Iterator, Mapping
from math import isclose, isnan

from fuelcircuits.errors import CircuitError
from fuelcircuits.quantities.settings_text import TURNS, Dial, settings_in

from fuelmarks.marking.verdicts import RIGHT, Finding
from fuelmarks.questions import Adjustment, Sheet, Values
from fuelmarks.questions.frame.adjustment import Want
from fuelmarks.questions.frame.settling import needed

__all__ = ["NO_SETTING", "adjust", "asked_of", "slip_name"]

NO_SETTING = "not-a-setting"
NEAR, HALF = 2.0, 0.5
"""How many times what may be off a reading may be to earn half of its part."""
NO_STATE = "With these settings the engine does not run: {error}."
UNTOUCHED = "This is how the job came in. Set the bench first."
PARTS = {1: "a quarter of a turn", 2: "half a turn", 3: "three quarters of a turn", 4: "a turn"}


def adjust(exercise: Adjustment, sheet: Sheet, text: str) -> Finding:
    """Return what the settings in `text` amount to on this sheet; never raise."""
    told = settings_in(text, exercise.dials)
    if told.complaints:
        return Finding(NO_SETTING, 0.0, " ".join(told.complaints))
    given, moved = sheet.givens, dict(told.values)
    left = exercise.left(given)
    if all(isclose(at, left[name], rel_tol=1e-6, abs_tol=1e-12) for name, at in moved.items()):
        return Finding("wrong", 0.0, UNTOUCHED)
    try:
        reads = exercise.read(given, moved)
    except CircuitError as error:
        return Finding("wrong", 0.0, NO_STATE.format(error=error))
    offs = [want.off(read, given) for want, read in zip(exercise.wants, reads, strict=True)]
    if all(abs(off) <= 1 + 1e-9 for off in offs):
        return RIGHT
    return _slipped(exercise, given, moved, reads, offs)


def asked_of(exercise: Adjustment, given: Values) -> Iterator[str]:
    """Yield between what each reading has to lie, in words."""
    for want, measure in zip(exercise.wants, exercise.measures(), strict=True):
        middle = float(want.target.of(given))
        low, high = (measure.text(middle + side * want.within, "SI") for side in (-1, 1))
        yield f"{want.reading} from {low} to {high}"


def _slipped(
    exercise: Adjustment,
    given: Values,
    moved: Mapping[str, float],
    reads: tuple[float, ...],
    offs: list[float],
) -> Finding:
    """Return the finding for settings at which a reading or more is not as it is wanted."""
    words, share = [], 0.0
    measures, first = exercise.measures(), ""
    for want, measure, read, off in zip(exercise.wants, measures, reads, offs, strict=True):
        share += _share(off) / len(offs)
        if not abs(off) <= 1 + 1e-9:
            slip = want.above if off > 0 else want.below
            first = first or slip
            shown = measure.text(read, "SI")
            words.append(f"{slip[0].upper()}{slip[1:]}: {want.reading} is {shown} there.")
            words += _how_far(exercise, given, moved, want)
    return Finding(f"slip:{slip_name(first)}", share, " ".join(words))


def slip_name(words: str) -> str:
    """Return the name under which a slip in these words is counted."""
    return re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-")


def _share(off: float) -> float:
    """Return which part of its points one reading earns."""
    if abs(off) <= 1 + 1e-9:
        return 1.0
    return HALF if abs(off) <= NEAR else 0.0


def _how_far(
    exercise: Adjustment, given: Values, moved: Mapping[str, float], want: Want
) -> Iterator[str]:
    """Yield about how far the control of a reading is out, in words, if it alone can mend it."""
    far = needed(exercise, given, moved, want)
    if not isnan(far) and far != 0:
        dial = exercise.dials[want.by]
        yield f"“{dial.label}” is about {_about(abs(far), dial)} out."


def _about(far: float, dial: Dial) -> str:
    """Return a distance in SI as one says it: in quarters of a turn, or in one figure."""
    if dial.unit == TURNS:
        quarters = max(round(4 * far), 1)
        return PARTS.get(quarters, f"{quarters / 4:g} turns")
    return dial.distance(far)
