"""What a change would do to a car: the same loads before and after, side by side."""

from collections.abc import Callable
from typing import NamedTuple

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.shown import reading_text
from fuelcircuits.diagnosis.subject import Subject, warmed
from fuelcircuits.own_car.unbroken import unbroken
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Outlook", "what_if"]

CHECKS = (
    *("idle-vacuum", "idle-mixture", "off-idle-mixture", "cruise-mixture", "full-load-mixture"),
    "level-at-idle",
)
LEAN_FULL_LOAD = 1.05
"""Lambda at full load beyond which an engine may overheat; common practice, no source."""
_SEA_LEVEL, _PETROL = Weather.at(), Fuel()


class Outlook(NamedTuple):
    """Readings to expect before and after a change [SI], by the check's name."""

    before: dict[str, float]
    after: dict[str, float]
    note: str = ""
    """Where and on what both are, in a sentence."""

    @property
    def warning(self) -> str:
        """What to beware of after the change; empty if nothing."""
        if self.after["full-load-mixture"] <= LEAN_FULL_LOAD:
            return ""
        return (
            "**Caution.** Full load would be lean after this change. A lean engine at full load "
            "burns valves and pistons: do not drive it so."
        )

    def __repr__(self) -> str:
        """Return both columns as text."""
        lines = [self.note, "", "| reading | before | after | |", "| --- | --- | --- | --- |"]
        for name, old in self.before.items():
            check, new = find(name), self.after[name]
            shown = f"{reading_text(check, old)} | {reading_text(check, new)}"
            lines.append(f"| {check.label} | {shown} | {_came(name, old, new)} |")
        return "\n".join([*lines, "", self.warning])

    def _repr_markdown_(self) -> str:
        """Show both columns in a notebook."""
        return unbroken(repr(self))


def what_if(
    rig: Rig,
    change: Callable[[Rig], Rig] = lambda rig: rig,
    *,
    weather: Weather = _SEA_LEVEL,
    fuel: Fuel = _PETROL,
    other_weather: Weather | None = None,
    other_fuel: Fuel | None = None,
) -> Outlook:
    """Return what a car would read before and after a change.

    Parameters
    ----------
    rig
        The car as it is; its screws stay where they are, its idle speed is set back.
    change
        What is changed on the carburettor, for example
        ``lambda rig: with_entries(rig, {"high_speed.jet_bore": 1.4e-3})``.
    weather, fuel
        As it is read now.
    other_weather, other_fuel
        Where it goes, and on what; as now if not given.

    Returns
    -------
    Outlook
        Readings at idle, off idle, cruise and full load [SI].

    Raises
    ------
    RangeError
        If the change leaves the range of an entry.
    ConvergenceError
        If there is no balance at one of the loads.
    CardError
        If the rig lacks a section that the model needs.
    """
    home = warmed(rig, weather, fuel, by_vacuum=True)
    away = home.moved(other_weather or weather, other_fuel or fuel)
    return Outlook(_readings(Subject(home, rig)), _readings(Subject(away, change(rig))))


def _came(name: str, old: float, new: float) -> str:
    """Return what comes of a reading, in words."""
    if abs(new - old) < find(name).uncertainty(old):
        return "less than a gauge can tell"
    up, down = ("leaner", "richer") if name.endswith("mixture") else ("higher", "lower")
    return up if new > old else down


def _readings(car: Subject) -> dict[str, float]:
    return {name: find(name).read(car) for name in CHECKS}
