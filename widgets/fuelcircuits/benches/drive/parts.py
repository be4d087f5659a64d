"""Parts of the driven carburettor that have a bench of their own, and what a moment sets there.

One table says it for all of them: the part, its bench, and which of the bench's controls takes
which value of the moment. Each part also says what its bench leaves out, for a bench is steady,
or makes a run of its own, and shows what the drive showed only as far as that goes.
"""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from fuelcircuits.benches.drive.driven import Driven
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["BREATH", "PARTS", "Part", "parts_of"]

BREATH = 1e-6
"""Air from which on there is a mixture [kg/s]."""

FINE = 5
"""Digits to which a share of the throttle's way is told; a plate on its stop is shut."""

Taken = Callable[[Driven, Row], float | None]
"""What a control takes of a moment, in SI; nothing where the moment has none."""


class Part(NamedTuple):
    """A part, and how its bench comes to stand at a moment."""

    name: str  # what the part is called
    section: str  # of the card, without which there is no such part
    takes: Mapping[str, Taken]  # by the control's name
    sizes: Mapping[str, str]  # entry of the section by the control's name
    leaves: str  # what the bench does not take over


def _moment(entry: str) -> Taken:
    """Return what takes an entry of the moment's row."""
    return lambda _, row: float(getattr(row, entry))


def _settled(entry: str) -> Taken:
    """Return what takes an entry of what was settled before the drive."""
    return lambda driven, _: float(getattr(driven.outing, entry))


def _opening(driven: Driven, row: Row) -> float:
    """Return how far the throttle is open on its way from the idle stop [1]."""
    return round((row.throttle - driven.car.stop) / (OPEN - driven.car.stop), FINE)


def _mixture(_: Driven, row: Row) -> float | None:
    """Return lambda, where air moves."""
    return row.mixture if row.air > BREATH else None


PARTS: Mapping[str, Part] = {
    "air_path": Part(
        "throttle and venturi",
        "air_path",
        {
            "throttle": _moment("throttle"),
            "speed": _moment("speed"),
            "choke_angle": _moment("choke"),
            "altitude": _settled("altitude"),
        },
        {"venturi_bore": "venturi_bore"},
        "It carries air alone, at 25 °C, and every state of it is steady.",
    ),
    "float_bowl": Part(
        "float",
        "float_bowl",
        {"demand": _moment("fuel")},
        {
            "fuel_pressure": "fuel_pressure",
            "seat_bore": "seat_bore",
            "float_setting": "float_setting",
            "soaked": "soaked",
        },
        "It shows where the level settles if this much fuel is drawn on; on the road it lags.",
    ),
    "bowl_vents": Part(
        "bowl and vents",
        "vents",
        {"fuel_temperature": _moment("bowl")},
        {},
        "Speed and throttle are those of the way of running that is chosen there.",
    ),
    "low_speed": Part(
        "low-speed circuit",
        "low_speed",
        {},
        {
            "screw_turns": "screw_turns",
            "jet_bore": "jet_bore",
            "bypass_bore": "bypass_bore",
            "air_bleed_bore": "air_bleed_bore",
            "economizer_bore": "economizer_bore",
        },
        "It idles warm on the card's throttle stop, whatever the drive did.",
    ),
    "off_idle": Part(
        "slot and ports",
        "low_speed",
        {"throttle": _moment("throttle")},
        {
            "slot_width": "slot_width",
            "slot_height": "slot_height",
            "slot_start": "slot_start",
            "screw_turns": "screw_turns",
            "valve_opening": "valve_opening",
        },
        "Its speed follows the throttle as on a flow stand, at sea level, warm and steady.",
    ),
    "high_speed": Part(
        "main nozzle",
        "high_speed",
        {"throttle": _opening, "altitude": _settled("altitude")},
        {"jet_bore": "jet_bore", "air_bleed": "air_bleed_bore", "lip": "lip"},
        "Its speed follows the throttle as on a flow stand, warm and steady.",
    ),
    "power": Part(
        "metering rod",
        "power",
        {"throttle": _opening, "speed": _moment("speed")},
        {"spring": "spring_force", "lean_step": "lean_step", "rich_step": "rich_step"},
        "It runs at sea level, warm, and every state of it is steady.",
    ),
    "pump": Part(
        "pump",
        "pump",
        {"opened_from": _opening, "speed": _moment("speed"), "coolant": _moment("coolant")},
        {"jet": "jet_bore", "spring": "spring_rate", "lost": "linkage_start"},
        "It makes a tip-in of its own from this throttle, at sea level, at a speed that is held.",
    ),
    "choke": Part(
        "choke",
        "choke",
        {"outside": _settled("outside"), "speed": _moment("speed")},
        {"offset": "plate_offset"},
        "It makes a warm-up of its own from cold, at sea level, at a speed that is held.",
    ),
    "exhaust": Part(
        "exhaust",
        "engine",
        {"petrol_lambda": _mixture},
        {},
        "It burns this mixture for good, and knows neither speed nor load.",
    ),
}
"""The part of each bench, by the bench's stem."""


def parts_of(rig: Rig) -> dict[str, Part]:
    """Return the parts that a rig has, by the stem of their bench."""
    return {stem: part for stem, part in PARTS.items() if getattr(rig, part.section) is not None}
