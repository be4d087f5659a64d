"""A number that a drawing shows: how it is written, and what it is."""

from typing import NamedTuple

__all__ = ["Number"]


class Number(NamedTuple):
    """One of a reader's own numbers."""

    text: str
    """As it is written, such as ``18.2 mm``."""
    value: float
    """In SI."""
