"""The answer sheet: how a notebook hands a value with its unit over.

An answer leaves the notebook as one plain record in the cell's output; no mark and no key is
here. In class mode the trainee learns at once whether the kind of quantity and its size are
believable, and no more. In study mode the comments come from whoever registers under the entry
point group ``fuelcircuits.study``.
"""

import math
import sys
from collections.abc import Sequence
from dataclasses import dataclass, field
from importlib.metadata import entry_points
from typing import Any, Literal, NamedTuple, TypeAlias

from fuelcircuits.answer_sheet.record import MIME, Kind, Record
from fuelcircuits.answer_sheet.refusals import why_not
from fuelcircuits.errors import RangeError, UnitError
from fuelcircuits.quantities.kinds import dimension_of, kind_of
from fuelcircuits.quantities.naming import LONGEST as LONGEST_TEXT
from fuelcircuits.quantities.naming import names_in
from fuelcircuits.quantities.reading import LONGEST, Reading, measure, read
from fuelcircuits.quantities.trade_units import labelled
from fuelcircuits.quantities.units import registry

__all__ = ["MIME", "AnswerSheet", "Record", "begin", "hand_over", "record"]

STUDY = "fuelcircuits.study"
Mode: TypeAlias = Literal["class", "study"]


@dataclass
class AnswerSheet:
    """The sheet of one unit in one notebook, and what has been handed over so far."""

    unit: str
    trainee: str
    mode: Mode
    records: dict[str, Record] = field(default_factory=dict)
    tries: dict[str, int] = field(default_factory=dict)

    def __repr__(self) -> str:
        """Return the sheet in one line, for the set-up cell."""
        return f"Answer sheet of unit {self.unit} for {self.trainee}, {self.mode} mode."


_begun: dict[str, AnswerSheet] = {}
"""The sheets of this notebook: set-up and hand-over are separate cells."""


def begin(unit: str, trainee: str = "specimen", mode: Mode = "class") -> AnswerSheet:
    """Open the sheet of `unit`; in study mode every answer is commented on at once.

    Raises
    ------
    RangeError
        If `mode` is neither class nor study.
    """
    if mode not in ("class", "study"):
        raise RangeError(f"mode must be 'class' or 'study', got {mode!r}")
    sheet = _begun[unit] = AnswerSheet(unit, trainee, mode)
    return sheet


def hand_over(
    sheet_unit: str,
    exercise: str,
    value: object,
    /,
    *,
    unit: str = "",
    low: float = -math.inf,
    high: float = math.inf,
    options: Sequence[str] = (),
) -> None:
    """Hand `value` over as the answer to `exercise`, and say whether its kind and size fit.

    `unit` is a unit the answer could have; `low` and `high` (in it) bound what is believable.
    With `options`, the answer is a text that names one of them, or several with commas between.
    Whatever `value` is, one record is shown and nothing is raised.
    """
    sheet = _begun.get(sheet_unit) or begin(sheet_unit)
    answer = record(sheet_unit, exercise, value)
    sheet.records[exercise] = answer
    if answer["kind"] != "blank":
        sheet.tries[exercise] = sheet.tries.get(exercise, 0) + 1
    if sheet.mode == "study":
        comment = _told(sheet, exercise)
    elif options:
        comment = _listed(answer, options)
    else:
        comment = _checked(answer, unit, low, high)
    _show(answer, comment)


def record(unit: str, exercise: str, value: object) -> Record:
    """Return `value`, whatever it is, as a plain record; never raise."""
    try:
        parts = _parts(value)
    except Exception as error:
        parts = Parts("other", detail=type(error).__name__[:40])
    return Record(
        v=1,
        unit=unit,
        exercise=exercise,
        kind=parts.kind,
        magnitude=parts.magnitude,
        units=parts.units,
        text=parts.text,
        detail=parts.detail,
    )


class Parts(NamedTuple):
    """What a record says about the value itself."""

    kind: Kind
    magnitude: float | None = None
    units: str = ""
    text: str = ""
    detail: str = ""


def _parts(value: Any) -> Parts:
    """Return what `value` is."""
    if value is None or value is ...:
        return Parts("blank")
    if isinstance(value, str):
        return Parts("text" if value.strip() else "blank", text=str(value)[: LONGEST_TEXT + 1])
    if isinstance(value, registry.Unit):
        return Parts("other", detail="Unit")
    if hasattr(value, "magnitude") and hasattr(value, "units"):
        units = format(value.units, "D")[: LONGEST + 1]
        inner = _number(value.magnitude)
        return inner._replace(kind="quantity", units=units) if inner.kind == "number" else inner
    return _number(value)


def _number(value: Any) -> Parts:
    """Return the number `value`, or what kept it from being one."""
    size = getattr(value, "size", 1)
    if size != 1:
        return Parts("other", detail=f"array of {size}")
    if getattr(value, "shape", ()):
        value = value.item()
    name = "complex" if isinstance(value, complex) else type(value).__name__[:40].rstrip("_")
    if name in ("bool", "complex", "str") or not hasattr(value, "__float__"):
        return Parts("other", detail=name)
    number = float(value)
    if not math.isfinite(number):
        return Parts("other", detail="nan" if math.isnan(number) else "inf")
    return Parts("number", magnitude=number)


NOTHING = "Nothing handed over yet."
PERCENT = ' If you mean percent, write it: Q(12, "percent").'


def _listed(answer: Record, options: Sequence[str]) -> str:
    """Return what class mode says to an answer by name: on the list or not."""
    if answer["kind"] == "blank":
        return NOTHING
    if answer["kind"] != "text":
        return "Write a name from the list as a text, in quotes."
    found = names_in(answer["text"], options)
    handed = f"Handed over: {', '.join(found.known)}." if found.known else "No name found."
    return f"{handed} {found.complaint}".strip()


def _checked(answer: Record, unit: str, low: float, high: float) -> str:
    """Return what class mode says: right kind of quantity or not, believable or not."""
    if answer["kind"] == "blank":
        return NOTHING
    if answer["kind"] == "other":
        return why_not(answer["detail"])
    try:
        readings = _readings(answer)
        wanted, least, most = dimension_of(unit), measure(low, unit), measure(high, unit)
    except UnitError as error:
        return f"This cannot be read: {error}."
    reading = readings[0]
    shown = " or ".join(one.text for one in readings)
    if reading.dimension != wanted:
        asked = kind_of(wanted)
        got = "a number without a unit" if reading.bare else kind_of(reading.dimension).words
        return f"Handed over: {shown}. That is {got}; asked is {asked.words} ({asked.examples})."
    plain = "" if len(readings) == 1 else " Write it without the comma to leave no doubt."
    if any(least.magnitude <= one.magnitude <= most.magnitude for one in readings):
        return f"Handed over: {shown}. The kind is right, the size is believable.{plain}"
    plain += PERCENT if reading.bare and unit == "percent" else ""
    return (
        f"Handed over: {shown}. The kind is right, but the size is hard to believe "
        f"(expect {low:g} to {labelled(f'{high:g}', unit)}).{plain}"
    )


def _readings(answer: Record) -> tuple[Reading, ...]:
    """Return what the numbers or the text of `answer` can mean; raise `UnitError` if nothing."""
    if answer["kind"] == "text":
        return read(answer["text"])
    return (measure(float(answer["magnitude"] or 0.0), answer["units"]),)


def _told(sheet: AnswerSheet, exercise: str) -> str:
    """Return the full comment of study mode, or say what is missing for one."""
    found = list(entry_points(group=STUDY))
    if not found:
        return (
            "Study mode needs the marking package, which is not installed here. "
            "Your answer was handed over; it has not been checked."
        )
    tries = sheet.tries.get(exercise, 0)
    try:
        tell = found[0].load()
        return str(tell(sheet.unit, sheet.trainee, exercise, dict(sheet.records), tries))
    except Exception as error:
        return f"Your answer was handed over; it could not be checked here ({error})."


def _show(answer: Record, comment: str) -> None:
    """Show the record and the comment as one output, or print the comment outside Jupyter."""
    shell = getattr(sys.modules.get("IPython"), "get_ipython", lambda: None)()
    if shell is None:
        sys.stdout.write(comment + "\n")
    else:
        shell.display_pub.publish({MIME: dict(answer), "text/plain": comment})
