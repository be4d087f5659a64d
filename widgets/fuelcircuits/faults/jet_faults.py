"""Faults of jets, bleeds, ports and metering rods, in low-speed and high-speed circuits."""

from fuelcircuits.faults.change import Change, moved, narrowed, scaled
from fuelcircuits.faults.fault import Fault
from fuelcircuits.physics.network.rig import Rig

__all__ = ["JET_FAULTS"]

_LEFT = 0.05
"""Share of a low-speed jet's area that the worst dirt leaves open [1]."""
_TURNS = 1.5
"""Turns by which a mixture screw can be found wrong [1] (common practice, no source)."""


def _in(turns: float, rig: Rig) -> float:
    """Return where a screw that is turned in too far stands."""
    return max(turns - _TURNS, rig.low_speed.fewest_turns)


def _out(turns: float, rig: Rig) -> float:
    """Return where a screw that is turned out too far stands."""
    return min(turns + _TURNS, rig.low_speed.most_turns)


def _jet(name: str, circuit: str, meaning: str, entry: str) -> Fault:
    """Return the fault of a jet that dirt blocks, a twentieth of its area left at worst."""
    worst = "at worst a twentieth of its area is left."
    return Fault(name, circuit, f"{meaning}: {worst}", (narrowed(entry, _LEFT),))


def _bleed(name: str, circuit: str, meaning: str, entry: str) -> Fault:
    """Return the fault of an air bleed that dirt blocks, quite shut at worst."""
    return Fault(name, circuit, f"{meaning}: at worst it is shut.", (narrowed(entry),), part=entry)


LOW_SPEED_FAULTS = (
    _jet("blocked-idle-jet", "low speed", "The low-speed jet is blocked", "low_speed.jet_bore"),
    _jet(
        "blocked-economizer",
        "low speed",
        "The economizer between the bleeds and the idle ports is blocked",
        "low_speed.economizer_bore",
    ),
    _bleed("blocked-bypass", "low speed", "The by-pass is blocked", "low_speed.bypass_bore"),
    _bleed(
        "blocked-idle-air-bleed",
        "low speed",
        "The idle air bleed is blocked",
        "low_speed.air_bleed_bore",
    ),
    Fault(
        "carboned-slot",
        "low speed",
        "Carbon narrows the slot-shaped idle port: at worst a tenth of its width is left.",
        (scaled("low_speed.slot_width", 0.1),),
        part="low_speed.slot_width",
    ),
    Fault(
        "mixture-screw-in",
        "low speed",
        "The mixture screws are turned in too far: at worst by one and a half turns, or to "
        "the limiter's inner stop.",
        (Change("low_speed.screw_turns", _in),),
    ),
    Fault(
        "mixture-screw-out",
        "low speed",
        "The mixture screws are turned out too far: at worst by one and a half turns, or "
        "to the limiter's outer stop.",
        (Change("low_speed.screw_turns", _out),),
    ),
    Fault(
        "bleed-valve-stuck-open",
        "low speed",
        "The ball of the off-idle bleed valve hangs off its seat: at worst all the way.",
        (moved("low_speed.valve_least", 1.0),),
        part="low_speed.valve_bore",
    ),
    Fault(
        "bleed-valve-stuck-shut",
        "low speed",
        "The ball of the off-idle bleed valve sticks to its seat: at worst it never lifts.",
        (moved("low_speed.valve_most", 0.0),),
        part="low_speed.valve_bore",
    ),
)
"""Low-speed circuit."""

HIGH_SPEED_FAULTS = (
    Fault(
        "blocked-main-jet",
        "high speed",
        "Dirt narrows the main jet: at worst to a fiftieth of its area, of which a metering rod "
        "leaves hardly anything.",
        (narrowed("high_speed.jet_bore", 0.02),),
    ),
    Fault(
        "main-jet-too-large",
        "high speed",
        "The wrong main jet is fitted, or a right one reamed: at worst a fifth too wide.",
        (scaled("high_speed.jet_bore", 1.2),),
    ),
    Fault(
        "main-jet-too-small",
        "high speed",
        "The wrong main jet is fitted: at worst a tenth too narrow.",
        (scaled("high_speed.jet_bore", 0.9),),
    ),
    _bleed(
        "blocked-main-air-bleed",
        "high speed",
        "The main air bleed is blocked",
        "high_speed.air_bleed_bore",
    ),
    Fault(
        "blocked-bleed-holes",
        "high speed",
        "Gum narrows the holes in the well's bleed tube: at worst a twentieth of them is left.",
        (narrowed("high_speed.hole_bore", 0.05),),
        part="high_speed.air_bleed_bore",
    ),
    Fault(
        "power-rod-stuck-down",
        "power",
        "The metering rod no longer rises when vacuum falls: at worst it stays down.",
        (moved("power.most_lift", 0.0),),
    ),
    Fault(
        "power-rod-stuck-up",
        "power",
        "The metering rod no longer comes down when vacuum rises: at worst it stays up.",
        (moved("power.least_lift", 1.0),),
    ),
)
"""High-speed circuit with its metering rod."""

JET_FAULTS = (*LOW_SPEED_FAULTS, *HIGH_SPEED_FAULTS)
"""Both circuits (sizes: common practice, no source)."""
