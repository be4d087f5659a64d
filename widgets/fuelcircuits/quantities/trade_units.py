"""Units of the trade as ways to SI, and numbers with them as people write them."""

from functools import lru_cache
from typing import Any, NamedTuple

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.registry import PintError, registry
from fuelcircuits.quantities.unit_label import unit_label

__all__ = ["Scale", "labelled", "scale", "trade_unit"]


@lru_cache(maxsize=1024)
def trade_unit(text: str) -> Any:
    """Return `text` as a unit of the registry; raise `UnitError` naming what is not known."""
    return registry.parse_units(text)


class Scale(NamedTuple):
    """A unit's way to SI: ``SI value = factor * value + offset``, and how it is written."""

    factor: float
    offset: float
    name: str
    short: str

    @property
    def degrees(self) -> bool:
        """Whether the unit is a point on a temperature scale, such as degC."""
        return self.offset != 0


@lru_cache(maxsize=1024)
def scale(text: str) -> Scale:
    """Return the way from the unit `text` to SI; raise `UnitError` if there is none."""
    unit = trade_unit(text)
    try:
        offset, one = (
            float(registry.Quantity(value, unit).to_base_units().magnitude) for value in (0.0, 1.0)
        )
    except (PintError, ArithmeticError, TypeError) as error:
        raise UnitError(f"unit must be one a number can have, got {text!r}") from error
    return Scale(one - offset, offset, str(unit), unit_label(unit))


def labelled(number: str, unit: str) -> str:
    """Return a number with its unit as people write it, ``12.6 mm²``; never raise.

    A unit nobody knows stands as it is, cut short.
    """
    try:
        label = _label(unit)
    except UnitError:
        label = unit[:40]
    return f"{number}{'' if label == '°' else ' '}{label}".strip()


@lru_cache(maxsize=1024)
def _label(text: str) -> str:
    """Return the label of the unit `text`; raise `UnitError` for one nobody knows."""
    return unit_label(trade_unit(text))
