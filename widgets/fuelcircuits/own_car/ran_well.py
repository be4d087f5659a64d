"""What gauges showed when a car ran well, as its owner writes it down."""

from collections.abc import Mapping
from types import MappingProxyType

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.own_car.readings import understood
from fuelcircuits.physics.matter.fuel import Fuel

__all__ = ["RAN_WELL", "remembered"]

RAN_WELL: Mapping[str, str] = MappingProxyType(
    {
        "idle-vacuum": "Manifold vacuum at warm idle, when it ran well [inHg]",
        "idle-mixture": "Idle mixture, when it ran well or by the sheet (lambda, AFR or % CO)",
    }
)
"""What is asked, by the check's name."""


def remembered(name: str, text: str) -> str:
    """Return a reading with its unit; raise `ReadingError` if no running engine shows it."""
    whole = f"{text} {find(name).unit}".strip() if text.isdecimal() else text
    understood({name: whole}, Fuel())
    return whole
