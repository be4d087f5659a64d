"""Unit 05, second chain: the ball of the off-idle bleed valve and its spring."""

from math import pi

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

MANOMETER = "A water manometer is read to about a quarter of an inch."


def _seat(given: Values) -> float:
    """Return the area of the valve's seat [m2]."""
    return pi * given["valve_seat"] ** 2 / 4


EXERCISES = (
    Exercise(
        id="ball-force",
        ask="The ball of the bleed valve is **{ball_diameter}** across and rests on a seat with a "
        "bore of **{valve_seat}**. It shall lift when the chamber is **{opening_vacuum}** below "
        "the bore above it. With what force must the spring press it on its seat, if you leave "
        "out the ball's own weight?",
        unit="mN",
        reference=lambda given, earlier: given["opening_vacuum"] * _seat(given),
        tolerance=0.02,
        why="Three figures carry the chain; two in a hundred forgives rounding on the way.",
        low=3.0,
        high=60.0,
        points=2,
        outcomes=("OFF-3", "SHOP-1"),
        slips=(
            Slip(
                "ball-for-seat",
                lambda given, earlier: (
                    given["opening_vacuum"] * pi * given["ball_diameter"] ** 2 / 4
                ),
                0.5,
                "You took the area of the ball. While it sits, however, the vacuum reaches only "
                "the part of it that is inside the seat's bore.",
            ),
            Slip(
                "diameter-for-radius",
                lambda given, earlier: 4 * given["opening_vacuum"] * _seat(given),
                0.5,
                "That is four times too much, because the formula with pi r² wants the radius, "
                "which is half the bore.",
            ),
            Slip(
                "mercury-for-water",
                lambda given, earlier: given["opening_vacuum"] * 3386.389 / 249.0889 * _seat(given),
                0.5,
                "You took inches of mercury, but a vacuum as small as this is read in inches of "
                "water.",
            ),
        ),
        hints=(
            "The force is the pressure times an area.",
            "Which area does the vacuum act on while the ball sits?",
        ),
    ),
    Exercise(
        id="full-open-vacuum",
        ask="When it leaves its seat, the ball rises by **{ball_lift}** until it meets its stop. "
        "The spring has a rate of **{spring_rate}**. What vacuum holds the ball against its "
        "stop, if it acts on the area of the seat's bore all the way?",
        unit="inH2O",
        reference=lambda given, earlier: (
            (earlier["ball-force"] + given["spring_rate"] * given["ball_lift"]) / _seat(given)
        ),
        tolerance=0.03,
        why=MANOMETER,
        low=8.0,
        high=30.0,
        points=3,
        outcomes=("OFF-3",),
        follows=("ball-force",),
        rounded_to=0.25,
        slips=(
            Slip(
                "spring-alone",
                lambda given, earlier: given["spring_rate"] * given["ball_lift"] / _seat(given),
                0.5,
                "That is only what the lift adds, but the spring already pressed before the ball "
                "moved.",
            ),
            Slip(
                "spring-taken-off",
                lambda given, earlier: (
                    (earlier["ball-force"] - given["spring_rate"] * given["ball_lift"])
                    / _seat(given)
                ),
                0.5,
                "The lift squeezes the spring further, so its force grows and must be added "
                "rather than subtracted.",
            ),
        ),
        hints=(
            "The force of the spring is what it had before, plus its rate times the travel.",
            "Then the pressure is that force divided by the area.",
        ),
    ),
)
