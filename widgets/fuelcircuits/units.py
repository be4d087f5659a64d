"""Quantities with units: the one module that knows Pint.

`Q` makes a quantity (``Q(4.2, "psi")``), `si` turns one into a plain SI float.
"""

from typing import Any

import pint

from fuelcircuits.errors import UnitError

__all__ = ["Q", "registry", "si"]

registry: pint.UnitRegistry[Any] = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
registry.define("cubic_foot_per_minute = foot ** 3 / minute = cfm")
pint.set_application_registry(registry)  # type: ignore[no-untyped-call]
Q = registry.Quantity


def si(quantity: Any, unit: str, name: str = "value") -> float:
    """Return `quantity` as a float in `unit`; raise `UnitError` if its dimension is another."""
    try:
        return float(Q(quantity).m_as(unit))
    except pint.DimensionalityError as error:
        raise UnitError(f"{name} must be convertible to {unit}, got {quantity}") from error
    except (pint.UndefinedUnitError, TypeError, ValueError) as error:
        raise UnitError(
            f"{name} must be a number with a unit such as {unit}, got {quantity!r}"
        ) from error
