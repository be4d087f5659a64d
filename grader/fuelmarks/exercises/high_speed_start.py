"""Unit 06, first steps: what the nozzle must give, and when it begins."""

from math import sqrt

from fuelmarks.exercises.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES", "GRAVITY"]

GRAVITY = 9.81
"""Acceleration of free fall the questions tell the trainee to use [m/s2]."""
THREE_FIGURES = "Three figures carry the chain; two in a hundred forgives rounding on the way."


def _demand(given: Values) -> float:
    """Return the fuel one barrel needs [kg/s]."""
    return given["barrel_air"] / given["wanted_ratio"]


def _speed(head: float, given: Values) -> float:
    """Return the speed of air whose depression is `head` [m/s]."""
    return sqrt(2 * head / given["throat_density"])


EXERCISES = (
    Exercise(
        id="main-fuel",
        ask="With the throttle wide open **one** barrel draws **{barrel_air}** of air. The "
        "mixture shall be **{wanted_ratio}** parts of air to one of fuel, by mass. How much fuel "
        "must the main nozzle of this barrel give?",
        unit="g/s",
        reference=lambda given, earlier: _demand(given),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.5,
        high=8.0,
        points=1,
        outcomes=("HI-1",),
        slips=(
            Slip(
                "share-of-mixture",
                lambda given, earlier: given["barrel_air"] / (given["wanted_ratio"] + 1),
                0.5,
                "You divided by air and fuel together. The ratio is air to fuel: divide the air "
                "by it as it stands.",
            ),
            Slip(
                "halved",
                lambda given, earlier: _demand(given) / 2,
                0.5,
                "Half of it: the air flow is already that of one barrel.",
            ),
        ),
        hints=("Air to fuel is the air flow divided by the fuel flow. Turn it round.",),
    ),
    Exercise(
        id="lip-head",
        ask="The lip of the nozzle stands **{lip_height}** above the fuel in the bowl. The fuel "
        "has a density of **{main_density}**. How deep must the depression at the lip be before "
        "a drop runs over? (g = 9.81 m/s²)",
        unit="Pa",
        reference=lambda given, earlier: given["main_density"] * GRAVITY * given["lip_height"],
        tolerance=0.02,
        why=THREE_FIGURES,
        low=8.0,
        high=120.0,
        points=1,
        outcomes=("HI-2",),
        slips=(
            Slip(
                "water-for-fuel",
                lambda given, earlier: 1000.0 * GRAVITY * given["lip_height"],
                0.5,
                "That is for water. Petrol is lighter, so less depression lifts it.",
            ),
            Slip(
                "no-gravity",
                lambda given, earlier: given["main_density"] * given["lip_height"],
                0.5,
                "g is missing: density times height is a mass over an area, not a pressure.",
            ),
            Slip(
                "both-sides",
                lambda given, earlier: 2 * given["main_density"] * GRAVITY * given["lip_height"],
                0.5,
                "Twice too much. Half m v² has no place here: nothing moves yet.",
            ),
        ),
        hints=("Pressure at the foot of a column: density times g times height.",),
    ),
    Exercise(
        id="starting-speed",
        ask="Take the depression at the lip as that of the air rushing past it: half its density "
        "times its speed squared. The density is **{throat_density}**. At what air speed does "
        "the fuel begin to run?",
        unit="m/s",
        reference=lambda given, earlier: _speed(earlier["lip-head"], given),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=2.0,
        high=16.0,
        points=2,
        outcomes=("HI-2",),
        follows=("lip-head",),
        slips=(
            Slip(
                "no-two",
                lambda given, earlier: _speed(earlier["lip-head"] / 2, given),
                0.5,
                "The 2 is missing. It comes from half the density times the speed squared.",
            ),
            Slip(
                "fuel-for-air",
                lambda given, earlier: sqrt(2 * earlier["lip-head"] / given["main_density"]),
                0.5,
                "You took the density of the fuel. It is air that rushes past the lip.",
            ),
            Slip(
                "no-root",
                lambda given, earlier: _speed(earlier["lip-head"], given) ** 2,
                0.5,
                "That is the speed squared. Take the root.",
            ),
        ),
        hints=(
            "Depression = density / 2 times speed squared. Solve for the speed.",
            "`(2 * lip_head / throat_density) ** 0.5` keeps the units.",
        ),
    ),
)
