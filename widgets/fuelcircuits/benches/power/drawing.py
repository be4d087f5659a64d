"""Where the parts of the power circuit's drawing stand, in the drawing's own units.

Piston, travel and rod are to one scale; the enlarged jet has a larger one across than upright,
so that the rod's steps show.
"""

from collections.abc import Mapping

from fuelcircuits.physics.circuits.power import Power, rod_diameter

__all__ = ["ACROSS", "JET", "PLAN", "STEPS", "place"]

CYLINDER, ROD, FLOOR, JET = 110.0, 255.0, 200.0, 227.0
"""Where cylinder and rod stand across, and the cylinder's floor and the jet upright."""
ACROSS, UPRIGHT, PLAN = 34e3, 11e3, 54e3
"""Units a metre in the enlarged jet, across and upright, and in the jet seen from above."""
STEPS = 12
"""Points by which the rod's outline is drawn."""
MARKS = 9_000.0
"""Speed of the flow marks, units a second for each kg/s."""
TIP = 1.3e-3
"""Length of the rod's tip beyond its last step [m], as it is drawn."""


def place(power: Power, jet_bore: float, lift: float, jet_flow: float) -> Mapping[str, float]:
    """Return the numbers that place every part; `lift` is a share of the travel."""
    unit = min(80 / float(power.piston_bore), 48 / float(power.travel))
    up, wide = lift * float(power.travel) * unit, float(power.piston_bore) / 2 * unit
    foot, bore = FLOOR - 22 - up, jet_bore / 2
    rod = float(rod_diameter(power, lift)) / 2
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
        "a_shift": -lift * float(power.travel) * UPRIGHT,
        "a_flow_left": -(bore + rod) / 2 * ACROSS,
        "a_flow_right": (bore + rod) / 2 * ACROSS,
        "plan_jet": bore * PLAN,
        "plan_rod": rod * PLAN,
        "plan_edge": 442 + bore * PLAN,
        "main": MARKS * jet_flow,
    }
    spring = {f"coil_{i}": foot + (FLOOR - foot) * i / 8 for i in range(9)}
    return numbers | spring | _outline(power, unit)


def _outline(power: Power, unit: float) -> dict[str, float]:
    """Return the rod's outline, with the point that stands in the jet when it is down at nought."""
    numbers = {}
    for i in range(STEPS + 1):
        share = i / STEPS
        half = float(rod_diameter(power, share)) / 2
        down = share * float(power.travel)
        numbers[f"x_{i}"], numbers[f"w_{i}"] = half * unit, -half * unit
        numbers[f"y_{i}"] = down * unit
        numbers[f"ax_{i}"], numbers[f"aw_{i}"] = half * ACROSS, -half * ACROSS
        numbers[f"ay_{i}"] = down * UPRIGHT
    tip = float(power.travel) + TIP
    return numbers | {"tip": tip * unit, "a_tip": tip * UPRIGHT, "a_top": -200.0}
