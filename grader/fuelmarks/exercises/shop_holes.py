"""Unit 00: pressures that do not count from the same zero, and holes that a drill gauges."""

from math import pi, sqrt

from fuelcircuits.drills import diameter_of

from fuelmarks.exercises.exercise import Exercise, Slip, Values

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
        ask="The fuel gauge shows **{supply_pressure}**. It counts from the air around it. The "
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
                "You added inches of mercury to psi as if they were the same unit.",
            ),
            Slip(
                "gauge-taken-off",
                lambda given, earlier: given["ambient_pressure"] - given["supply_pressure"],
                0.5,
                "You took the gauge off. A pump pushes above the air outside: add.",
            ),
        ),
        hints=("Absolute is barometer plus gauge. Keep the units on and let them convert.",),
    ),
    Exercise(
        id="drill-area",
        ask="The shank of a number **{drill}** drill just passes through a jet. The table above "
        "gives its diameter. What is the area of the hole?",
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
                "Four times too much: the formula with pi r² wants half the diameter.",
            ),
            Slip(
                "number-as-size",
                lambda given, earlier: pi / 4 * (given["drill"] * 25.4e-6) ** 2,
                0.25,
                "The number is a name, not thousandths of an inch. Take the diameter from the "
                "table.",
            ),
            Slip(
                "square-for-circle",
                lambda given, earlier: _hole(given) ** 2,
                0.5,
                "That is a square of this width. A circle has pi/4 of it.",
            ),
        ),
        hints=("Diameter with its unit: Q(0.052, 'inch'). Then pi/4 times its square.",),
    ),
    Exercise(
        id="one-for-two",
        ask="Two such jets feed one passage. One single jet is to have the same area as both "
        "together. What diameter has it?",
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
                "Twice the diameter is four times the area. It takes only the root of two.",
            ),
            Slip(
                "one-jet",
                lambda given, earlier: sqrt(4 * earlier["drill-area"] / pi),
                0.25,
                "That is one jet. Double the area before you go back to a diameter.",
            ),
            Slip(
                "radius-for-diameter",
                lambda given, earlier: sqrt(2 * earlier["drill-area"] / pi),
                0.5,
                "That is the radius. Asked is the diameter.",
            ),
        ),
        hints=("Area is pi/4 times diameter squared. Turn it round for twice the area.",),
    ),
)
