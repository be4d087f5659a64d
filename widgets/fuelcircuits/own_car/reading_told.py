"""How a reading stands, in a sentence: what it needs, understood, or wrong."""

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.shown import reading_text, unit_shown
from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.entry_told import Told
from fuelcircuits.own_car.readings import believed
from fuelcircuits.own_car.tools import TOOLS
from fuelcircuits.physics.matter.fuel import Fuel

__all__ = ["HOW", "in_own_unit", "reading_label", "reading_told"]

HOW = (
    "Write what your gauges showed, each with its unit, and leave open what you have not read. A "
    "mixture is lambda, or 13.5 AFR, or 2.5 % CO. Before you read at idle, set the idle speed back "
    "with its screw. Light loads are held by the vacuum gauge, on the road with somebody else at "
    "the wheel: just off idle 1400 rpm at 16 inHg, cruise 2100 rpm at 12 inHg; full load is 3000 "
    "rpm wide open. The last ones lie around the carburettor and imitate its faults: rule these "
    "out first. Once one of them is read, such causes are weighed too."
)
"""What is said above the readings."""


def reading_label(check: Check) -> str:
    """Return what is asked, with the unit in which a number alone is taken."""
    unit = unit_shown(check)
    return f"{check.label} [{unit}]" if unit else check.label


def reading_told(check: Check, text: str, fuel: Fuel) -> Told:
    """Return how a reading stands.

    Parameters
    ----------
    check
        What is asked.
    text
        What somebody wrote; may be empty.
    fuel
        What is in the tank; an air-fuel ratio hangs on it.
    """
    if not text.strip():
        needs = TOOLS.get(check.name, "exhaust analyser")
        return Told(f"{check.minutes:g} min; {needs}. {check.caution}".strip())
    try:
        value = believed(check, text, fuel)
    except CircuitError as error:
        return Told(str(error).removeprefix(f"{check.name} (").replace(")", "", 1), "wrong")
    return Told(f"Understood: {reading_text(check, value)}.", "good")


def in_own_unit(check: Check, text: str, fuel: Fuel) -> str:
    """Return a reading with its unit; empty if there is none, or none that can be used."""
    plain = text.strip()
    if not plain or reading_told(check, plain, fuel).how == "wrong":
        return ""
    bare = all(sign in "0123456789.,+- " for sign in plain)
    return f"{plain} {unit_shown(check)}".strip() if bare else plain
