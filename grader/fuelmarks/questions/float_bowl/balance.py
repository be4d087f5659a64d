"""Unit 02, the balance: how hard the fuel pushes the needle, and what the float must bear."""

from math import pi

from fuelcircuits.physics.circuits.needle_valve import seat_force

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES", "GRAVITY", "lever_ratio"]

GRAVITY = 9.81
"""Acceleration of free fall the questions tell the trainee to use [m/s2]."""
THREE_FIGURES = "Three figures carry the chain; two in a hundred forgives rounding on the way."


def lever_ratio(given: Values) -> float:
    """Return what the lever makes of the needle's force at the float [1]."""
    return given["needle_arm"] / given["float_arm"]


def _push(given: Values) -> float:
    """Return the force of the fuel on the shut needle [N]."""
    return float(seat_force(given["supply_pressure"], given["seat_bore"]))


def _weight(given: Values) -> float:
    """Return the weight of the float with its lever [N]."""
    return given["float_mass"] * GRAVITY


EXERCISES = (
    Exercise(
        id="needle-force",
        ask="The needle's seat has a bore of **{seat_bore}**. The pump holds "
        "**{supply_pressure}** on its gauge, while the bowl is open to the air. With what force "
        "does the fuel push on the closed needle, if its pressure acts on the area of the bore?",
        unit="N",
        reference=lambda given, earlier: _push(given),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.02,
        high=1.5,
        points=2,
        outcomes=("FLT-1", "SHOP-1", "SHOP-2"),
        slips=(
            Slip(
                "diameter-for-radius",
                lambda given, earlier: 4 * _push(given),
                0.5,
                "Four times too much, because the formula with pi r² wants the radius, which is "
                "half the bore.",
            ),
            Slip(
                "square-for-circle",
                lambda given, earlier: _push(given) * 4 / pi,
                0.5,
                "You squared the bore, which gives the area of a square. A circle of the same "
                "width has only pi/4 of that.",
            ),
            Slip(
                "absolute-pressure",
                lambda given, earlier: _push(given) * (1 + 101_325.0 / given["supply_pressure"]),
                0.5,
                "You took the absolute pressure. The air presses on the needle from the bowl's "
                "side as well, so only the difference counts, and that is what a gauge shows.",
            ),
            Slip(
                "psi-as-kpa",
                lambda given, earlier: _push(given) / 6.894757,
                0.5,
                "The number of psi went in as if it were kPa. Keep the unit on the number, and "
                "the computer converts it for you.",
            ),
        ),
        hints=(
            "Force is pressure times area, and the area of a circle is pi/4 times bore squared.",
            "Keep both numbers as quantities with units, then ask the result for .to('N').",
        ),
    ),
    Exercise(
        id="buoyancy",
        ask="The needle sits **{needle_arm}** from the fulcrum, and the middle of the float "
        "**{float_arm}** from it on the same side. Float and lever together have a mass of "
        "**{float_mass}**, whose weight acts at the middle of the float (g is 9.81 m/s²). How "
        "large must the buoyancy there be, so that the float carries its own weight and still "
        "holds the needle shut?",
        unit="N",
        reference=lambda given, earlier: (
            earlier["needle-force"] * lever_ratio(given) + _weight(given)
        ),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.05,
        high=0.6,
        points=3,
        outcomes=("FLT-1",),
        follows=("needle-force",),
        slips=(
            Slip(
                "no-weight",
                lambda given, earlier: earlier["needle-force"] * lever_ratio(given),
                0.25,
                "That is only the pull which holds the needle. Before the float can pull at all, "
                "it must carry its own weight, so add that.",
            ),
            Slip(
                "weight-alone",
                lambda given, earlier: _weight(given),
                0.25,
                "That buoyancy makes the float swim and nothing more. The force that holds the "
                "needle shut has to be added.",
            ),
            Slip(
                "no-lever",
                lambda given, earlier: earlier["needle-force"] + _weight(given),
                0.5,
                "The force on the needle went straight to the float. Since the float stands "
                "further from the fulcrum, the lever lets it hold the needle with less.",
            ),
            Slip(
                "lever-upside-down",
                lambda given, earlier: (
                    earlier["needle-force"] / lever_ratio(given) + _weight(given)
                ),
                0.5,
                "The lever is turned round. The float is further from the fulcrum than the "
                "needle, so it needs less force, not more.",
            ),
            Slip(
                "weight-taken-off",
                lambda given, earlier: abs(
                    _weight(given) - earlier["needle-force"] * lever_ratio(given)
                ),
                0.5,
                "You subtracted one load from the other. Both the weight and the needle push the "
                "float downwards, so they add up.",
            ),
        ),
        hints=(
            "Moments about the fulcrum balance: force times arm at the needle is force times arm "
            "at the float.",
            "The float's weight is its mass times g, and the buoyancy has to carry both loads.",
        ),
    ),
)
