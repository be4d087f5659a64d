"""Faults of a carburettor, each with a severity: what is wrong, never what it will look like.

>>> worn = faults.apply(rig, "worn-needle-seat", 0.5)

`FAULTS` holds them by name, `AROUND` what is wrong around a carburettor and looks like one of
them. `apply` changes a rig, `settings` the conditions of a fault that no entry of a rig holds,
`fuel` what is in the tank; `fitting` names those that a rig can have, and those around it if asked.
"""

import difflib
from collections.abc import Mapping
from types import MappingProxyType

from fuelcircuits.errors import RangeError
from fuelcircuits.faults.air_faults import AIR_FAULTS
from fuelcircuits.faults.around_faults import AROUND_FAULTS
from fuelcircuits.faults.choke_faults import CHOKE_FAULTS
from fuelcircuits.faults.fault import Fault
from fuelcircuits.faults.float_faults import FLOAT_FAULTS
from fuelcircuits.faults.jet_faults import JET_FAULTS
from fuelcircuits.faults.pump_faults import PUMP_FAULTS
from fuelcircuits.faults.second_barrel import PREFIX, in_second_barrel
from fuelcircuits.faults.vent_faults import VENT_FAULTS
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings

__all__ = ["AROUND", "FAULTS", "Fault", "apply", "find", "fitting", "fuel", "settings"]

_TABLES = (AIR_FAULTS, FLOAT_FAULTS, VENT_FAULTS, JET_FAULTS, PUMP_FAULTS, CHOKE_FAULTS)

FAULTS: Mapping[str, Fault] = MappingProxyType(
    {fault.name: fault for table in _TABLES for fault in table}
)
"""Every fault of a carburettor by its name."""

AROUND: Mapping[str, Fault] = MappingProxyType({fault.name: fault for fault in AROUND_FAULTS})
"""Every cause around it that looks like one, by its name."""
_ALL: Mapping[str, Fault] = MappingProxyType({**FAULTS, **AROUND})

_HEALTHY = Settings()


def find(name: str) -> Fault:
    """Return the fault of that name.

    Raises
    ------
    RangeError
        If there is none; the message names the one most like it.
    """
    if name in _ALL:
        return _ALL[name]
    if name.startswith(PREFIX) and name.removeprefix(PREFIX) in FAULTS:
        return in_second_barrel(FAULTS[name.removeprefix(PREFIX)])
    near = difflib.get_close_matches(name, _ALL, n=1, cutoff=0.0)
    raise RangeError(f"fault must be a known one (did you mean {near[0]}?), got {name}")


def apply(rig: Rig, name: str, severity: float = 1.0) -> Rig:
    """Return the rig with a fault of that name and severity; see `Fault.apply`."""
    return find(name).apply(rig, severity)


def settings(
    rig: Rig, name: str, severity: float = 1.0, *, healthy: Settings = _HEALTHY
) -> Settings:
    """Return the settings with a fault of that name and severity; see `Fault.settings`."""
    return find(name).settings(rig, healthy, severity)


def fuel(tank: Fuel, name: str, severity: float = 1.0) -> Fuel:
    """Return the fuel with a fault of that name and severity; see `Fault.fuel`."""
    return find(name).fuel(tank, severity)


def fitting(rig: Rig, *, around: bool = False) -> list[str]:
    """Return the names of the faults that the rig has the parts for, the second barrel's last.

    Causes around the carburettor come after them, if asked for.
    """
    own = (*FAULTS.values(), *(in_second_barrel(fault) for fault in FAULTS.values()))
    every = (*own, *AROUND.values()) if around else own
    return [fault.name for fault in every if fault.fits(rig)]
