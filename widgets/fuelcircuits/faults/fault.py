"""A fault: a name, what it means at the bench, and the entries of the rig that it changes."""

from collections.abc import Callable
from dataclasses import dataclass, field

from fuelcircuits.errors import RangeError, between
from fuelcircuits.faults.change import Change, value
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings

__all__ = ["Fault"]

Conditions = Callable[[Rig, Settings, float], Settings]
Tank = Callable[[Fuel, float], Fuel]


def _unchanged(rig: Rig, settings: Settings, severity: float) -> Settings:
    """Return the settings as they are: what a fault of a part does to them."""
    return settings


def _fresh(fuel: Fuel, severity: float) -> Fuel:
    """Return the fuel as it is: what a fault of the car does to it."""
    return fuel


@dataclass(frozen=True)
class Fault:
    """Something wrong with a carburettor, from not at all (0) to as bad as it gets (1)."""

    name: str
    """Words joined by hyphens."""
    circuit: str
    """The circuit a practitioner would look in."""
    meaning: str
    """What is wrong, in plain words, with what a severity of 1 stands for."""
    changes: tuple[Change, ...] = ()
    """Entries of the rig that it changes."""
    part: str = ""
    """Entry that must be positive for the rig to have the part at all; empty if all have it."""
    conditions: Conditions = field(default=_unchanged, repr=False)
    """What it does to the settings, for a fault that no entry of a rig holds."""
    tank: Tank = field(default=_fresh, repr=False)
    """What it does to the fuel."""

    def fits(self, rig: Rig) -> bool:
        """Return whether the rig has the part that this fault is a fault of."""
        try:
            self._check_part(rig)
        except RangeError:
            return False
        return True

    def apply(self, rig: Rig, severity: float = 1.0) -> Rig:
        """Return the rig with this fault.

        Parameters
        ----------
        rig
            A rig, healthy or with faults already.
        severity
            0 (the rig as it is) to 1 [1].

        Returns
        -------
        Rig
            Another rig; for a fault in one barrel alone give it to
            `fuelcircuits.physics.network.solving.solve` as `other`.

        Raises
        ------
        RangeError
            If the severity is out of range, the rig does not have the part, or an entry would
            leave its own range.
        """
        between("severity", severity, 0.0, 1.0)
        self._check_part(rig)
        for change in self.changes:
            rig = change.apply(rig, severity)
        return rig

    def settings(self, rig: Rig, settings: Settings, severity: float = 1.0) -> Settings:
        """Return the settings of a rig with this fault.

        Parameters
        ----------
        rig
            The rig.
        settings
            Settings without the fault.
        severity
            0 to 1 [1].

        Returns
        -------
        Settings
            The same, unless the fault is one of condition and not of a part.

        Raises
        ------
        RangeError
            If the severity is out of range, or the rig does not have the part.
        """
        between("severity", severity, 0.0, 1.0)
        self._check_part(rig)
        return self.conditions(rig, settings, severity)

    def fuel(self, fuel: Fuel, severity: float = 1.0) -> Fuel:
        """Return the fuel with this fault: the same, unless it is the fuel that is bad.

        Raises
        ------
        RangeError
            If the severity, 0 to 1, is out of range.
        """
        between("severity", severity, 0.0, 1.0)
        return self.tank(fuel, severity)

    def _check_part(self, rig: Rig) -> None:
        """Raise unless the rig has every section and the part."""
        for entry in (*(change.entry for change in self.changes), *filter(None, [self.part])):
            value(rig, entry)
        if self.part and not value(rig, self.part) > 0:
            raise RangeError(
                f"{self.part} must be positive for {self.name}, "
                f"got {value(rig, self.part):g} on {rig.name}"
            )
