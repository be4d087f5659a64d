"""Unit 02, first chain: from the needle's seat through the lever to the float."""

from math import pi

from fuelcircuits.physics.needle_valve import seat_area

from fuelmarks.exercises.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES", "GRAVITY", "lever_ratio"]

GRAVITY = 9.81
"""Acceleration of free fall the questions tell the trainee to use [m/s2]."""
THREE_FIGURES = "Three figures carry the chain; two in a hundred forgives rounding on the way."


def lever_ratio(given: Values) -> float:
    """Return what the lever makes of the needle's force at the float [1]."""
    return given["needle_arm"] / given["float_arm"]


EXERCISES = (
    Exercise(
        id="seat-area",
        ask="The bore of the needle seat is **{seat_bore}** across. What is its area?",
        unit="mm^2",
        reference=lambda given, earlier: float(seat_area(given["seat_bore"])),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=1.0,
        high=12.0,
        points=1,
        outcomes=("SHOP-2",),
        slips=(
            Slip(
                "diameter-for-radius",
                lambda given, earlier: pi * given["seat_bore"] ** 2,
                0.5,
                "Four times too much: the formula with pi r² wants the radius, half the bore.",
            ),
            Slip(
                "square-for-circle",
                lambda given, earlier: given["seat_bore"] ** 2,
                0.5,
                "That is the area of a square of this width. A circle has pi/4 of it.",
            ),
            Slip(
                "half-circle",
                lambda given, earlier: pi * given["seat_bore"] ** 2 / 2,
                0.5,
                "Twice too much: with the diameter the formula is pi d² / 4, not / 2.",
            ),
        ),
        hints=("Area of a circle: pi times diameter squared, divided by 4.",),
    ),
    Exercise(
        id="needle-force",
        ask="The pump holds **{supply_pressure}** on its gauge. The bowl is open to the air. "
        "With the needle shut, how hard does the fuel push on it? "
        "The pressure acts on the area of the seat bore.",
        unit="N",
        reference=lambda given, earlier: given["supply_pressure"] * earlier["seat-area"],
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.02,
        high=1.5,
        points=2,
        outcomes=("FLT-1", "SHOP-1"),
        follows=("seat-area",),
        slips=(
            Slip(
                "absolute-pressure",
                lambda given, earlier: (
                    (given["supply_pressure"] + 101_325.0) * earlier["seat-area"]
                ),
                0.5,
                "You took the absolute pressure. The air presses on the needle from the bowl's "
                "side too, so only the gauge pressure counts.",
            ),
            Slip(
                "psi-as-kpa",
                lambda given, earlier: given["supply_pressure"] / 6.894757 * earlier["seat-area"],
                0.5,
                "The number of psi went in as if it were kPa. Let the computer convert: "
                "keep the unit on the number.",
            ),
        ),
        hints=("Force is pressure times area.", "Keep both numbers as quantities with units."),
    ),
    Exercise(
        id="float-lift",
        ask="The needle sits **{needle_arm}** from the fulcrum, the middle of the float "
        "**{float_arm}** from the fulcrum, on the same side. What upward pull at the middle of "
        "the float holds the needle shut against the fuel? Leave all weights out for now.",
        unit="N",
        reference=lambda given, earlier: earlier["needle-force"] * lever_ratio(given),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.003,
        high=0.4,
        points=2,
        outcomes=("FLT-1",),
        follows=("needle-force",),
        slips=(
            Slip(
                "lever-upside-down",
                lambda given, earlier: earlier["needle-force"] / lever_ratio(given),
                0.5,
                "The lever is turned round: the float is further from the fulcrum, so it needs "
                "less force than the needle, not more.",
            ),
            Slip(
                "arm-from-needle",
                lambda given, earlier: (
                    earlier["needle-force"]
                    * given["needle_arm"]
                    / (given["float_arm"] - given["needle_arm"])
                ),
                0.5,
                "You measured the float's arm from the needle. Both arms count from the fulcrum.",
            ),
        ),
        hints=("Moments about the fulcrum: force times arm is the same on both sides.",),
    ),
    Exercise(
        id="buoyancy",
        ask="The float with its lever has a mass of **{float_mass}**; take its weight as acting "
        "at the middle of the float, and g as 9.81 m/s². How large must the buoyancy be, so that "
        "the float carries itself and still holds the needle shut?",
        unit="N",
        reference=lambda given, earlier: earlier["float-lift"] + given["float_mass"] * GRAVITY,
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.05,
        high=0.6,
        points=2,
        outcomes=("FLT-1",),
        follows=("float-lift",),
        slips=(
            Slip(
                "no-weight",
                lambda given, earlier: earlier["float-lift"],
                0.25,
                "That is the pull on the lever alone. The float must carry its own weight first.",
            ),
            Slip(
                "weight-alone",
                lambda given, earlier: given["float_mass"] * GRAVITY,
                0.25,
                "That makes the float swim, and no more. The pull for the needle comes on top.",
            ),
            Slip(
                "weight-taken-off",
                lambda given, earlier: given["float_mass"] * GRAVITY - earlier["float-lift"],
                0.5,
                "The two loads were subtracted. Weight and needle both pull the float down: add.",
            ),
        ),
        hints=("Weight is mass times g.", "Buoyancy up equals everything that pushes down."),
    ),
    Exercise(
        id="displaced-volume",
        ask="The fuel has a density of **{fuel_density}**. What volume of the float is then "
        "under the fuel? (g = 9.81 m/s²)",
        unit="cm^3",
        reference=lambda given, earlier: earlier["buoyancy"] / (given["fuel_density"] * GRAVITY),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=5.0,
        high=60.0,
        points=2,
        outcomes=("FLT-1",),
        follows=("buoyancy",),
        slips=(
            Slip(
                "water-for-fuel",
                lambda given, earlier: earlier["buoyancy"] / (1000.0 * GRAVITY),
                0.5,
                "You took the density of water. Petrol is lighter, so the float sinks deeper.",
            ),
            Slip(
                "specific-gravity-upside-down",
                lambda given, earlier: (
                    earlier["buoyancy"] * given["fuel_density"] / (1000.0**2 * GRAVITY)
                ),
                0.5,
                "The fuel's density went in the wrong way round: a lighter fuel needs more "
                "float under it, not less.",
            ),
        ),
        hints=("Archimedes: buoyancy is the weight of the fuel pushed aside.",),
    ),
)
