"""What a fault does to one entry of a rig: where the entry goes, and along which road.

A fault never says what an engine will do. It moves dimensions; the equations do the rest.
"""

from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from math import sqrt

from fuelcircuits.errors import RangeError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Change", "moved", "narrowed", "raised", "scaled", "value"]


@dataclass(frozen=True)
class Change:
    r"""One entry of a rig on its way from what it is to what the whole fault makes of it.

    .. math:: x(s) = \left[(1 - s)\,x_0^n + s\,x_1^n\right]^{1/n}

    with s the severity; n is 1, or 2 for a bore whose area goes evenly with the severity.
    """

    entry: str
    """Section and field, with a dot between."""
    end: Callable[[float, Rig], float]
    """What the whole fault makes of the entry, given what it is, and on which rig."""
    power: int = 1
    """n of the equation [1]."""

    def apply(self, rig: Rig, severity: float) -> Rig:
        """Return `rig` with the entry changed, as far as such an entry can go.

        Raises
        ------
        RangeError
            If the rig has no such section, or the new value does not go with the others.
        """
        section, field = self.entry.split(".")
        old, part = value(rig, self.entry), getattr(rig, section)
        facts = {one.name: one.metadata for one in fields(part)}[field]
        new = self.between(old, self.end(old, rig), severity)
        changed = replace(part, **{field: min(max(new, facts["low"]), facts["high"])})
        return replace(rig, **{section: changed})

    def between(self, old: float, end: float, severity: float) -> float:
        """Return the value on the road from `old` to `end`, never past either."""
        mean = (1 - severity) * old**self.power + severity * end**self.power
        root = mean if self.power == 1 else sqrt(mean)
        return min(max(root, min(old, end)), max(old, end))


def value(rig: Rig, entry: str) -> float:
    """Return one entry of a rig, named by section and field with a dot between.

    Raises
    ------
    RangeError
        If the rig has no such section.
    """
    section, field = entry.split(".")
    if getattr(rig, section) is None:
        raise RangeError(f"rig must have a section {section}, got none on {rig.name}")
    return float(getattr(getattr(rig, section), field))


def moved(entry: str, end: float) -> Change:
    """Return the change of an entry to `end`, whatever it was: a part that sticks or fails."""
    return Change(entry, lambda old, rig: end)


def scaled(entry: str, share: float) -> Change:
    """Return the change of an entry to `share` of what it was."""
    return Change(entry, lambda old, rig: share * old)


def raised(entry: str, amount: float) -> Change:
    """Return the change of an entry by `amount`: a leak on top of what there is."""
    return Change(entry, lambda old, rig: old + amount)


def narrowed(entry: str, share: float = 0.0) -> Change:
    """Return the change of a bore to `share` of its area: dirt, gum or carbon in it."""
    return Change(entry, lambda old, rig: sqrt(share) * old, power=2)
