"""How roughly a number was written: half of its last written figure, as a share of the number.

A calculated number comes with all its figures, so nothing is rough about it. A whole number is
taken at its word: nobody can say of 1200 which of its zeros were meant.
"""

import re

__all__ = ["of_number", "of_text"]

DIGITS = re.compile(r"\d+(?:[ .,'’_\u00a0\u2009\u202f]\d+)*")
FRACTION = re.compile(r"\W*[\d \-]*(?:\d\s?/\s?\d|[¼½¾⅛⅜⅝⅞])")


def of_text(text: str) -> float:
    """Return half of the last figure of the first number in `text`, over it; 0 for a fraction."""
    found = None if FRACTION.match(text) else DIGITS.search(text)
    return _rough(found[0]) if found else 0.0


def of_number(number: float) -> float:
    """Return half of the last figure that `number` needs to be written down, over it."""
    return _rough(repr(number).partition("e")[0].removesuffix(".0"))


def _rough(digits: str) -> float:
    """Return how rough a number is that is written with these digits."""
    written = int("".join(sign for sign in digits if sign.isdecimal()) or "0")
    return 0.5 / written if written else 0.0
