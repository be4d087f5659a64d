"""Readings as an owner writes them down, and whether a running engine can have shown them."""

import re
from collections.abc import Mapping
from math import inf
from types import MappingProxyType

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import find, fitting
from fuelcircuits.diagnosis.shown import reading_text, taken
from fuelcircuits.errors import CircuitError, RangeError
from fuelcircuits.own_car.entry_reading import is_bare
from fuelcircuits.physics.matter.exhaust import dry, products
from fuelcircuits.physics.matter.fuel import Fuel, composition, stoichiometric_ratio
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.root import root

__all__ = ["BELIEVED", "ReadingError", "asked", "believed", "lambda_of_co", "understood"]

LAMBDA = (0.5, 3.0)
"""Lambda that an engine runs between [1]; common practice, no source."""
BELIEVED: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "idle-vacuum": (7e3, 95e3),
        "port-vacuum": (1.0, 25e3),
        "idle-mixture": LAMBDA,
        "off-idle-mixture": LAMBDA,
        "cruise-mixture": LAMBDA,
        "full-load-mixture": LAMBDA,
        "cold-mixture-soon": LAMBDA,
        "cold-mixture-later": LAMBDA,
        "warm-mixture-soon": LAMBDA,
        "fuel-pressure": (0.0, 105e3),
        "full-load-vacuum": (0.0, 85e3),
    }
)
"""What a running engine can show [SI], where that is less than a gauge can; common practice, no
source."""
LEAST_CO, MOST_CO = 0.5, 12.0
"""Carbon monoxide that tells lambda [% by volume]: with less the mixture may be anything leaner."""
SHOP_UNITS = ("kPa", "inHg", "psi", "bar", "mmHg", "mbar", "mm", "in", "ml", "g", "oz")
"""What gauges show besides, the usual first."""
HINT = ' A meter that shows something else is written with its unit: "13.5 AFR", "2.5 % CO".'
_RATIO = re.compile(r"\s*([\d.,]+)\s*(?:A/?F(?:R)?|(?::|to|zu)\s*1)\s*", re.IGNORECASE)
_CO = re.compile(
    r"\s*(?:CO\s*[:=]?\s*([\d.,]+)\s*%|([\d.,]+)\s*%?\s*(?:vol\.?)?\s*CO)\s*", re.IGNORECASE
)


class ReadingError(RangeError):
    """Some of what was written down of a day cannot be used; a line for each."""

    def _render_traceback_(self) -> list[str]:
        """Return what a notebook shows: what is at fault, and no code."""
        return ["This cannot be used yet:", *str(self).splitlines()]


def asked(rig: Rig) -> tuple[Check, ...]:
    """Return what an owner is asked to read, what lies around the carburettor last."""
    own = fitting(rig)
    around = [check for check in fitting(rig, around=True)[len(own) :] if not check.slow]
    return (*own, *around)


def understood(readings: Mapping[str, object], fuel: Fuel) -> dict[str, float]:
    """Return readings by the check's name in SI; raise `ReadingError` naming all that are amiss."""
    found, faults = dict[str, float](), list[str]()
    for name, text in readings.items():
        try:
            check = find(name)
            found[check.name] = believed(check, text, fuel)
        except CircuitError as error:
            faults.append(str(error))
    if faults:
        raise ReadingError("\n".join(faults))
    return found


def believed(check: Check, text: object, fuel: Fuel) -> float:
    """Return a reading in SI, if a running engine can have shown it.

    Parameters
    ----------
    check
        What was read.
    text
        As for `fuelcircuits.diagnosis.shown.taken`; a mixture may also be an air-fuel ratio,
        ``"13.5 AFR"``, or carbon monoxide, ``"2.5 % CO"``.
    fuel
        What is in the tank.

    Raises
    ------
    UnitError
        If there is no number in it, or a unit of another kind.
    RangeError
        If no engine that runs shows that.
    """
    mixture = check.unit == "" and "mixture" in check.name
    hint = HINT if mixture else _other_unit(check, text)
    try:
        value = _as_lambda(text, fuel) if mixture and isinstance(text, str) else None
        value = taken(check, text) if value is None else value
    except RangeError as error:
        raise RangeError(f"{error}.{hint}") from None
    least, most = BELIEVED.get(check.name, (-inf, inf))
    if least <= value <= most:
        return value
    raise RangeError(
        f"{check.name} ({check.label}) must be between {reading_text(check, least)} and "
        f"{reading_text(check, most)}, which is all that a running engine shows, got {text}.{hint}"
    )


def _other_unit(check: Check, text: object) -> str:
    """Return the unit in which a number that has none would be believable, as a sentence."""
    if not isinstance(text, str) or not is_bare(text):
        return ""
    fits = [unit for unit in SHOP_UNITS if unit != check.unit and _fits(check, f"{text} {unit}")]
    return (
        f' A gauge in another unit is written with it: "{text.strip()} {fits[0]}".' if fits else ""
    )


def _fits(check: Check, text: str) -> bool:
    """Return whether a running engine can have shown that."""
    least, most = BELIEVED.get(check.name, (-inf, inf))
    try:
        return least <= taken(check, text) <= most
    except CircuitError:
        return False


def _as_lambda(text: str, fuel: Fuel) -> float | None:
    """Return lambda from an air-fuel ratio or carbon monoxide, if the text says one."""
    if found := _RATIO.fullmatch(text):
        return _number(found[1]) / stoichiometric_ratio(fuel)
    if found := _CO.fullmatch(text):
        return lambda_of_co(_number(found[1] or found[2]), fuel)
    return None


def lambda_of_co(percent: float, fuel: Fuel) -> float:
    """Return lambda of a rich mixture from carbon monoxide in the dry exhaust [% by volume].

    Raises
    ------
    RangeError
        If there is so little that the mixture may be anything leaner, or more than any engine
        that runs makes.

    References
    ----------
    The inverse of `fuelcircuits.physics.matter.exhaust.products`.
    """
    if not LEAST_CO <= percent <= MOST_CO:
        raise RangeError(
            f"carbon monoxide must be between {LEAST_CO:g} and {MOST_CO:g} %, got {percent:g} %: "
            "with less it does not tell how lean the mixture is"
        )
    made_of = composition(fuel)

    def more(ratio: float) -> float:
        return 100.0 * dry(products(ratio, made_of.hydrogen, made_of.oxygen)).co - percent

    return root(more, 0.5, 1.0, name="lambda", tolerance=1e-6)


def _number(text: str) -> float:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise RangeError(f"reading must be one number, got {text}") from None
