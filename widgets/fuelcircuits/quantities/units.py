"""Quantities with units for notebooks: ``Q(4.2, "psi")``, ``Q("4,2 psi")``."""

from typing import Any

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.number_text import parts
from fuelcircuits.quantities.registry import QuantityError, registry

__all__ = ["Q", "registry"]


def Q(value: Any, unit: Any = None, *more: Any) -> Any:  # noqa: N802 - what a notebook calls
    """Return the quantity of `value` in `unit`: ``Q(0.9, "lbf")``, or ``Q("0,9 lbf")``.

    Raises
    ------
    UnitError
        If that is no number with a unit; a notebook shows one sentence.
    """
    if more:
        return Q(_with_point(value, unit, *more), more[-1])
    known = (str, registry.Unit, registry.Quantity, type(None))
    if not isinstance(unit, known) or value is None or value is ... or isinstance(value, bool):
        raise QuantityError(f'quantity must be like Q(1.2, "kPa"), got Q({value!r}, {unit!r})')
    return _read(value, unit) if isinstance(value, str) else _made(value, unit)


def _with_point(whole: Any, part: Any, *unit: Any) -> float:
    """Return the number that was written with a decimal comma: ``44,5`` are two numbers."""
    plain = all(type(one) is int for one in (whole, part))
    if len(unit) != 1 or not plain or part < 0:
        raise QuantityError(f'quantity must be like Q(1.2, "kPa"), got {2 + len(unit)} values')
    if len(str(part)) == 3:
        rule = f"number must be written with a decimal point, or without a comma: {whole}.{part}"
        raise QuantityError(f"{rule} or {whole}{part}, got {whole},{part}")
    return float(f"{whole}.{part}")


def _read(text: str, unit: Any) -> Any:
    """Return the quantity that `text` says, with `unit` if it is a number alone."""
    try:
        numbers, own, stated = parts(text)
    except UnitError as error:
        raise QuantityError(str(error)) from None
    if len(numbers) > 1:
        one, other = (f"{number:.12g}" for number in numbers)
        raise QuantityError(
            f"number must be {one} or {other}, written without a comma, got {text!r}"
        )
    if stated:
        raise QuantityError(
            f"quantity must not say {stated}, got {text!r}; hand over the text itself"
        )
    if own and unit is not None:
        return _made(numbers[0], own).to(unit)
    return _made(numbers[0], own if unit is None else unit)


def _made(value: Any, unit: Any) -> Any:
    """Return the quantity that the registry makes."""
    return registry.Quantity(value, unit)
