"""Where the parts of the idle port's drawing stand, in the drawing's own units.

Bore, plate and slot are to one scale, and to a larger one in the enlarged detail.
"""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from fuelcircuits.physics.circuits.low_speed import LowSpeed
from fuelcircuits.physics.circuits.off_idle import slot_areas
from fuelcircuits.physics.engine.air_path import AirPath
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State

__all__ = ["DETAIL", "SHAFT", "place", "tip_height"]

SHAFT, WIDE = 214.0, 128.0
"""Height of the shaft, and width of the bore."""
SEAT, SCREW, BODY = 192.0, 252.0, 5.0
"""Where the mixture screw's seat stands, its axis, and half its thickness."""
BALL, LIFT, SPRING = 133.0, 9.0, 161.0
"""The bleed valve's ball on its seat, the way it can move, and the foot of its spring."""
DETAIL, PLANE, EDGE = 21e3, 296.0, 442.0
"""Units a metre in the detail; the shaft's plane and the bore's wall in it."""
MARKS, AIR_MARKS, FASTEST = 3e5, 3e3, 240.0
"""Speed of the flow marks, units a second for each kg/s; and the most of it."""


def tip_height(low: LowSpeed, path: AirPath, angle: float) -> float:
    """Return how high the plate's tip stands above the shaft's plane [m].

    A slot of unit width that starts at the shaft measures it: what lies below the edge.
    """
    rule = replace(low, slot_start=0.0, slot_height=10e-3, slot_width=1e-3)
    below = slot_areas(rule, angle, path.throttle_bore, path.throttle_closed_angle).below
    return float(below) / 1e-3 + float(low.plate_edge) / 2


def place(rig: Rig, angle: float, now: State) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    low, path = rig.low_speed, rig.air_path
    unit = WIDE / path.throttle_bore
    tip = tip_height(low, path, angle)
    numbers = _main(low, path, angle, unit) | _screw(low, unit) | _detail(low, angle, tip)
    return numbers | _valve(float(now.valve_lift[0])) | _marks(now)


def _main(low: LowSpeed, path: AirPath, angle: float, unit: float) -> dict[str, float]:
    """Return plate and slot of the whole view."""
    start, height, edge = _slot(low)
    half = WIDE / 2 / float(np.cos(path.throttle_closed_angle))
    foot = SHAFT - start * unit
    top = foot - height * unit
    held = float(np.clip(SHAFT - unit * tip_height(low, path, angle), top, foot))
    return {
        "plate": -float(np.degrees(angle)),
        "plate_left": -half,
        "plate_right": half,
        "plate_top": -edge / 2 * unit,
        "plate_foot": edge / 2 * unit,
        "shaft": path.throttle_shaft / 2 * unit,
        "slot_foot": foot,
        "slot_top": top,
        "above": (top + held) / 2,
        "below": (foot + held) / 2,
        "below_in": top - 16,
        "middle": (top + foot) / 2,
        "middle_words": (top + foot) / 2 + 4,
    }


def _slot(low: LowSpeed) -> tuple[float, float, float]:
    """Return the slot's foot and height, and the thickness of the plate's edge [m]."""
    return float(low.slot_start), float(low.slot_height), float(low.plate_edge)


def _screw(low: LowSpeed, unit: float) -> dict[str, float]:
    """Return the mixture screw and its seat; the point fills the seat when it is shut."""
    seat, slope = float(low.seat_bore) / 2 * unit, float(np.tan(low.needle_angle / 2))
    point = SEAT - seat / slope + float(low.screw_pitch * low.screw_turns) * unit
    back = point + BODY / slope
    return {
        "seat_up": SCREW - seat,
        "seat_down": SCREW + seat,
        "seat_in": SCREW - BODY - 3,
        "seat_line": SCREW - seat / 2,
        "point": point,
        "shoulder": back,
        "head": back + 118,
        "head_end": back + 128,
    }


def _valve(lift: float) -> dict[str, float]:
    """Return the bleed valve's ball and its spring."""
    ball = BALL + LIFT * lift
    coils = np.linspace(SPRING, ball + 6, 5)
    return {"ball": ball} | {f"spring_{n}": float(coils[n]) for n in range(1, 5)}


def _detail(low: LowSpeed, angle: float, tip: float) -> dict[str, float]:
    """Return slot and plate's edge, enlarged."""
    start, height, thick = _slot(low)
    half = thick / 2 * DETAIL
    edge = PLANE - tip * DETAIL
    foot = PLANE - start * DETAIL
    top = foot - height * DETAIL
    fall = (EDGE - 385) * float(np.tan(angle))
    high, low_end = (float(np.clip(edge + side, top, foot)) for side in (-half, half))
    return {
        "d_top": top,
        "d_foot": foot,
        "d_edge_up": edge - half,
        "d_edge_down": edge + half,
        "d_left_up": edge - half + fall,
        "d_left_down": edge + half + fall,
        "d_words": edge + 0.6 * fall + 4,
        "d_high": high,
        "d_low": low_end,
        "d_air": (top + high) / 2,
        "d_below": (low_end + foot) / 2 + 2.5,
        "d_out": (low_end + foot) / 2 - 2.5,
        "d_start": top - 40,
        "d_above_words": (top + high) / 2 + 4,
        "d_below_words": (low_end + foot) / 2 + 4,
        "d_above_shown": float(high - top > 10),
        "d_below_shown": float(foot - low_end > 10),
    }


def _marks(now: State) -> dict[str, float]:
    """Return the speeds of the flow marks; each stream's air and fuel apart."""
    flows = now.flows
    speeds = {
        "engine": AIR_MARKS * now.air_flow,
        "above_air": MARKS * flows.slot_above.air[0],
        "below_air": MARKS * flows.slot_below.air[0],
        "below_fuel": MARKS * flows.slot_below.fuel[0],
        "screw_air": MARKS * flows.screw.air[0],
        "screw_fuel": MARKS * flows.screw.fuel[0],
        "valve_air": MARKS * flows.valve.air[0],
        "feed_air": MARKS * flows.economizer.air[0],
        "feed_fuel": MARKS * flows.economizer.fuel[0],
    }
    return {name: float(np.clip(speed, -FASTEST, FASTEST)) for name, speed in speeds.items()}
