"""By how much the entries of a card may be off: little where somebody measured, more where not."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import fields, replace
from math import exp, inf
from types import MappingProxyType
from typing import NamedTuple

from fuelcircuits.cards import SECOND
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.network.rig import Rig

__all__ = [
    "RUNNING",
    "SECOND_BARREL",
    "Dial",
    "dials",
    "named",
    "turned",
    "value_of",
    "with_entries",
]

SECOND_BARREL = "second."
"""What the name of an entry of the second barrel begins with, where the barrels differ."""
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
        "air_path.opens_at": (0.05, 0.15),
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

_SHARED = (
    *("air_path.cleaner_area", "air_path.horn_bore", "air_path.horn_discharge"),
    *("air_path.choke_shaft", "air_path.choke_closed_angle", "air_path.choke_leak"),
)
"""Entries of the air's way that both barrels have together."""

_MODEL = (
    *("breathing", "breathing_speed", "breathing_width", "charge_heating", "compression_ratio"),
    *("indicated_efficiency", "accessory_torque", "cleaner_area", "horn_bore", "choke_leak"),
    *("choke_shaft", "choke_closed_angle", "throttle_leak", "modulus", "flexivity"),
    *("booster_outside", "booster_throat", "booster_exit", "throttle_closed_angle"),
    *("throttle_shaft", "plate_edge", "screw_pitch", "needle_angle", "bowl_area", "float_length"),
    *("float_height", "float_width", "float_arm", "needle_arm", "needle_taper", "needle_mass"),
    *("outside_idle_angle", "outside_rate"),
)
"""Fields that the model needs, but that no owner would look for an error in."""


class Dial(NamedTuple):
    """One entry of a card that may be off, and by how much."""

    entry: str
    """Section and field, with a dot between."""
    value: float
    """What the card says [SI], positive."""
    share: float
    """Standard uncertainty of its logarithm [1]."""
    measured: bool = True
    """Whether somebody measured it."""
    low: float = 0.0
    high: float = inf
    """What it can be at all [SI]."""

    @property
    def of_model(self) -> bool:
        """Whether it is one that the model needs and no owner would look for an error in."""
        name = self.entry.rpartition(".")[2]
        return name in _MODEL or name.endswith(("_discharge", "_recovery"))

    @property
    def measurable(self) -> float:
        """What share it would have left, had somebody measured it [1]."""
        return _OTHERWISE.get(self.entry.removeprefix(SECOND_BARREL), (_MEASURED, _ASSUMED))[0]

    def at(self, turns: float) -> float:
        """Return the entry [SI], so many standard uncertainties up, as far as it can be that."""
        return min(max(self.value * exp(self.share * turns), self.low), self.high)


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
    found = [*_positive(rig, sections)]
    if rig.second is not None:
        own = _positive(rig.second, (name for name in SECOND if name in sections))
        found += [
            one._replace(entry=f"{SECOND_BARREL}{one.entry}")
            for one in own
            if one.entry not in _SHARED
        ]
    return [
        _doubted(one, measured is None or one.entry in measured)
        for one in found
        if one.entry.removeprefix(SECOND_BARREL) not in _FIXED
    ]


def turned(rig: Rig, found: Sequence[Dial], turns: Sequence[float]) -> Rig:
    """Return `rig` with each dial so many standard uncertainties up; see `with_entries`.

    The steps of a metering rod stay in their order.
    """
    moved = {dial.entry: dial.at(by) for dial, by in zip(found, turns, strict=True) if by}
    return with_entries(rig, moved | _thinning(rig, moved))


def with_entries(rig: Rig, entries: Mapping[str, float]) -> Rig:
    """Return `rig` with entries changed, each named by section and field with a dot between.

    Those of a second barrel that differs have ``second.`` before that.

    Raises
    ------
    RangeError
        If the rig has no such section or entry, or a value is out of the entry's range.
    """
    changed: dict[str, dict[str, float]] = {}
    later = {name: each for name, each in entries.items() if name.startswith(SECOND_BARREL)}
    for entry, number in entries.items():
        section, field = named(rig, entry)
        if entry not in later:
            changed.setdefault(section, {})[field] = float(number)
    if later and rig.second is not None:
        own = {name.removeprefix(SECOND_BARREL): each for name, each in later.items()}
        rig = replace(rig, second=with_entries(rig.second, own))
    parts = {section: replace(getattr(rig, section), **new) for section, new in changed.items()}
    return replace(rig, **parts)


def named(rig: Rig, entry: str) -> tuple[str, str]:
    """Return section and field of an entry; raise `RangeError` if the card has it not."""
    own, path = rig, entry
    if entry.startswith(SECOND_BARREL) and rig.second is not None:
        own, path = rig.second, entry.removeprefix(SECOND_BARREL)
    section, _, field = path.partition(".")
    if not hasattr(getattr(own, section, None), field):
        raise RangeError(f"entry must be on the card, got {entry}")
    return section, field


def value_of(rig: Rig, entry: str) -> float:
    """Return an entry [SI]; raise `RangeError` if the card has it not."""
    section, field = named(rig, entry)
    own = rig.second if entry.startswith(SECOND_BARREL) and rig.second is not None else rig
    return float(getattr(getattr(own, section), field))


def _thinning(rig: Rig, moved: Mapping[str, float]) -> dict[str, float]:
    """Return the steps of each metering rod that moved, none thicker than the one before.

    A thicker rich step takes the middle one with it, up to the lean one.
    """
    found: dict[str, float] = {}
    for barrel in ("", SECOND_BARREL):
        names = [f"{barrel}power.{step}_step" for step in ("lean", "middle", "rich")]
        if any(name in moved for name in names):
            lean, middle, rich = (
                moved[name] if name in moved else value_of(rig, name) for name in names
            )
            rich = min(rich, lean)
            found |= zip(names[1:], (min(max(middle, rich), lean), rich), strict=True)
    return found


def _positive(rig: Rig, sections: Iterable[str]) -> Iterator[Dial]:
    """Yield every single number of the sections that is not nought, in no doubt as yet."""
    for section in sections:
        part = getattr(rig, section)
        for field in fields(part) if part is not None else ():
            value = getattr(part, field.name)
            if isinstance(value, float) and value > 0:
                low, high = field.metadata["low"], field.metadata["high"]
                if field.name == "screw_turns":
                    low, high = part.fewest_turns, part.most_turns
                yield Dial(f"{section}.{field.name}", value, 0.0, low=low, high=high)


def _doubted(dial: Dial, measured: bool) -> Dial:
    """Return a dial with how far it is in doubt."""
    entry = dial.entry.removeprefix(SECOND_BARREL)
    known, unknown = _OTHERWISE.get(entry, (_MEASURED, _ASSUMED))
    return dial._replace(share=known if measured else unknown, measured=measured)
