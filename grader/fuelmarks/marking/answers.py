"""Turn the records that notebooks hand over into answers that can be marked.

A record comes from where a trainee's code ran, so nothing in it is believed: not its shape, not
its types, not its lengths. Reading one never raises and never takes long.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from fuelcircuits.answer_sheet.refusals import tidy, why_not
from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.number_text import LONGEST
from fuelcircuits.quantities.reading import Reading, measure, read

from fuelmarks.marking.written import of_number, of_text
from fuelmarks.questions.frame.exercise import Form

__all__ = ["Answer", "State", "answer_from"]

State: TypeAlias = Literal[
    "read", "blank", "not-a-number", "not-a-name", "not-a-setting", "missing"
]


@dataclass(frozen=True)
class Answer:
    """What a record holds: every reading it allows, or its text, or why it holds neither.

    `rough` is half of the last written figure over the number.
    """

    state: State
    readings: tuple[Reading, ...] = ()
    text: str = ""
    reason: str = ""
    rough: float = 0.0


def answer_from(record: object, unit: str, exercise: str, form: Form = "value") -> Answer:
    """Return the answer to `exercise` of `unit` that `record` holds; never raise.

    `form` is what the answer is; all but values are kept as the text they are.
    """
    if record is None:
        return Answer("missing")
    if not isinstance(record, Mapping) or record.get("v") != 1:
        return Answer("missing", reason="What was handed over is not an answer record.")
    if (record.get("unit"), record.get("exercise")) != (unit, exercise):
        return Answer("missing", reason="What was handed over belongs to another question.")
    kind = record.get("kind")
    if kind == "blank":
        return Answer("blank")
    return _number(record, kind) if form == "value" else _as_text(record, kind, form)


def _number(record: Mapping[str, object], kind: object) -> Answer:
    """Return the readings in a record that should hold a value."""
    if kind in ("quantity", "number", "text"):
        return _read(record, str(kind))
    return Answer("not-a-number", reason=why_not(record.get("detail")))


def _as_text(record: Mapping[str, object], kind: object, form: Form) -> Answer:
    """Return the text in a record that should hold names or settings."""
    text = record.get("text")
    if kind == "text" and isinstance(text, str):
        return Answer("read", text=text)
    if form in BY_NAME:
        return Answer("not-a-name", reason=BY_NAME[form])
    number, units = record.get("magnitude"), record.get("units")
    if kind in ("number", "quantity") and isinstance(number, int | float):
        return Answer("read", text=f"{number!r} {units if isinstance(units, str) else ''}")
    return Answer("not-a-setting", reason=SETTING_IN_QUOTES)


BY_NAME: Mapping[Form, str] = {
    "name": "Write the name as a text, in quotes. Several names go in one text, with commas.",
    "drive": "Press Copy this drive, and paste it as a text, in quotes.",
}
SETTING_IN_QUOTES = "Write as a text, in quotes, where each control stands."


def _read(record: Mapping[str, object], kind: str) -> Answer:
    """Return the readings in a record that says it holds a value."""
    magnitude, units, text = (record.get(name) for name in ("magnitude", "units", "text"))
    try:
        if kind == "text":
            return Answer("read", read(_short(text)), rough=of_text(_short(text)))
        if isinstance(magnitude, bool) or not isinstance(magnitude, int | float):
            return Answer("not-a-number", reason=why_not(type(magnitude).__name__))
        number = float(magnitude)
        if not math.isfinite(number):
            return Answer("not-a-number", reason=why_not("nan" if math.isnan(number) else "inf"))
        reading = measure(number, _short(units) if kind == "quantity" else "")
        return Answer("read", (reading,), rough=of_number(number))
    except UnitError as error:
        return Answer("not-a-number", reason=f"It cannot be read: {tidy(str(error))}.")
    except OverflowError:
        return Answer("not-a-number", reason=why_not("inf"))


def _short(text: object) -> str:
    """Return `text` if it is a text of bearable length, else raise `UnitError`."""
    if not isinstance(text, str) or len(text) > LONGEST:
        raise UnitError(f"answer must be a text of at most {LONGEST} characters")
    return text
