"""Read a value with its unit, as a person in the trade would write it down.

``12.5 inHg``, ``12,5 inHg``, ``1 234.5 Pa``, ``1.2 x 10^-3 kg/s``, ``1-1/4 in``, ``5 psi gauge``.
The text may come from anybody: whatever it holds, reading it is quick, and ends in readings
or in a `UnitError`.
"""

import math
from dataclasses import dataclass

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.kinds import Dimension, dimension_of
from fuelcircuits.quantities.number_text import Stated, parts
from fuelcircuits.quantities.trade_units import labelled, scale

__all__ = ["Reading", "measure", "read"]


@dataclass(frozen=True)
class Reading:
    """A value in SI, the dimension of it, and where it says it counts from.

    `bare` is true if no unit was written at all. `degrees` is set for a point on a temperature
    scale (20 degC): the value [K] if it was meant as a difference of temperatures.
    """

    magnitude: float
    dimension: Dimension
    text: str
    stated: Stated = ""
    bare: bool = False
    degrees: float | None = None


def read(text: str) -> tuple[Reading, ...]:
    """Return what `text` can mean: one reading, or two where a comma leaves it open.

    Raises
    ------
    UnitError
        If there is no number, or what follows it is not a unit.
    """
    numbers, unit, stated = parts(text)
    return tuple(measure(number, unit, stated) for number in numbers)


def measure(magnitude: float, unit: str, stated: Stated = "") -> Reading:
    """Return `magnitude` in `unit` as a reading; raise `UnitError` if it cannot be one."""
    known = scale(unit)
    value = known.factor * magnitude + known.offset
    if not math.isfinite(value):
        raise UnitError(f"answer must be a finite number, got {magnitude}")
    if known.name.startswith("delta_"):
        stated = "difference"
    degrees = known.factor * magnitude if known.degrees else None
    five_figures = float(f"{magnitude:.5g}")
    text = labelled(f"{five_figures:.9g}", unit)
    if stated == "difference":
        text += " (difference)"
    return Reading(value, dimension_of(unit), text, stated, not unit, degrees)
