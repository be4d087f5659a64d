"""Work that takes long, done step by step, so that something else can be heard in between."""

from collections.abc import Generator
from typing import TypeAlias, TypeVar

__all__ = ["March", "finished"]

Result = TypeVar("Result")
March: TypeAlias = Generator[float, None, Result]
"""Steps on the way to a result; each yields what share is done [1]."""


def finished(march: March[Result]) -> Result:
    """Go through all steps that are left, and return the result."""
    while True:
        try:
            next(march)
        except StopIteration as end:
            result: Result = end.value
            return result
