"""Where the parts of the power circuit's drawing stand, in the drawing's own units.

Piston, travel and rod are to one scale; the enlarged jet has a larger one across than upright,
so that the rod's steps show.
"""

from collections.abc import Mapping

from fuelcircuits.benches.power.found import Found

__all__ = ["ACROSS", "JET", "PLAN", "place"]

CYLINDER, ROD, FLOOR, JET = 110.0, 255.0, 200.0, 227.0
"""Where cylinder and rod stand across, and the cylinder's floor and the jet upright."""
ACROSS, UPRIGHT, PLAN = 34e3, 11e3, 54e3
"""Units a metre in the enlarged jet, across and upright, and in the jet seen from above."""
MARKS = 9_000.0
"""Speed of the flow marks, units a second for each kg/s."""
TIP = 1.3e-3
"""Length of the rod's tip beyond its last step [m], as it is drawn."""


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    unit = min(80 / found.piston, 48 / found.travel)
    up, wide = found.lift * found.travel * unit, found.piston / 2 * unit
    foot, bore, rod = FLOOR - 22 - up, found.jet / 2, found.rod / 2
    numbers = {
        "cylinder_left": CYLINDER - wide,
        "cylinder_right": CYLINDER + wide,
        "piston_left": CYLINDER - wide + 1,
        "piston_right": CYLINDER + wide - 1,
        "piston_top": foot - 22,
        "piston_foot": foot,
        "piston_words": foot - 7,
        "hanger": foot - 80,
        "hanger_foot": foot - 86,
        "hanger_words": foot - 67,
        "rod_shift": JET - up,
        "hung": foot - 83 - JET + up,
        "jet_left": ROD - bore * unit,
        "jet_right": ROD + bore * unit,
        "a_left": -bore * ACROSS,
        "a_right": bore * ACROSS,
        "a_lip_left": -bore * ACROSS - 16,
        "a_lip_right": bore * ACROSS + 16,
        "a_shift": -found.lift * found.travel * UPRIGHT,
        "a_flow_left": -(bore + rod) / 2 * ACROSS,
        "a_flow_right": (bore + rod) / 2 * ACROSS,
        "plan_jet": bore * PLAN,
        "plan_rod": rod * PLAN,
        "plan_edge": 442 + bore * PLAN,
        "main": MARKS * found.main,
    }
    spring = {f"coil_{i}": foot + (FLOOR - foot) * i / 8 for i in range(9)}
    return numbers | spring | _outline(found, unit)


def _outline(found: Found, unit: float) -> dict[str, float]:
    """Return the rod's outline, with the point that stands in the jet when it is down at nought."""
    numbers, steps = {}, len(found.rods) - 1
    for i, rod in enumerate(found.rods):
        half, down = rod / 2, i / steps * found.travel
        numbers[f"x_{i}"], numbers[f"w_{i}"] = half * unit, -half * unit
        numbers[f"y_{i}"] = down * unit
        numbers[f"ax_{i}"], numbers[f"aw_{i}"] = half * ACROSS, -half * ACROSS
        numbers[f"ay_{i}"] = down * UPRIGHT
    tip = found.travel + TIP
    return numbers | {"tip": tip * unit, "a_tip": tip * UPRIGHT, "a_top": -200.0}
