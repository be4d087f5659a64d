"""The answer sheet: how a notebook hands a value with its unit over."""

from dataclasses import dataclass, field
from typing import Literal, TypeAlias, TypedDict

__all__ = ["MIME", "AnswerSheet", "Record", "begin", "hand_over", "record"]

MIME = "application/vnd.fuelcircuits.answer+json"
Kind: TypeAlias = Literal["quantity", "number", "text", "blank", "other"]
Mode: TypeAlias = Literal["class", "study"]


class Record(TypedDict):
    """What leaves the notebook: plain JSON, one per answer."""

    v: int
    unit: str
    exercise: str
    kind: Kind
    magnitude: float | None
    units: str
    text: str
    detail: str


@dataclass
class AnswerSheet:
    """The sheet of one unit in one notebook, and what has been handed over so far."""

    unit: str
    trainee: str
    mode: Mode
    records: dict[str, Record] = field(default_factory=dict)
    tries: dict[str, int] = field(default_factory=dict)


def begin(unit: str, trainee: str = "specimen", mode: Mode = "class") -> AnswerSheet:
    """Open the sheet of `unit`; in study mode every answer is commented on at once."""
    raise NotImplementedError


def hand_over(
    sheet_unit: str, exercise: str, value: object, /, *, unit: str, low: float, high: float
) -> None:
    """Hand `value` over as the answer to `exercise`, and say whether its kind and size fit."""
    raise NotImplementedError


def record(unit: str, exercise: str, value: object) -> Record:
    """Return `value`, whatever it is, as a plain record; never raise."""
    raise NotImplementedError
