"""The entries that nobody measured, scaled from a teaching rig to the size of somebody's own.

What has to pass a flow grows with the flow: bores of the main circuit with the venturi, those of
the idle with the root of the idle's air, what belongs to the engine with its displacement.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import cache
from importlib.resources import files
from math import cos, inf, log, sin, sqrt, tan
from types import MappingProxyType
from typing import NamedTuple

from fuelcircuits.cards import read_card
from fuelcircuits.errors import RangeError
from fuelcircuits.own_car.entry_text import entry_facts
from fuelcircuits.own_car.leeway import with_entries
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig

__all__ = ["RIGS", "nearest", "rig_named", "scaled", "scaled_second"]

RIGS = ("plover", "dunlin")
"""The teaching rigs that a card can be scaled from; their cards lie beside the code."""
_SHUT = 0.3e-3
"""Height of a late barrel's slot above the plate's edge, closed [m]; common practice, no source."""
_WIDER = ("air_path.throttle_bore", "high_speed.jet_bore", "high_speed.air_bleed_bore")
"""What a second barrel has wider than the first by as much as its venturi, if nobody measured."""
_WITH: Mapping[str, tuple[str, float]] = MappingProxyType(
    {
        "engine.accessory_torque": ("engine", 1.0),
        "engine.inertia": ("engine", 1.0),
        "air_path.cleaner_area": ("engine", 1.0),
        "air_path.horn_bore": ("horn", 1.0),
        "air_path.choke_leak": ("horn", 1.0),
        "air_path.choke_shaft": ("horn", 0.5),
        "air_path.venturi_bore": ("venturi", 1.0),
        "air_path.booster_outside": ("venturi", 1.0),
        "air_path.booster_throat": ("venturi", 1.0),
        "air_path.booster_exit": ("venturi", 1.0),
        "air_path.throttle_bore": ("throttle", 1.0),
        "air_path.throttle_shaft": ("throttle", 0.5),
        "low_speed.jet_bore": ("idle", 1.0),
        "low_speed.bypass_bore": ("idle", 1.0),
        "low_speed.air_bleed_bore": ("idle", 1.0),
        "low_speed.economizer_bore": ("idle", 1.0),
        "low_speed.slot_width": ("idle", 2.0),
        "low_speed.seat_bore": ("idle", 1.0),
        "low_speed.valve_bore": ("idle", 1.0),
        "high_speed.jet_bore": ("jet", 1.0),
        "high_speed.nozzle_bore": ("jet", 1.0),
        "high_speed.air_bleed_bore": ("jet", 1.0),
        "high_speed.hole_bore": ("jet", 1.0),
        "power.lean_step": ("rod", 1.0),
        "power.middle_step": ("rod", 1.0),
        "power.rich_step": ("rod", 1.0),
        "pump.jet_bore": ("engine", 0.5),
        "pump.bore": ("engine", 1.0 / 3.0),
        "pump.plate_bore": ("engine", 1.0 / 3.0),
        "hot_soak.exhaust_heat": ("engine", 1.0),
        "hot_soak.exhaust_to_block": ("engine", 1.0),
        "hot_soak.exhaust_to_air": ("engine", 1.0),
        "hot_soak.block_heat": ("engine", 1.0),
        "hot_soak.block_to_air": ("engine", 1.0),
    }
)
"""What an entry grows with, and with which power; the rest stays (common practice, no source)."""


class _Sizes(NamedTuple):
    """How many times larger something is than on the rig [1]."""

    engine: float
    horn: float
    venturi: float
    throttle: float
    jet: float
    rod: float
    idle: float


@cache
def rig_named(name: str) -> Rig:
    """Return a teaching rig; raise `RangeError` if there is none of that name."""
    if name not in RIGS:
        raise RangeError(f"rig must be one of {', '.join(RIGS)}, got {name!r}")
    card = files(__package__).joinpath("rigs", f"{name}.toml").read_text("utf-8")
    return read_card(card, f"{name}.toml")


def nearest(known: Mapping[str, float]) -> str:
    """Return the name of the rig nearest to what is known: its kind of main well, then its size."""
    bleed = known.get("high_speed.air_bleed_bore")

    def distance(name: str) -> float:
        rig = rig_named(name)
        if bleed is not None and (bleed > 0) != (rig.high_speed.air_bleed_bore > 0):
            return inf
        sizes = _sizes(rig, known)
        return abs(log(sizes.engine)) + abs(log(sizes.venturi))

    return min(RIGS, key=distance)


def scaled(rig: Rig, known: Mapping[str, float], *, alone: bool = False) -> Rig:
    """Return a rig with what is known put in, and the rest grown to that size.

    Parameters
    ----------
    rig
        A teaching rig.
    known
        Entries that somebody has measured [SI], by section and field.
    alone
        Whether the engine idles on the first barrel alone, the other opening late.

    Raises
    ------
    RangeError
        If the known entries do not go together, as a screw set beyond its stops.
    """
    sizes, idling = _sizes(rig, known), sqrt(known.get("air_path.barrels", 2.0)) if alone else 1.0
    sizes = sizes._replace(idle=sizes.idle * idling)
    grown = _grown(rig, sizes, known)
    farther = sizes.idle**2 / sizes.throttle if alone else 1.0
    grown["low_speed.slot_start"] = _slot_start(rig, sizes.throttle, farther)
    grown |= _level(rig, known)
    return with_entries(rig, {**grown, **known})


def scaled_second(rig: Rig, first: Mapping[str, float], own: Mapping[str, float]) -> Rig:
    """Return what the second barrel has, where it differs from the first.

    Parameters
    ----------
    rig
        A teaching rig.
    first, own
        What is known of the first barrel, and of the second [SI], by section and field.

    Notes
    -----
    A barrel that opens late has no mixture screw, and its slot lies above its closed plate.
    """
    late = own.get("air_path.opens_at", 0.0) > 0
    venturi = "air_path.venturi_bore"
    usual = first.get(venturi, rig.air_path.venturi_bore * _sizes(rig, first).venturi)
    wider = own.get(venturi, usual) / usual
    alike = {name: first[name] * wider for name in _WIDER if name in first}
    known = {**first, **alike, **own}
    sizes = _sizes(rig, known)
    grown = _grown(rig, sizes._replace(idle=sizes.venturi) if late else sizes, known)
    whole = with_entries(rig, {**grown, **known})
    if late:
        path, low = whole.air_path, whole.low_speed
        tip = path.throttle_bore / 2 * tan(path.throttle_closed_angle)
        clear = max(own.get("low_speed.slot_start", 0.0), tip + low.plate_edge / 2 + _SHUT)
        low = replace(low, slot_start=clear, screw_turns=0.0, fewest_turns=0.0)
        whole = replace(whole, low_speed=low)
    return Rig(
        "second",
        air_path=whole.air_path,
        low_speed=whole.low_speed,
        high_speed=whole.high_speed,
        power=whole.power,
    )


def _sizes(rig: Rig, known: Mapping[str, float]) -> _Sizes:
    """Return how many times larger everything is than on the rig."""

    def times(entry: str, otherwise: float) -> float:
        section, field = entry.split(".")
        return known[entry] / getattr(getattr(rig, section), field) if entry in known else otherwise

    engine = times("engine.displacement", 1.0)
    barrels = times("air_path.barrels", 1.0)
    venturi = times("air_path.venturi_bore", sqrt(engine / barrels))
    throttle = times("air_path.throttle_bore", venturi)
    idle = sqrt(engine / barrels * times("engine.idle_speed", 1.0))
    jet = times("high_speed.jet_bore", venturi)
    rod = times("power.lean_step", jet) or jet
    return _Sizes(engine, venturi * sqrt(barrels), venturi, throttle, jet, rod, idle)


def _grown(rig: Rig, sizes: _Sizes, known: Iterable[str]) -> dict[str, float]:
    """Return every entry that grows and is not known, within what an entry can be."""
    grown = {}
    for entry, (name, power) in _WITH.items():
        section, field = entry.split(".")
        if entry in known or getattr(rig, section) is None:
            continue
        value = getattr(getattr(rig, section), field) * getattr(sizes, name) ** power
        facts = entry_facts(entry)
        grown[entry] = min(max(value, facts["low"]), facts["high"])
    return grown


def _level(rig: Rig, known: Mapping[str, float]) -> dict[str, float]:
    """Return float setting or level, whichever is not known, moved by as much as the other."""
    setting, level = "float_bowl.float_setting", "float_bowl.specified_level"
    bowl = rig.float_bowl
    if setting in known and level not in known:
        return {level: bowl.specified_level + known[setting] - bowl.float_setting}
    if level in known and setting not in known:
        return {setting: max(bowl.float_setting + known[level] - bowl.specified_level, 1e-3)}
    return {}


def _slot_start(rig: Rig, throttle: float, farther: float) -> float:
    """Return the height of the slot's foot that lies to the plate's edge at idle as on the rig.

    The edge of a closed plate stands higher in a bore that is `throttle` times wider, and has to
    travel `farther` where one plate alone passes all the air.
    """
    path, low = rig.air_path, rig.low_speed
    shut = path.throttle_bore / 2 * tan(path.throttle_closed_angle)
    open_by = path.throttle_bore / 2 * sin(_idle_angle(rig)) / cos(path.throttle_closed_angle)
    return low.slot_start + (throttle - 1.0) * shut + (farther - 1.0) * (open_by - shut)


@cache
def _idle_angle(rig: Rig) -> float:
    """Return the throttle angle at which a rig idles [rad]."""
    return network.curb_idle(rig, Weather.at(), Fuel()).throttle_angle
