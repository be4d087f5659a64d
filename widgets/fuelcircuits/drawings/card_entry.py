"""What a rig's card says in one entry, as it is written in the shop."""

import dataclasses
from math import degrees

from fuelcircuits.physics.network.rig import Rig

__all__ = ["entry_text"]

SHOWN = {
    "m": (1e3, "mm"),
    "m**2": (1e6, "mm²"),
    "m^2": (1e6, "mm²"),
    "Pa": (1e-3, "kPa"),
    "kg": (1e3, "g"),
    "rad": (degrees(1.0), "°"),
    "1": (1.0, ""),
    "m/rad": (1e3, "mm/rad"),
    "rad/s": (30 / 3.141592653589793, "rpm"),
}
"""By what a number in SI is multiplied, and the unit that it is shown in."""


def entry_text(rig: Rig, path: str) -> str:
    """Return what an entry such as ``high_speed.jet_bore`` means and what it is.

    It is nothing where the card leaves the section out.

    Raises
    ------
    KeyError
        If there is no such entry.
    """
    section_name, _, name = path.partition(".")
    section = getattr(rig, section_name)
    if section is None:
        return ""
    fields = {field.name: field for field in dataclasses.fields(section)}
    facts = fields[name].metadata
    value = getattr(section, name)
    each = value if isinstance(value, tuple) else (value,)
    shown = ", ".join(_number(one, facts.get("unit", "1")) for one in each)
    return f"{facts.get('meaning', name.replace('_', ' '))}: {shown}"


def _number(value: float, unit: str) -> str:
    if unit == "K":
        return f"{value - 273.15:.3g} °C"
    factor, shown = SHOWN.get(unit, (1.0, unit))
    apart = "" if shown in ("", "°") else " "
    return f"{value * factor:.4g}{apart}{shown}"
