"""Questions on the mixture and on the bleed valve, asked again in unit 11."""

from math import pi

from fuelmarks.questions.frame.exercise import Exercise, Given, Slip, Values

__all__ = ["BALL_LIFTS", "GIVENS", "THRIFTY_MIXTURE"]

GIVENS = (
    Given("rich_fuel", "for 100 km, mixture too rich", "l", low=11.0, high=15.0, step=0.2),
    Given("ball_seat", "seat of the bleed valve", "mm", low=2.6, high=3.6, step=0.1),
    Given("ball_spring", "on the shut ball", "mN", low=12.0, high=22.0, step=1.0),
)
RICH_COST, THRIFTY_COST, THRIFTY_TORQUE = 1.18, 1.00, 0.95
"""Fuel for the work at lambda 0.85 and 1.05, and torque at 1.05 [1]: the table of unit 10."""


def _opening_vacuum(given: Values) -> float:
    """Return the vacuum that just lifts the ball [Pa]."""
    return given["ball_spring"] / (pi / 4 * given["ball_seat"] ** 2)


THRIFTY_MIXTURE = Exercise(
    id="thrifty-mixture",
    ask="From unit 10. At a lambda of 0.85 an engine takes 1.18 times the least fuel for its "
    "work, while at 1.05 it takes just the least. With 0.85 the car burns **{rich_fuel}** over "
    "100 km. What does it burn at 1.05 on the same road?",
    unit="l",
    reference=lambda given, earlier: given["rich_fuel"] * THRIFTY_COST / RICH_COST,
    tolerance=0.02,
    why="Three figures are enough; no two runs over a road are nearer than that.",
    low=5.0,
    high=25.0,
    points=2,
    outcomes=("MIX-4",),
    slips=(
        Slip(
            "upside-down",
            lambda given, earlier: given["rich_fuel"] * RICH_COST / THRIFTY_COST,
            0.5,
            "Your ratio is upside down: the leaner mixture takes less fuel for the same work.",
        ),
        Slip(
            "by-lambda",
            lambda given, earlier: given["rich_fuel"] * 0.85 / 1.05,
            0.5,
            "You scaled by lambda, as if the air stayed the same. The lean engine gives less "
            "torque, so the driver opens the throttle further.",
        ),
    ),
    hints=(
        "The work is the same, so the fuel is 1.18 times the least at one mixture and just the "
        "least at the other.",
    ),
)

BALL_LIFTS = Exercise(
    id="ball-lifts",
    ask="From unit 05. The ball of the off-idle bleed valve shuts a seat of **{ball_seat}** bore, "
    "and its spring presses with **{ball_spring}**. At what vacuum in the idle-port chamber does "
    "the ball lift?",
    unit="inH2O",
    reference=lambda given, earlier: _opening_vacuum(given),
    tolerance=0.02,
    why="Three figures are enough; a water column is read to a tenth of an inch.",
    low=2.0,
    high=40.0,
    points=2,
    outcomes=("OFF-3",),
    slips=(
        Slip(
            "diameter-for-radius",
            lambda given, earlier: _opening_vacuum(given) / 4,
            0.5,
            "Four times too little: in pi r² the radius goes in, which is half the bore.",
        ),
        Slip(
            "square-for-circle",
            lambda given, earlier: given["ball_spring"] / given["ball_seat"] ** 2,
            0.5,
            "That would be right for a square seat of this width. A circle has only pi/4 of its "
            "area.",
        ),
    ),
    hints=(
        "Vacuum lifts the ball when vacuum times the area of the seat equals the force of the "
        "spring.",
    ),
)
