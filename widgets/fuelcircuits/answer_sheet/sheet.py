"""The answer sheet: how a notebook hands a value with its unit over.

An answer leaves the notebook as one plain record in the cell's output; no mark and no key is
here. In class mode the trainee learns at once whether the kind of quantity and its size are
believable, and no more. In study mode the comments come from whoever registers under the entry
point group ``fuelcircuits.study``.
"""

import math
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from importlib.metadata import entry_points
from typing import Any, Literal, NamedTuple, TypeAlias

from fuelcircuits.answer_sheet.class_mode import checked, driven, listed, settled
from fuelcircuits.answer_sheet.early import install, shell_here, uninstall
from fuelcircuits.answer_sheet.record import DRIVE, LONGEST_DRIVE, MIME, Kind, Record
from fuelcircuits.answer_sheet.refusals import STOPPED, UNSET, why_not
from fuelcircuits.answer_sheet.running import Runs, variable_of
from fuelcircuits.errors import RangeError
from fuelcircuits.quantities.naming import LONGEST as LONGEST_TEXT
from fuelcircuits.quantities.number_text import LONGEST
from fuelcircuits.quantities.registry import registry
from fuelcircuits.quantities.settings_text import Dial

__all__ = ["MIME", "AnswerSheet", "Record", "begin", "forget", "hand_over", "record"]

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
    runs: dict[str, int] = field(default_factory=dict)

    def __repr__(self) -> str:
        """Return the sheet in one line, for the set-up cell."""
        return f"Answer sheet of unit {self.unit} for {self.trainee}, {self.mode} mode."


_begun: dict[str, AnswerSheet] = {}
"""The sheets of this notebook: set-up and hand-over are separate cells."""
_runs = Runs()
"""How the cells of this notebook have ended; a set-up that is run again forgets nothing."""


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
    if shell := shell_here():
        _runs.watch(shell)
        install(shell)
    return sheet


def forget() -> None:
    """Forget all that was begun and heard, as a notebook that is new has it."""
    _begun.clear()
    shell = shell_here()
    _runs.forget(shell)
    if shell:
        uninstall(shell)


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
    first: str = "",
    drive: bool = False,
    sets: Mapping[str, tuple[str, str, float, float]] | None = None,
) -> None:
    """Hand `value` over as the answer to `exercise`, and say whether its kind and size fit.

    `value` may be a function that gives the answer, so that a name without a value is no error.
    `unit` is a unit the answer could have; `low` and `high` (in it) bound what is believable.
    With `drive`, the answer is a drive, as the bench copies it. With `options`, it is a text that
    names one of them, or several with commas between.
    With `sets`, it is a text that says how a bench is set: by the name of each control its label,
    its unit, and its ends in that unit.
    `first` names what was asked before and is asked again: its answer is shown beside the new one.
    An answer whose cell stopped with an error is not handed over. Whatever `value` is, one
    record is shown and nothing is raised.
    """
    sheet = _begun.get(sheet_unit) or begin(sheet_unit)
    answer, fault = _asked(sheet_unit, exercise, value)
    sheet.records[exercise] = answer
    again = _counted(sheet, answer)
    if fault:
        comment = fault
    elif sheet.mode == "study":
        comment = _told(sheet, exercise)
    elif drive:
        comment = driven(answer)
    elif sets:
        comment = settled(answer, {name: Dial(*each) for name, each in sets.items()})
    elif options:
        comment = listed(answer, options)
    else:
        comment = checked(answer, unit, low, high)
    _show(answer, f"{_at_first(sheet, first)}{comment} {again}".strip())


def _at_first(sheet: AnswerSheet, first: str) -> str:
    """Return what was answered at first, if the answer called `first` is asked again."""
    if not first:
        return ""
    said = sheet.records.get(first)
    if said is None or said["kind"] != "text":
        return "There is no first answer; if you wrote one, run its cells once more.\n"
    text = said["text"].strip()[:20]
    return f"At first you said {text.upper() if len(text) == 1 else text}.\n"


def _asked(unit: str, exercise: str, value: object) -> tuple[Record, str]:
    """Return the record of an answer, and why it is none if its cell has not run through."""
    variable = variable_of(exercise)
    if error := _runs.error_of(variable):
        return _record(unit, exercise, Parts("other", detail=STOPPED)), AFTER_ERROR.format(error)
    try:
        return record(unit, exercise, value() if callable(value) else value), ""
    except NameError:
        return _record(unit, exercise, Parts("other", detail=UNSET)), NO_VALUE.format(variable)
    except Exception as error:
        parts = Parts("other", detail=type(error).__name__[:40])
        return _record(unit, exercise, parts), why_not(parts.detail)


def _counted(sheet: AnswerSheet, answer: Record) -> str:
    """Count a try; say so instead if the answer's cell has not been run since the last."""
    exercise = answer["exercise"]
    run = _runs.run_of(variable_of(exercise))
    before, sheet.runs[exercise] = sheet.runs.get(exercise, 0), run
    if answer["kind"] == "blank" or answer["detail"] in (STOPPED, UNSET):
        return ""
    if run and run == before:
        return AGAIN
    sheet.tries[exercise] = sheet.tries.get(exercise, 0) + 1
    return ""


def record(unit: str, exercise: str, value: object) -> Record:
    """Return `value`, whatever it is, as a plain record; never raise."""
    try:
        parts = _parts(value)
    except Exception as error:
        parts = Parts("other", detail=type(error).__name__[:40])
    return _record(unit, exercise, parts)


def _record(unit: str, exercise: str, parts: "Parts") -> Record:
    """Return `parts` as the record of an answer."""
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
        text = value.strip() if value.strip().startswith(DRIVE) else str(value)
        most = LONGEST_DRIVE if text.startswith(DRIVE) else LONGEST_TEXT
        return Parts("text" if text.strip() else "blank", text=text[: most + 1])
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


AFTER_ERROR = (
    "Nothing handed over: the cell with your answer stopped with {}, so that the value in memory, "
    "if there is one, is not what you wrote. Put that cell right and run it, then this one."
)
NO_VALUE = "Nothing handed over: {} has no value yet. Run the cell with your answer, then this one."
AGAIN = "You handed this over before. If you have changed your answer, run its cell first."


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
    shell = shell_here()
    if shell is None:
        sys.stdout.write(comment + "\n")
    else:
        shell.display_pub.publish({MIME: dict(answer), "text/plain": comment})
