"""Text in which a number and its unit stay on one line."""

import re

__all__ = ["unbroken"]

_NUMBER_AND_UNIT = re.compile(r"(?<=\d) (?=[%€°A-Za-z])")


def unbroken(text: str) -> str:
    """Return text with no line break possible between a number and the word after it."""
    return _NUMBER_AND_UNIT.sub("\u00a0", text)
