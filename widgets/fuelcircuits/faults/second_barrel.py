"""A fault of the second barrel alone, where the barrels differ."""

from dataclasses import dataclass, replace

from fuelcircuits.errors import RangeError
from fuelcircuits.faults.fault import Fault
from fuelcircuits.physics.network.rig import Rig

__all__ = ["PREFIX", "in_second_barrel"]

PREFIX = "second-barrel-"
"""What the name of such a fault begins with."""
_OWN = ("low_speed", "high_speed", "power")
"""Sections that each barrel has for itself, but for the air's way, which they share."""


@dataclass(frozen=True)
class _SecondFault(Fault):
    """A fault that changes what the second barrel has, and leaves the first alone."""

    def fits(self, rig: Rig) -> bool:
        """Return whether the rig has a second barrel of its own with the part."""
        sections = {change.entry.partition(".")[0] for change in self.changes}
        own = bool(sections) and sections <= set(_OWN)
        return own and rig.second is not None and super().fits(_whole(rig))

    def apply(self, rig: Rig, severity: float = 1.0) -> Rig:
        """Return the rig with this fault in its second barrel; see `Fault.apply`."""
        if rig.second is None:
            raise RangeError(f"rig must have a second barrel of its own, got none on {rig.name}")
        return replace(rig, second=super().apply(_whole(rig), severity))


def in_second_barrel(fault: Fault) -> Fault:
    """Return a fault as the second barrel has it."""
    return _SecondFault(
        name=f"{PREFIX}{fault.name}",
        circuit=fault.circuit,
        meaning=f"In the second barrel. {fault.meaning}",
        changes=fault.changes,
        part=fault.part,
    )


def _whole(rig: Rig) -> Rig:
    """Return the second barrel with what it has like the first filled in."""
    second = rig.second or rig
    own = {name: getattr(second, name) or getattr(rig, name) for name in _OWN}
    return replace(rig, second=None, air_path=second.air_path or rig.air_path, **own)
