"""A carburettor as it stands, with the states that checks are read in solved once."""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from functools import cached_property, lru_cache
from types import MappingProxyType
from typing import Any

import numpy as np

from fuelcircuits import faults
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits import float_bowl
from fuelcircuits.physics.circuits.float_bowl import FloatState
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.soak_run import restart, soak_run
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State

__all__ = ["POINTS", "Subject", "Warmed", "shown_lambda", "warmed"]

POINTS = ("idle", "off idle", "cruise", "full load", "hot cruise")
"""The loads at which a warm engine is read, in the order of `Subject.steady`."""
_SPEEDS = (150.0, 220.0, 320.0, 220.0)  # rad/s, all but idle
_ANGLES = (0.33, 0.45, np.pi / 2, 0.45)  # rad
_VAPOUR = np.array((0.0, 0.0, 0.0, 0.0, 2e-5))  # kg/s, what boils off in a hot bowl
_SOAK = np.linspace(0.0, 1800.0, 13)  # s
_LEANEST = 60.0  # kg of air to 1 kg of fuel; nothing burns beyond, nor is it shown
_WARM = Settings()
_COLD_PARTS: Mapping[str, Any] = MappingProxyType(
    dict.fromkeys(("low_speed", "power", "pump", "choke", "cold_start", "wall_film"))
)
"""Sections that a hot soak does not know."""


@dataclass(frozen=True)
class Warmed:
    """A healthy rig in its weather, and the loads at which it and its faults are read.

    The throttle stop stays where the healthy engine idles; a fault is read at the same stop and
    the same speed, so that two readings differ by the fault alone.
    """

    rig: Rig
    weather: Weather
    fuel: Fuel
    speeds: tuple[float, ...]
    angles: tuple[float, ...]
    drawn: tuple[float, ...]
    """Fuel drawn at each load [kg/s]."""

    @property
    def stop(self) -> float:
        """Throttle angle of the idle stop [rad]."""
        return self.angles[0]

    def moved(self, weather: Weather, fuel: Fuel) -> "Warmed":
        """Return the same car, its stop untouched, in other weather and on other fuel."""
        return replace(self, weather=_plain(weather), fuel=fuel)


def warmed(rig: Rig, weather: Weather, fuel: Fuel) -> Warmed:
    """Return `rig` with its idle stop set and its loads solved.

    Raises
    ------
    CardError
        If the rig lacks a section that diagnosis needs.
    ConvergenceError
        If the engine cannot idle.
    """
    missing = [
        name
        for name in ("engine", "air_path", "float_bowl", "vents", "low_speed", "high_speed")
        if getattr(rig, name) is None
    ]
    if missing:
        raise CardError(f"{rig.name}: card must have {', '.join(missing)}, got nothing")
    stop = float(network.curb_idle(rig, weather, fuel).throttle_angle)
    speeds, angles = (rig.engine.idle_speed, *_SPEEDS), (stop, *_ANGLES)
    state = network.solve(rig, weather, fuel, np.array(speeds), np.array(angles))
    drawn = tuple(state.fuel_flow.tolist())
    return Warmed(rig, _plain(weather), fuel, speeds, angles, drawn)


def _plain(weather: Weather) -> Weather:
    """Return the weather in plain numbers, which can be a key."""
    return Weather(*(float(getattr(weather, part.name)) for part in fields(weather)))


@dataclass(frozen=True)
class Subject:
    """A carburettor with or without a fault; states are solved when first asked for."""

    warmed: Warmed
    rig: Rig
    settings: Settings = _WARM

    @classmethod
    def with_fault(cls, warmed: Warmed, name: str, severity: float) -> "Subject":
        """Return the carburettor with one fault; `name` may be empty for a healthy one.

        Raises
        ------
        RangeError
            If there is no such fault, or the rig has not the part.
        """
        if not name or severity == 0:
            return cls(warmed, warmed.rig)
        rig = faults.apply(warmed.rig, name, severity)
        return cls(warmed, rig, faults.settings(warmed.rig, name, severity))

    @cached_property
    def bowl(self) -> FloatState:
        """What the float does at each load."""
        return float_bowl.steady(self.rig.float_bowl, self.warmed.fuel, self.warmed.drawn)

    @cached_property
    def leveled(self) -> Settings:
        """The settings with the fuel where the float puts it at each load."""
        bowl = self.rig.float_bowl
        above = np.asarray(self.bowl.level) - (bowl.depth - bowl.specified_level)
        above = np.asarray(self.settings.bowl_level) + np.clip(above, -40e-3, 20e-3)
        return replace(self.settings, bowl_level=np.clip(above, -40e-3, 20e-3))

    @cached_property
    def steady(self) -> State:
        """The warm engine at each of `POINTS`."""
        vapour = np.maximum(self.settings.vapour, _VAPOUR)
        return self.run(replace(self.leveled, vapour=vapour))

    def run(self, settings: Settings) -> State:
        """Return the engine at each of `POINTS` in other settings."""
        at = self.warmed
        speeds, angles = np.array(at.speeds), np.array(at.angles)
        return network.solve(self.rig, at.weather, at.fuel, speeds, angles, settings=settings)

    @property
    def cranking(self) -> float:
        """Longest cranking of a restart in half an hour of hot soak [s]."""
        return _cranking(replace(self.rig, **_COLD_PARTS), self.warmed.weather, self.warmed.fuel)


def shown_lambda(state: State, at: int) -> float:
    """Return lambda at one load as an instrument shows it, at most that of `_LEANEST`."""
    return float(np.minimum(state.ratio, _LEANEST)[at] / state.stoichiometric[at])


@lru_cache(maxsize=512)
def _cranking(rig: Rig, weather: Weather, fuel: Fuel) -> float:
    """Return the longest cranking after a hot soak, for a rig of the parts that matter to it."""
    run = soak_run(rig, weather, fuel, _SOAK)
    return float(restart(rig, weather, fuel, run).cranking.max())
