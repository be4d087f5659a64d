"""A reading as people write it: in the gauge's unit, with the figures its uncertainty leaves."""

from math import floor, log10

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.errors import RangeError, UnitError
from fuelcircuits.quantities.kinds import dimension_of
from fuelcircuits.quantities.reading import read
from fuelcircuits.quantities.trade_units import labelled
from fuelcircuits.quantities.unit_label import unit_label
from fuelcircuits.quantities.units import Q, registry

__all__ = ["doubt_text", "reading_text", "taken"]


def reading_text(check: Check, value: float) -> str:
    """Return a reading [SI] with its unit, to the figures that its uncertainty leaves."""
    doubt = _in_unit(check, check.uncertainty(value))
    return _written(check, _in_unit(check, value), doubt)


def doubt_text(check: Check, value: float) -> str:
    """Return the standard uncertainty of a reading [SI] with its unit, to one or two figures."""
    doubt = _in_unit(check, check.uncertainty(value))
    return _written(check, doubt, doubt)


def taken(check: Check, text: object) -> float:
    """Return a reading that somebody has taken, in SI.

    Parameters
    ----------
    check
        What was read.
    text
        A number, a quantity, or text such as ``"18,5 inHg"``; a bare number is in the check's
        own unit.

    Raises
    ------
    UnitError
        If there is no number in it, or a unit of another kind.
    RangeError
        If no gauge could have shown it.
    """
    value = _taken(check, text)
    if not check.low <= round(_in_unit(check, value), 9) <= check.high:
        rule = f"between {check.low:g} and {labelled(f'{check.high:g}', check.unit)}"
        got = f"{text:~}" if hasattr(text, "magnitude") else text
        raise RangeError(f"{check.name} ({check.label}) must be {rule}, got {got}")
    return value


def _taken(check: Check, text: object) -> float:
    """Return a reading that somebody has taken, in SI, believable or not."""
    try:
        found = read(str(text) if not hasattr(text, "magnitude") else f"{text:~}")[0]
    except UnitError as error:
        raise UnitError(f"{check.name} cannot be read: {error}") from error
    if found.bare:
        return float(registry.Quantity(found.magnitude, check.unit or "").to_base_units().magnitude)
    if found.dimension != dimension_of(check.unit or "dimensionless"):
        raise UnitError(f"{check.name} must be in a unit such as {check.unit}, got {text!r}")
    return found.magnitude


def _in_unit(check: Check, value: float) -> float:
    unit = registry.Unit(check.unit or "dimensionless")
    base = Q(1.0, unit).to_base_units()
    return value / float(base.magnitude)


def _written(check: Check, value: float, doubt: float) -> str:
    """Return a number and its unit, to the digit in which the doubt begins or the next."""
    digits = max(0, -floor(log10(doubt / 2))) if doubt > 0 else 3
    label = unit_label(registry.Unit(check.unit)) if check.unit else ""
    return f"{value:.{digits}f} {label}".strip()
