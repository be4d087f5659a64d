"""Hands over a record of a hundred megabytes."""

from typing import Any

from fuelcircuits.answer_sheet import sheet

honest = sheet.record


def huge(unit: str, exercise: str, value: object) -> Any:
    """Return a record with far too much text."""
    return {**honest(unit, exercise, value), "text": "9" * (100 << 20)}


sheet.record = huge
