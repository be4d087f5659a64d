"""The errors this package raises, and the checks that raise them.

    CircuitError
    ├── RangeError        a number is outside what the model or the part allows
    ├── ConvergenceError  a balance has no answer for these conditions
    ├── CardError         a spec card is missing a field, has a strange one, or a wrong unit
    └── UnitError         a quantity has the wrong dimension, or no unit at all

Every message reads *name, rule, value*: ``seat bore must be positive, got -0.001 m``.
"""

from math import inf

__all__ = [
    "CardError",
    "CircuitError",
    "ConvergenceError",
    "RangeError",
    "UnitError",
    "between",
    "positive",
]


class CircuitError(Exception):
    """Anything this package refuses to do."""


class RangeError(CircuitError, ValueError):
    """A number is outside what the model or the part allows."""


class ConvergenceError(CircuitError, ArithmeticError):
    """A balance has no answer; the message says which quantity is out of range."""


class CardError(CircuitError, ValueError):
    """A spec card cannot be used as it stands."""

    def _render_traceback_(self) -> list[str]:
        """Return what a notebook shows: the faults alone, since the card is at fault, no code."""
        return ["The card cannot be used yet:", *str(self).splitlines()]


class UnitError(CircuitError, ValueError):
    """A quantity has the wrong dimension, or no unit at all."""


def positive(name: str, value: float, unit: str = "") -> float:
    """Return `value` if it is positive and finite, else raise `RangeError`."""
    if not 0 < value < inf:
        raise RangeError(f"{name} must be positive, got {value} {unit}".rstrip())
    return value


def between(name: str, value: float, low: float, high: float, unit: str = "") -> float:
    """Return `value` if it lies in [low, high], else raise `RangeError`."""
    if not low <= value <= high:
        raise RangeError(
            f"{name} must be between {low:g} and {high:g} {unit}".rstrip()
            + f", got {value} {unit}".rstrip()
        )
    return value
