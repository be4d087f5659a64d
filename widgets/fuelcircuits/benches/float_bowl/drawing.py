"""Where the parts of the float circuit's drawing stand, in the drawing's own units.

The drawing is to scale: one factor turns the rig's metres into units, and a larger one does so
in the enlarged detail of needle and seat. Across, units run from the left; upright, downwards.
"""

from collections.abc import Mapping
from math import degrees, tan

from fuelcircuits.benches.float_bowl.found import Found, Parts

__all__ = ["DETAIL", "place"]

FACE, RIGHT = 92.0, 380.0
"""Where the gasket face and the bowl's right wall stand."""
ROOM, DEEP = 300.0, 190.0
"""What the bowl may take up, across and upright."""
WALL, LEVER = 14.0, 3.0
DETAIL = 13_000.0
"""Units a metre in the enlarged detail."""
MARKS = 9_000.0
"""Speed of the flow marks, units a second for each kg/s."""


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    parts, now = found.parts, found.settled
    unit = min(ROOM / _reach(parts), DEEP / parts.depth)
    numbers = _bowl(parts, unit) | _float(parts, now.lever_angle, unit)
    numbers |= _needle(parts, now.needle_lift, unit) | _detail(parts, now.needle_lift)
    over = now.inlet_flow - found.demand if now.flooded else 0.0
    surface = FACE + found.below * unit
    return numbers | {
        "surface": surface,
        "inlet": MARKS * now.inlet_flow,
        "demand": MARKS * (now.inlet_flow if now.starved else found.demand),
        "flooded": float(now.flooded),
        "starved": float(now.starved),
        "spill": MARKS * over,
        "jet_above": max(surface, numbers["floor"] - 34),
        "splash": max(surface, numbers["seat"] + 18),
    }


def _reach(parts: Parts) -> float:
    """Return how far the bowl reaches from its right wall [m]."""
    return parts.float_arm + parts.float_length / 2 + 15e-3


def _pivot(parts: Parts, unit: float) -> float:
    """Return where the fulcrum stands, upright."""
    return FACE + (parts.depth - parts.shut_height) * unit


def _bowl(parts: Parts, unit: float) -> dict[str, float]:
    """Return the castings, the jet and the level on the card."""
    left, floor = RIGHT - _reach(parts) * unit, FACE + parts.depth * unit
    jet, vent = left + 34, left + 22
    specified = FACE + parts.specified_level * unit
    return {
        "left": left,
        "outer_left": left - WALL,
        "pointer": left - WALL - 9,
        "floor": floor,
        "under": floor + WALL,
        "floor_words": floor + 11,
        "sign": floor - 22,
        "jet": jet,
        "jet_left": jet - 5,
        "jet_right": jet + 5,
        "jet_below": floor + WALL + 4,
        "jet_words": jet + 8,
        "jet_words_y": floor + WALL + 16,
        "vent": vent,
        "vent_left": vent - 5,
        "vent_right": vent + 5,
        "specified": specified,
    }


def _float(parts: Parts, lever_angle: float, unit: float) -> dict[str, float]:
    """Return float, lever and drop stop, the float seen from the fulcrum."""
    fulcrum, pivot = RIGHT - 11e-3 * unit, _pivot(parts, unit)
    middle, bend = -parts.float_arm * unit, parts.bend * unit
    long, high = parts.float_length * unit, parts.float_height * unit
    tail = 7e-3 * unit
    rise = tail * parts.drop_stop / parts.float_arm
    neck = -(parts.needle_arm + 4e-3) * unit
    return {
        "fulcrum": fulcrum,
        "pivot": pivot,
        "swing": -degrees(lever_angle),
        "tail": tail,
        "neck": neck,
        "lever_words": (neck + middle + long / 2) / 2 - 6,
        "float_left": middle - long / 2,
        "float_right": middle + long / 2 + 1,
        "float_middle": middle,
        "float_top": bend - high / 2,
        "float_words": bend + 4,
        "float_long": long,
        "float_high": high,
        "float_round": high / 2,
        "arm_top": bend - LEVER,
        "arm_foot": bend + LEVER,
        "soak_top": bend + high / 2 - parts.soaked * high,
        "soak_high": parts.soaked * high,
        "ghost_left": fulcrum + middle - long / 2,
        "ghost_top": pivot + bend - high / 2,
        "dimension": fulcrum + middle - long / 4,
        "dimension_words": fulcrum + middle - long / 4 + 6,
        "dimension_y": (FACE + pivot + bend - high / 2) / 2 + 3.5,
        "fulcrum_words": pivot + 20,
        "stop": pivot - LEVER - rise,
        "stop_left": fulcrum + tail - 8,
        "stop_right": fulcrum + tail + 4,
    }


def _needle(parts: Parts, needle_lift: float, unit: float) -> dict[str, float]:
    """Return needle and seat in the main view; the needle stands on the lever."""
    across, pivot = RIGHT - (11e-3 + parts.needle_arm) * unit, _pivot(parts, unit)
    seat = pivot - LEVER - 7e-3 * unit
    bore, body = parts.seat_bore / 2 * unit, _body(parts) / 2 * unit
    lift, slope = needle_lift * unit, tan(parts.needle_taper)
    wide = max(4.2e-3 * unit, body + 3)
    return {
        "needle": across,
        "seat": seat,
        "below_seat": seat + 3,
        "bore_left": across - bore,
        "bore_right": across + bore,
        "insert_left": across - wide,
        "insert_right": across + wide,
        "point": seat - bore / slope + lift,
        "shoulder": seat + (body - bore) / slope + lift,
        "foot": pivot - LEVER + lift,
        "needle_left": across - body,
        "needle_right": across + body,
        "label": across - 42,
        "label_end": across - 39,
        "needle_words": seat + 18,
        "needle_words_y": seat + 21,
        "mark": across + 21,
        "mark_y": seat - 9,
    }


def _detail(parts: Parts, needle_lift: float) -> dict[str, float]:
    """Return the enlarged needle and seat, the seat's edge at nought."""
    bore, body = parts.seat_bore / 2 * DETAIL, _body(parts) / 2 * DETAIL
    slope, lift = tan(parts.needle_taper), needle_lift * DETAIL
    edge = bore - 2
    return {
        "a_left": -bore,
        "a_right": bore,
        "a_bore": 2 * bore,
        "a_in_left": -edge + 1,
        "a_in_right": edge - 1,
        "a_turn": -2.0,
        "a_out_left": -body - 4,
        "a_out_right": body + 4,
        "a_out": (body - bore) / slope + lift / 2 + 4,
        "a_lift": lift,
        "a_point": -bore / slope,
        "a_shoulder": (body - bore) / slope,
        "a_body_left": -body,
        "a_body_right": body,
    }


def _body(parts: Parts) -> float:
    """Return the needle's thickness [m]: drawn half as thick again as the bore it shuts."""
    return 1.5 * parts.seat_bore
