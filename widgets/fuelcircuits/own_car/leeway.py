"""By how much the entries of a card may be off: little where somebody measured, more where not."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import fields, replace
from math import exp
from types import MappingProxyType
from typing import NamedTuple

from fuelcircuits.errors import RangeError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["RUNNING", "Dial", "dials", "named", "turned", "with_entries"]

RUNNING = ("engine", "air_path", "float_bowl", "vents", "low_speed", "high_speed", "power")
"""Sections that every reading of a running engine hangs on."""
_MEASURED, _ASSUMED = 0.02, 0.15
"""Standard uncertainty of an entry that was measured, and of one that was not, in relation to
itself [1]; common practice, no source."""
_OTHERWISE: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "engine.displacement": (0.01, 0.05),
        "engine.idle_speed": (0.03, 0.08),
        "engine.breathing": (0.05, 0.06),
        "engine.breathing_speed": (0.1, 0.15),
        "engine.breathing_width": (0.1, 0.15),
        "engine.compression_ratio": (0.01, 0.05),
        "engine.charge_heating": (0.2, 0.3),
        "engine.indicated_efficiency": (0.05, 0.05),
        "engine.accessory_torque": (0.2, 0.3),
        "air_path.cleaner_area": (0.2, 0.3),
        "air_path.choke_leak": (0.3, 0.3),
        "air_path.throttle_bore": (0.005, 0.03),
        "air_path.venturi_bore": (0.01, 0.05),
        "air_path.throttle_leak": (0.5, 0.5),
        "air_path.horn_discharge": (0.05, 0.05),
        "air_path.venturi_discharge": (0.03, 0.03),
        "air_path.throttle_discharge": (0.05, 0.05),
        "air_path.booster_recovery": (0.05, 0.1),
        "air_path.venturi_recovery": (0.05, 0.1),
        "float_bowl.depth": (0.01, 0.1),
        "float_bowl.float_setting": (0.04, 0.15),
        "float_bowl.specified_level": (0.04, 0.1),
        "float_bowl.fuel_pressure": (0.05, 0.25),
        "low_speed.screw_turns": (0.05, 0.25),
        "high_speed.lip": (0.1, 0.3),
        "power.spring_force": (0.05, 0.2),
        "choke.set_temperature": (0.01, 0.02),
        "choke.modulus": (0.02, 0.02),
        "choke.flexivity": (0.02, 0.05),
        "cold_start.switch_point": (0.005, 0.01),
    }
)
_FIXED = (
    *("engine.cylinders", "engine.highest_speed", "engine.inertia", "engine.manifold_share"),
    *("air_path.barrels", "low_speed.fewest_turns", "low_speed.most_turns"),
    *("low_speed.screw_meters_air", "low_speed.valve_most", "power.most_lift", "power.first_edge"),
    *("power.second_edge", "power.taper", "high_speed.hole_count", "pump.jet_count"),
    *("vents.switched_share", "vents.solenoid_pull"),
)
"""Entries that are counted, or that no steady reading hangs on."""


class Dial(NamedTuple):
    """One entry of a card that may be off, and by how much."""

    entry: str
    """Section and field, with a dot between."""
    value: float
    """What the card says [SI], positive."""
    share: float
    """Standard uncertainty of its logarithm [1]."""

    def at(self, turns: float) -> float:
        """Return the entry [SI], so many standard uncertainties up."""
        return self.value * exp(self.share * turns)


def dials(
    rig: Rig, measured: Collection[str] | None = None, sections: Iterable[str] = RUNNING
) -> list[Dial]:
    """Return the entries of a rig that may be off.

    Parameters
    ----------
    rig
        The card.
    measured
        Entries that somebody has measured, each named by section and field with a dot between;
        all of them if not given.
    sections
        Sections to look in; one that the rig lacks has no entries.
    """
    return [
        Dial(entry, value, _share(entry, measured is None or entry in measured))
        for entry, value in _positive(rig, sections)
        if entry not in _FIXED
    ]


def turned(rig: Rig, found: Sequence[Dial], turns: Sequence[float]) -> Rig:
    """Return `rig` with each dial so many standard uncertainties up; see `with_entries`."""
    moved = {dial.entry: dial.at(by) for dial, by in zip(found, turns, strict=True) if by}
    return with_entries(rig, moved)


def with_entries(rig: Rig, entries: Mapping[str, float]) -> Rig:
    """Return `rig` with entries changed, each named by section and field with a dot between.

    Raises
    ------
    RangeError
        If the rig has no such section or entry, or a value is out of the entry's range.
    """
    changed: dict[str, dict[str, float]] = {}
    for entry, number in entries.items():
        section, field = named(rig, entry)
        changed.setdefault(section, {})[field] = float(number)
    parts = {section: replace(getattr(rig, section), **new) for section, new in changed.items()}
    return replace(rig, **parts)


def named(rig: Rig, entry: str) -> tuple[str, str]:
    """Return section and field of an entry; raise `RangeError` if the card has it not."""
    section, _, field = entry.partition(".")
    if not hasattr(getattr(rig, section, None), field):
        raise RangeError(f"entry must be on the card, got {entry}")
    return section, field


def _positive(rig: Rig, sections: Iterable[str]) -> Iterator[tuple[str, float]]:
    """Yield every single number of the sections that is not nought, with its name."""
    for section in sections:
        part = getattr(rig, section)
        for field in fields(part) if part is not None else ():
            value = getattr(part, field.name)
            if isinstance(value, float) and value > 0:
                yield f"{section}.{field.name}", value


def _share(entry: str, measured: bool) -> float:
    known, unknown = _OTHERWISE.get(entry, (_MEASURED, _ASSUMED))
    return known if measured else unknown
