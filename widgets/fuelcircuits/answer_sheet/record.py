"""The record of one answer: plain JSON, and all that ever leaves a notebook."""

from typing import Literal, TypeAlias, TypedDict

__all__ = ["MIME", "Kind", "Record"]

MIME = "application/vnd.fuelcircuits.answer+json"
Kind: TypeAlias = Literal["quantity", "number", "text", "blank", "other"]


class Record(TypedDict):
    """What was handed over as the answer to one exercise."""

    v: int
    unit: str
    exercise: str
    kind: Kind
    magnitude: float | None
    units: str
    text: str
    detail: str
