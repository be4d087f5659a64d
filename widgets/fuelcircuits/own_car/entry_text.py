"""An entry of a card as people write it: its meaning, and its value in the shop's unit."""

import dataclasses
import typing
from collections.abc import Mapping
from math import radians
from types import MappingProxyType
from typing import Any

from fuelcircuits.physics.network.rig import Rig

__all__ = ["entry_facts", "entry_meaning", "entry_text", "shop_unit"]

_SHOP: Mapping[str, tuple[str, float]] = MappingProxyType(
    {
        "m": ("mm", 1e-3),
        "m^2": ("mm²", 1e-6),
        "m^3": ("L", 1e-3),
        "kg": ("g", 1e-3),
        "Pa": ("kPa", 1e3),
        "rad": ("°", radians(1.0)),
        "rad/s": ("rpm", radians(6.0)),
        "1": ("", 1.0),
    }
)
"""SI unit of an entry, the shop's unit, and how much of the first is one of the second."""


def entry_facts(entry: str) -> Mapping[str, Any]:
    """Return unit, range and meaning of an entry named by section and field; raise `KeyError`."""
    section, _, name = entry.removeprefix("second.").partition(".")
    kind = typing.get_type_hints(Rig)[section]
    return {field.name: field.metadata for field in dataclasses.fields(kind)}[name]


def entry_meaning(entry: str) -> str:
    """Return what an entry is, in words."""
    return str(entry_facts(entry)["meaning"])


def entry_text(entry: str, value: float, figures: int = 3) -> str:
    """Return an entry's value [SI] with the shop's unit, to so many figures: ``1.53 mm``."""
    label, one = shop_unit(entry)
    between = "" if label == "°" else " "
    return f"{float(f'{value / one:.{figures}g}'):g}{between}{label}".strip()


def shop_unit(entry: str) -> tuple[str, float]:
    """Return the shop's unit for an entry, and how much in SI is one of it."""
    unit = str(entry_facts(entry)["unit"])
    return _SHOP.get(unit, (unit, 1.0))
