"""Long work in pieces: between two of them whoever works may hear of something newer."""

from collections.abc import Generator
from typing import TypeAlias, TypeVar

__all__ = ["Pieces", "finished"]

Result = TypeVar("Result")
Pieces: TypeAlias = Generator[None, None, Result]
"""Work that rests after each piece, and returns what comes of it."""


def finished(work: Pieces[Result]) -> Result:
    """Return what comes of some work, all its pieces done."""
    while True:
        try:
            next(work)
        except StopIteration as end:
            result: Result = end.value
            return result
