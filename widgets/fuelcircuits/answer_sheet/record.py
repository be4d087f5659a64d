"""The record of one answer: plain JSON, and all that ever leaves a notebook."""

from typing import Literal, TypeAlias, TypedDict

__all__ = ["DRIVE", "LONGEST_DRIVE", "MIME", "Kind", "Record"]

MIME = "application/vnd.fuelcircuits.answer+json"
DRIVE = '{"drive"'
"""How a drive that is handed in begins: a text of JSON, longer than any other answer."""
LONGEST_DRIVE = 60_000
"""Most characters of a drive: half a minute in which every step is another."""
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
