"""Quantities with units for notebooks, ``Q(4.2, "psi")``: the registry that Pint keeps."""

from typing import Any

import pint

__all__ = ["Q", "registry"]

registry: pint.UnitRegistry[Any] = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
registry.define("cubic_foot_per_minute = foot ** 3 / minute = cfm")
pint.set_application_registry(registry)  # type: ignore[no-untyped-call]
Q = registry.Quantity
