"""Unit 09, first chain: how far the coil turns, how hard it shuts the plate, what opens it."""

from math import degrees, pi, radians, sqrt

from fuelcircuits.physics.circuits.bimetal import coil_rotation, coil_stiffness

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

ATMOSPHERE = 101_325.0
"""Standard atmosphere [Pa]."""
THREE_FIGURES = "Three figures carry the chain; two in a hundred forgives rounding on the way."


def _turn(given: Values, colder: float) -> float:
    """Return the angle by which the coil turns when it is `colder` by so many kelvins [rad]."""
    return float(
        coil_rotation(given["flexivity"], given["coil_length"], given["coil_thickness"], colder)
    )


def _stiffness(given: Values) -> float:
    """Return the torque of the coil for each radian it is held back [N m/rad]."""
    return float(
        coil_stiffness(
            given["coil_modulus"],
            given["coil_width"],
            given["coil_thickness"],
            given["coil_length"],
        )
    )


def _diaphragm_area(given: Values) -> float:
    """Return the area of the pull-off's diaphragm [m2]."""
    return pi / 4 * given["diaphragm"] ** 2


def _pull_off_vacuum(given: Values) -> float:
    """Return the vacuum at which the pull-off reaches its stop [Pa]."""
    force = given["preload"] + given["spring_rate"] * given["full_stroke"]
    return force / _diaphragm_area(given)


EXERCISES = (
    Exercise(
        id="coil-turn",
        ask="The coil just shuts the plate at {set_temperature}, and at dawn it is **{morning}**. "
        "Its strip is **{coil_length}** long and **{coil_thickness}** thick, with a flexivity of "
        "**{flexivity}** (millionths a kelvin). If its end were free, through what angle would "
        "the cold turn it? Use flexivity times length times change of temperature, divided by "
        "thickness.",
        unit="deg",
        reference=lambda given, earlier: _turn(given, given["set_temperature"] - given["morning"]),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=5.0,
        high=120.0,
        points=2,
        outcomes=("CHK-1", "SHOP-1"),
        slips=(
            Slip(
                "from-zero",
                lambda given, earlier: _turn(given, 273.15 - given["morning"]),
                0.5,
                "You counted the cold from 0 °C. The coil is at rest at its set temperature, so "
                "the change has to be counted from there.",
            ),
            Slip(
                "radians-called-degrees",
                lambda given, earlier: radians(
                    _turn(given, given["set_temperature"] - given["morning"])
                ),
                0.5,
                "The formula gives radians, but you wrote degrees behind the number. One radian "
                "is about 57 degrees.",
            ),
            Slip(
                "degrees-without-a-unit",
                lambda given, earlier: degrees(
                    _turn(given, given["set_temperature"] - given["morning"])
                ),
                0.5,
                "A bare number counts as radians. Yours is the right number of degrees, so say "
                "that it is in degrees.",
            ),
        ),
        hints=(
            "Subtract the temperature at dawn from the set temperature first, and mind the minus "
            "sign.",
            "Keep the units on, and end with .to('deg').",
        ),
    ),
    Exercise(
        id="coil-torque",
        ask="The shut plate holds the coil's end where it is, so the coil presses on it. The "
        "stiffness of the coil is E b t³ / (12 L), with Young's modulus E **{coil_modulus}**, "
        "width b **{coil_width}**, thickness t {coil_thickness} and length L {coil_length}. With "
        "what torque does the coil press the plate shut? Torque is stiffness times the angle of "
        "your last answer, in radians.",
        unit="N*mm",
        reference=lambda given, earlier: _stiffness(given) * earlier["coil-turn"],
        tolerance=0.02,
        why=THREE_FIGURES,
        low=2.0,
        high=200.0,
        points=2,
        outcomes=("CHK-1",),
        follows=("coil-turn",),
        slips=(
            Slip(
                "degrees-for-radians",
                lambda given, earlier: _stiffness(given) * degrees(earlier["coil-turn"]),
                0.5,
                "The angle went in as a number of degrees, but the formula wants radians.",
            ),
            Slip(
                "no-twelve",
                lambda given, earlier: 12 * _stiffness(given) * earlier["coil-turn"],
                0.5,
                "The 12 is missing. It comes from the bending stiffness of the strip, which "
                "contains b t³ / 12.",
            ),
            Slip(
                "width-and-thickness-swapped",
                lambda given, earlier: (
                    _stiffness(given)
                    * earlier["coil-turn"]
                    * (given["coil_width"] / given["coil_thickness"]) ** 2
                ),
                0.5,
                "The cube belongs to the thickness and not to the width, because the strip bends "
                "flatwise.",
            ),
        ),
        hints=(
            "Only the thickness is cubed, because the strip bends in the direction in which it "
            "is thin.",
            "Multiply by the angle, and end with .to('N*mm').",
        ),
    ),
    Exercise(
        id="opening-pressure",
        ask="The plate covers **{plate_area}**, and its shaft sits **{plate_offset}** off the "
        "middle. The air presses on the plate as if its whole force acted at the middle. What "
        "pressure drop across the plate just begins to open it against the coil?",
        unit="inH2O",
        reference=lambda given, earlier: (
            earlier["coil-torque"] / (given["plate_area"] * given["plate_offset"])
        ),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=2.0,
        high=120.0,
        points=2,
        outcomes=("CHK-2", "SHOP-1"),
        follows=("coil-torque",),
        slips=(
            Slip(
                "twice-the-offset",
                lambda given, earlier: (
                    earlier["coil-torque"] / (2 * given["plate_area"] * given["plate_offset"])
                ),
                0.5,
                "You took the difference between the two wings, which is twice the offset. The "
                "arm is only the distance from the shaft to the middle of the plate.",
            ),
            Slip(
                "half-width-as-arm",
                lambda given, earlier: (
                    earlier["coil-torque"] / (given["plate_area"] * sqrt(given["plate_area"] / pi))
                ),
                0.5,
                "You let the air act at the edge of the plate. Since the two wings nearly "
                "balance, the arm is only the offset.",
            ),
        ),
        hints=(
            "Torque is pressure drop times area times arm, so turn this round to find the "
            "pressure drop.",
        ),
    ),
    Exercise(
        id="pull-off-vacuum",
        ask="The pull-off has a diaphragm of **{diaphragm}** bore. Its spring presses with "
        "**{preload}** before anything moves, and with **{spring_rate}** more as the diaphragm "
        "travels **{full_stroke}** to its stop. What manifold vacuum brings it there?",
        unit="inHg",
        reference=lambda given, earlier: _pull_off_vacuum(given),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=1.0,
        high=28.0,
        points=2,
        outcomes=("CHK-2", "SHOP-2"),
        slips=(
            Slip(
                "no-preload",
                lambda given, earlier: (
                    given["spring_rate"] * given["full_stroke"] / _diaphragm_area(given)
                ),
                0.5,
                "The force that the spring has before it moves is missing, so add it to the force "
                "that the travel brings.",
            ),
            Slip(
                "preload-alone",
                lambda given, earlier: given["preload"] / _diaphragm_area(given),
                0.5,
                "That is the vacuum at which the diaphragm begins to move. At the stop the spring "
                "is shorter by the whole stroke, so it presses harder.",
            ),
            Slip(
                "diameter-for-radius",
                lambda given, earlier: _pull_off_vacuum(given) / 4,
                0.5,
                "Four times too little: in pi r² the radius goes in, which is half the bore.",
            ),
            Slip(
                "absolute-pressure",
                lambda given, earlier: ATMOSPHERE - _pull_off_vacuum(given),
                0.5,
                "You gave the pressure that is left in the manifold. The question asks for the "
                "vacuum, which is how far that pressure lies below the air outside.",
            ),
        ),
        hints=(
            "Find the force of the spring at the stop first, then divide it by the area of the "
            "diaphragm.",
        ),
    ),
)
