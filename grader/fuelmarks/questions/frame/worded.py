"""Numbers as an author writes them in a block: ranges, steps, choices, expected ends.

``2.2 to 2.8 step 0.1 mm | the bore of the seat`` is a given on a range, ``0.6, 0.62, 0.65 | the
discharge of the seat`` one that is chosen from a list, ``1.55 mm | the bore of the main jet`` one
that is the same for everybody.
"""

import re

from fuelcircuits.errors import CircuitError
from fuelcircuits.quantities.trade_units import scale

from fuelmarks.questions.frame.exercise import Given

__all__ = ["BlockError", "expected", "given_from", "number_with_unit"]

NUMBER = r"[+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?"
RANGE = re.compile(rf"({NUMBER})\s+to\s+({NUMBER})\s+step\s+({NUMBER})\s*(.*)")
CHOICES = re.compile(rf"((?:{NUMBER}\s*,\s*)+{NUMBER})(?:\s+(.*))?")
EXPECTED = re.compile(rf"({NUMBER})\s+to\s+({NUMBER})")
MEASURED = re.compile(rf"({NUMBER})(?:\s+(.*))?")
MOST_STEPS = 10_000


class BlockError(CircuitError, ValueError):
    """A block of questions cannot be used; the message names the place, the rule, the value."""


def given_from(name: str, text: str, *, drawn: bool = False) -> Given:
    """Return the given called `name` that `text` describes; raise `BlockError` if it is none."""
    if not re.fullmatch(r"[a-z][a-z0-9_]{0,60}", name):
        raise BlockError(f"given must have a name of small letters, digits and _, got {name!r}")
    body, _, words = (part.strip() for part in text.partition("|"))
    if not words:
        raise BlockError(f"given {name} must end in | and its words, got {text!r}")
    if found := RANGE.fullmatch(body):
        low, high, step = (float(found[place]) for place in (1, 2, 3))
        if not (step > 0 and low < high and (high - low) / step <= MOST_STEPS):
            rule = f"rise from low to high in at most {MOST_STEPS} steps"
            raise BlockError(f"given {name} must {rule}, got {body!r}")
        return Given(name, words, _unit(name, found[4]), low, high, step, drawn=drawn)
    if found := CHOICES.fullmatch(body):
        choices = tuple(float(each) for each in found[1].split(","))
        return Given(name, words, _unit(name, found[2] or ""), choices=choices, drawn=drawn)
    if (found := MEASURED.fullmatch(body)) and not (found[2] or "").startswith("to "):
        return Given(
            name, words, _unit(name, found[2] or ""), choices=(float(found[1]),), drawn=drawn
        )
    rule = "read LOW to HIGH step STEP UNIT | words, or A, B, C UNIT | words, or A UNIT | words"
    raise BlockError(f"given {name} must {rule}, got {text!r}")


def expected(where: str, text: str) -> tuple[float, float]:
    """Return the ends of an expected range."""
    found = EXPECTED.fullmatch(text.strip())
    if not found or not float(found[1]) < float(found[2]):
        raise BlockError(f"{where}: expect must read LOW to HIGH, got {text!r}")
    return float(found[1]), float(found[2])


def number_with_unit(where: str, text: str) -> tuple[float, str]:
    """Return a number and its unit."""
    found = MEASURED.fullmatch(text.strip())
    if not found:
        raise BlockError(f"{where} must be a number with its unit, got {text!r}")
    return float(found[1]), _unit(where, found[2] or "")


def _unit(name: str, text: str) -> str:
    """Return a unit that is known, or raise `BlockError`."""
    unit = text.strip()
    if unit:
        try:
            scale(unit)
        except CircuitError as error:
            raise BlockError(f"{name}: {error}") from error
    return unit
