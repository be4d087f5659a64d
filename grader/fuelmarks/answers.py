"""Turn the records that notebooks hand over into answers that can be marked.

A record comes from where a trainee's code ran, so nothing in it is believed: not its shape, not
its types, not its lengths. Reading one never raises and never takes long.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from fuelcircuits.errors import UnitError
from fuelcircuits.reading import LONGEST, Reading, measure, read

__all__ = ["Answer", "State", "answer_from"]

State: TypeAlias = Literal["read", "blank", "not-a-number", "missing"]


@dataclass(frozen=True)
class Answer:
    """What a record holds: every reading it allows, or why it allows none."""

    state: State
    readings: tuple[Reading, ...] = ()
    reason: str = ""


REASONS: Mapping[str, str] = {
    "nan": "The result is 'not a number' (nan). Look for a division by zero or a missing value.",
    "inf": "The result is infinite. Look for a division by zero.",
    "bool": "This is True or False. A comparison (==) gives that; hand over the value itself.",
    "bool_": "This is True or False. A comparison (==) gives that; hand over the value itself.",
    "complex": "This is a complex number. Look for the square root of something negative.",
    "function": "This is a function. Call it: write its name with brackets and its values.",
    "list": "This is a list. Hand over one value.",
    "tuple": "This is several values, or a comma was typed for a decimal point. Hand over one.",
    "Unit": "This is a unit without a number. Write, for example, Q(2.5, 'kPa').",
}


def answer_from(record: object, unit: str, exercise: str) -> Answer:
    """Return the answer to `exercise` of `unit` that `record` holds; never raise."""
    if record is None:
        return Answer("missing")
    if not isinstance(record, Mapping) or record.get("v") != 1:
        return Answer("missing", reason="What was handed over is not an answer record.")
    if (record.get("unit"), record.get("exercise")) != (unit, exercise):
        return Answer("missing", reason="What was handed over belongs to another question.")
    kind = record.get("kind")
    if kind == "blank":
        return Answer("blank")
    if kind in ("quantity", "number", "text"):
        return _read(record, str(kind))
    return Answer("not-a-number", reason=_reason(record.get("detail")))


def _read(record: Mapping[str, object], kind: str) -> Answer:
    """Return the readings in a record that says it holds a value."""
    magnitude, units, text = (record.get(name) for name in ("magnitude", "units", "text"))
    try:
        if kind == "text":
            return Answer("read", read(_short(text)))
        if isinstance(magnitude, bool) or not isinstance(magnitude, int | float):
            return Answer("not-a-number", reason=_reason(type(magnitude).__name__))
        number = float(magnitude)
        if not math.isfinite(number):
            return Answer("not-a-number", reason=REASONS["nan" if math.isnan(number) else "inf"])
        return Answer("read", (measure(number, _short(units) if kind == "quantity" else ""),))
    except UnitError as error:
        return Answer("not-a-number", reason=f"It cannot be read: {_tidy(str(error))}.")
    except OverflowError:
        return Answer("not-a-number", reason=REASONS["inf"])


def _short(text: object) -> str:
    """Return `text` if it is a text of bearable length, else raise `UnitError`."""
    if not isinstance(text, str) or len(text) > LONGEST:
        raise UnitError(f"answer must be a text of at most {LONGEST} characters")
    return text


def _reason(detail: object) -> str:
    """Return why a value of this sort is no answer."""
    detail = _tidy(detail) if isinstance(detail, str) else ""
    if detail in REASONS:
        return REASONS[detail]
    if detail.startswith("array of"):
        return f"This is an {detail} values. Hand over one."
    return f"This is not a number ({detail or 'unknown'}). Hand over one value with its unit."


def _tidy(text: str) -> str:
    """Return `text` short and without anything that could be mark-up or a control sign."""
    return "".join(sign for sign in text[:160] if sign.isprintable() and sign not in "<>&`")
