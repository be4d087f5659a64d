"""A reading as people write it: in the gauge's unit, with the figures its uncertainty leaves."""

from math import floor, log10

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.errors import RangeError, UnitError
from fuelcircuits.quantities.number_text import parts
from fuelcircuits.quantities.written import spelt_unit, unit_in

__all__ = ["doubt_text", "reading_text", "taken", "unit_shown"]


def unit_shown(check: Check) -> str:
    """Return the unit of a reading as people write it, and as they may type it; empty if none."""
    return unit_in(check.unit).label.replace("₂", "2") if check.unit else ""


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
        rule = f"between {check.low:g} and {_labelled(f'{check.high:g}', check)}"
        got = f"{text:~}" if hasattr(text, "magnitude") else text
        raise RangeError(f"{check.name} ({check.label}) must be {rule}, got {got}")
    return value


def _taken(check: Check, text: object) -> float:
    """Return a reading that somebody has taken, in SI, believable or not.

    Where a difference of temperatures is asked, degrees of any scale are taken as one.
    """
    unit = unit_shown(check)
    rule = f"a number with a unit such as {unit}" if unit else "a number without a unit"
    refused = UnitError(f"{check.name} ({check.label}) must be {rule}, got {text!r}")
    try:
        numbers, unit, _ = parts(str(text) if not hasattr(text, "magnitude") else f"{text:~}")
        found, own = spelt_unit(unit or check.unit), unit_in(check.unit)
    except UnitError as error:
        raise refused from error
    if found.dimension != own.dimension:
        raise refused
    return numbers[0] * found.one + (found.nought if own.nought else 0.0)


def _in_unit(check: Check, value: float) -> float:
    return value / unit_in(check.unit).one


def _labelled(number: str, check: Check) -> str:
    label = unit_shown(check)
    return f"{number}{'' if label == '°' else ' '}{label}".strip()


def _written(check: Check, value: float, doubt: float) -> str:
    """Return a number and its unit, to the digit in which the doubt begins or the next."""
    digits = max(0, -floor(log10(doubt / 2))) if doubt > 0 else 3
    return _labelled(f"{value:.{digits}f}", check)
