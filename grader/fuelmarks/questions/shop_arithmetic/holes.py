"""Unit 00: pressures that do not count from the same zero, and holes that a drill gauges."""

from math import pi, sqrt

from fuelcircuits.quantities.drills import diameter_of

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

THREE_FIGURES = "Three figures are enough: a drill shank gauges no finer."
MERCURY, POUND = 3386.389, 6894.757
"""One inch of mercury and one pound-force per square inch [Pa]; NIST SP 811."""


def _hole(given: Values) -> float:
    """Return the diameter of the hole that the drill gauges [m]."""
    return float(diameter_of(given["drill"]))


EXERCISES = (
    Exercise(
        id="fuel-absolute",
        ask="The fuel gauge shows **{supply_pressure}**, counted from the air around it, while the "
        "barometer shows {ambient_pressure}. What is the absolute pressure of the fuel?",
        unit="kPa",
        reference=lambda given, earlier: given["supply_pressure"] + given["ambient_pressure"],
        tolerance=0.01,
        why="A workshop gauge is good to about one part in a hundred.",
        low=90.0,
        high=160.0,
        points=2,
        outcomes=("SHOP-1", "SHOP-3"),
        datum="absolute",
        slips=(
            Slip(
                "numbers-added",
                lambda given, earlier: (
                    given["supply_pressure"] + given["ambient_pressure"] / MERCURY * POUND
                ),
                0.5,
                "You added the number of inches of mercury to the number of psi, as if both were "
                "the same unit. Convert one of them first.",
            ),
            Slip(
                "gauge-taken-off",
                lambda given, earlier: given["ambient_pressure"] - given["supply_pressure"],
                0.5,
                "You subtracted the gauge. A pump pushes its fuel above the pressure outside, so "
                "the gauge has to be added.",
            ),
        ),
        hints=(
            "Absolute pressure is barometer plus gauge. If you leave the units on both numbers, "
            "the computer converts them for you.",
        ),
    ),
    Exercise(
        id="drill-area",
        ask="The shank of a number **{drill}** drill just passes through a jet, and the table "
        "above gives its diameter. What is the area of the hole?",
        unit="mm^2",
        reference=lambda given, earlier: pi / 4 * _hole(given) ** 2,
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.5,
        high=3.0,
        points=2,
        outcomes=("SHOP-2",),
        slips=(
            Slip(
                "diameter-for-radius",
                lambda given, earlier: pi * _hole(given) ** 2,
                0.5,
                "Four times too much, because the formula with pi r² wants the radius, which is "
                "half the diameter.",
            ),
            Slip(
                "number-as-size",
                lambda given, earlier: pi / 4 * (given["drill"] * 25.4e-6) ** 2,
                0.25,
                "You read the number as thousandths of an inch, but it is only a name. The "
                "diameter that belongs to it stands in the table.",
            ),
            Slip(
                "square-for-circle",
                lambda given, earlier: _hole(given) ** 2,
                0.5,
                "That is the area of a square of this width. A circle covers only pi/4 of it.",
            ),
        ),
        hints=(
            "Write the diameter with its unit, for example Q(0.052, 'inch'), and multiply its "
            "square by pi/4.",
        ),
    ),
    Exercise(
        id="one-for-two",
        ask="Two such jets feed one passage, and they are to be replaced by a single jet which has "
        "the same area as both together. What diameter must it have?",
        unit="mm",
        reference=lambda given, earlier: sqrt(8 * earlier["drill-area"] / pi),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=1.0,
        high=3.0,
        points=2,
        outcomes=("SHOP-2",),
        follows=("drill-area",),
        slips=(
            Slip(
                "twice-the-diameter",
                lambda given, earlier: 2 * sqrt(4 * earlier["drill-area"] / pi),
                0.5,
                "Twice the diameter gives four times the area, so for twice the area the diameter "
                "grows only by the root of two.",
            ),
            Slip(
                "one-jet",
                lambda given, earlier: sqrt(4 * earlier["drill-area"] / pi),
                0.25,
                "That is the diameter of one such jet. Double the area before you work back to a "
                "diameter.",
            ),
            Slip(
                "radius-for-diameter",
                lambda given, earlier: sqrt(2 * earlier["drill-area"] / pi),
                0.5,
                "That is the radius, but the question asks for the diameter.",
            ),
        ),
        hints=(
            "Area is pi/4 times diameter squared, so turn that formula round for twice the area.",
        ),
    ),
)
