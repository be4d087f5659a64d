"""Where the parts of the float circuit's drawing stand, in the drawing's own units.

The drawing is to scale: one factor turns the rig's metres into units, and a larger one does so
in the enlarged detail of needle and seat. Across, units run from the left; upright, downwards.
"""

from collections.abc import Mapping

import numpy as np

from fuelcircuits.physics.circuits.float_bowl import FloatBowl, FloatState

__all__ = ["DETAIL", "place"]

FACE, RIGHT = 92.0, 380.0
"""Where the gasket face and the bowl's right wall stand."""
ROOM, DEEP = 300.0, 190.0
"""What the bowl may take up, across and upright."""
WALL, LEVER, PASSAGE = 14.0, 3.0, 65.0
DETAIL = 13_000.0
"""Units a metre in the enlarged detail."""
MARKS = 9_000.0
"""Speed of the flow marks, units a second for each kg/s."""


def place(
    bowl: FloatBowl, card: FloatBowl, state: FloatState, demand: float
) -> Mapping[str, float]:
    """Return the numbers that place every part; `card` is the rig before anybody changed it."""
    reach = card.float_arm + card.float_length / 2 + 15e-3
    unit = min(ROOM / reach, DEEP / card.depth)
    numbers = _bowl(card, unit) | _float(bowl, card, state, unit) | _needle(bowl, card, state, unit)
    numbers |= {
        "surface": FACE + (bowl.depth - float(state.level)) * unit,
        "inlet": MARKS * float(state.inlet_flow),
        "demand": MARKS * (float(state.inlet_flow) if state.starved else demand),
        "flooded": float(state.flooded),
        "starved": float(state.starved),
    }
    over = float(state.inlet_flow) - demand if state.flooded else 0.0
    numbers["spill"] = MARKS * over
    numbers["jet_above"] = max(numbers["surface"], numbers["floor"] - 34)
    numbers["splash"] = max(numbers["surface"], numbers["seat"] + 18)
    return numbers | _detail(bowl, state)


def _bowl(card: FloatBowl, unit: float) -> dict[str, float]:
    """Return the castings, the jet and the level on the card."""
    left = RIGHT - (card.float_arm + card.float_length / 2 + 15e-3) * unit
    floor, jet, vent = FACE + card.depth * unit, left + 34, left + 22
    specified = FACE + card.specified_level * unit
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
        "specified_up": specified - 1,
        "specified_down": specified + 11,
    }


def _float(bowl: FloatBowl, card: FloatBowl, state: FloatState, unit: float) -> dict[str, float]:
    """Return float, lever and drop stop, the float seen from the fulcrum."""
    fulcrum, pivot = RIGHT - 11e-3 * unit, FACE + (card.depth - card.shut_height) * unit
    middle, bend = -bowl.float_arm * unit, (bowl.float_setting - card.float_setting) * unit
    long, high = bowl.float_length * unit, bowl.float_height * unit
    tail = 7e-3 * unit
    rise = tail * bowl.drop_stop / bowl.float_arm
    neck = -(bowl.needle_arm + 4e-3) * unit
    return {
        "fulcrum": fulcrum,
        "pivot": pivot,
        "swing": -float(np.degrees(state.lever_angle)),
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
        "soak_top": bend + high / 2 - bowl.soaked * high,
        "soak_high": bowl.soaked * high,
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


def _needle(bowl: FloatBowl, card: FloatBowl, state: FloatState, unit: float) -> dict[str, float]:
    """Return needle and seat in the main view; the needle stands on the lever."""
    across = RIGHT - (11e-3 + bowl.needle_arm) * unit
    pivot = FACE + (card.depth - card.shut_height) * unit
    seat = pivot - LEVER - 7e-3 * unit
    bore, body = bowl.seat_bore / 2 * unit, _body(bowl) / 2 * unit
    lift, slope = float(state.needle_lift) * unit, float(np.tan(bowl.needle_taper))
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


def _detail(bowl: FloatBowl, state: FloatState) -> dict[str, float]:
    """Return the enlarged needle and seat, the seat's edge at nought."""
    bore, body = bowl.seat_bore / 2 * DETAIL, _body(bowl) / 2 * DETAIL
    slope, lift = float(np.tan(bowl.needle_taper)), float(state.needle_lift) * DETAIL
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


def _body(bowl: FloatBowl) -> float:
    """Return the needle's thickness [m]: drawn half as thick again as the bore it shuts."""
    return 1.5 * bowl.seat_bore
