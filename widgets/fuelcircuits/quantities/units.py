"""Quantities with units: the one module that knows Pint.

`Q` makes a quantity (``Q(4.2, "psi")``), `si` turns one into a plain SI float, and `like` writes
one in the unit somebody else has used.
"""

import re
from functools import lru_cache
from typing import Any

import pint

from fuelcircuits.errors import UnitError

__all__ = ["Q", "like", "registry", "si"]

registry: pint.UnitRegistry[Any] = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
registry.define("cubic_foot_per_minute = foot ** 3 / minute = cfm")
pint.set_application_registry(registry)  # type: ignore[no-untyped-call]
Q = registry.Quantity
PLAIN = re.compile(r"\s*([+-]?\d+(?:\.\d*)?(?:e[+-]?\d+)?)\s*([a-z][a-z_/*^ 0-9]*)", re.IGNORECASE)
"""A number and a unit, as nearly every card has them."""
MIXED = re.compile(r"^\s*(\d+)\s*[- ]\s*(\d+\s*/\s*\d+)(?=\s*[a-z])", re.IGNORECASE)
"""A whole number and a fraction, as inches come: ``1-1/16 in``, ``1 1/16 in``."""


def si(quantity: Any, unit: str, name: str = "value") -> float:
    """Return `quantity` as a float in `unit`; raise `UnitError` if its dimension is another."""
    try:
        plain = PLAIN.fullmatch(quantity) if isinstance(quantity, str) else None
        quantity = quantity if plain or not isinstance(quantity, str) else _summed(quantity)
        factor = _factor(plain[2], unit) if plain else None
        if plain and factor is not None:
            return float(plain[1]) * factor
        return float(Q(quantity).m_as(unit))
    except pint.DimensionalityError as error:
        raise UnitError(f"{name} must be convertible to {unit}, got {quantity}") from error
    except (pint.UndefinedUnitError, TypeError, ValueError) as error:
        raise UnitError(
            f"{name} must be a number with a unit such as {unit}, got {quantity!r}"
        ) from error


def like(written: str, number: float, unit: str) -> str:
    """Return `number` in `unit` as text in the unit of the quantity `written`: ``6 mm``."""
    plain = PLAIN.fullmatch(written)
    name = plain[2].strip() if plain else f"{Q(_summed(written)).units:~}"
    return f"{Q(number, unit).m_as(name):g} {name}"


def _summed(text: str) -> str:
    """Return `text` with a whole number and a fraction as the sum they mean."""
    return MIXED.sub(r"(\1 + \2) ", text)


@lru_cache(maxsize=512)
def _factor(unit: str, wanted: str) -> float | None:
    """Return how many of `wanted` one `unit` is; None where zero is not zero, as in degC."""
    return None if Q(0.0, unit).m_as(wanted) else float(Q(1.0, unit).m_as(wanted))
