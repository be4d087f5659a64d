"""Unit 06, first steps: what the nozzle must give, and when it begins."""

from math import sin, sqrt

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES", "GRAVITY"]

GRAVITY = 9.81
"""Acceleration of free fall the questions tell the trainee to use [m/s2]."""
THREE_FIGURES = "Three figures carry the chain; two in a hundred forgives rounding on the way."


def _demand(given: Values) -> float:
    """Return the fuel one barrel needs [kg/s]."""
    return given["barrel_air"] / given["wanted_ratio"]


def _lip(given: Values) -> float:
    """Return how high the mouth of the nozzle stands above the fuel level [m]."""
    return given["nozzle_length"] * sin(given["nozzle_slope"]) - given["entry_depth"]


def _speed(head: float, given: Values) -> float:
    """Return the speed of air whose depression is `head` [m/s]."""
    return sqrt(2 * head / given["throat_density"])


EXERCISES = (
    Exercise(
        id="main-fuel",
        ask="With the throttle wide open, **one** barrel draws **{barrel_air}** of air. The "
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
                "You divided by air and fuel together. The ratio is air to fuel alone, so divide "
                "the air by it as it stands.",
            ),
            Slip(
                "halved",
                lambda given, earlier: _demand(given) / 2,
                0.5,
                "That is half of it, although the air flow already belongs to one barrel alone.",
            ),
        ),
        hints=("Air to fuel is the air flow divided by the fuel flow, so turn it round.",),
    ),
    Exercise(
        id="lip-head",
        ask="The nozzle leaves the well **{entry_depth}** below the fuel level in the bowl. From "
        "there it slopes **up**, **{nozzle_length}** long, at **{nozzle_slope}** from level, so "
        "its mouth is its highest point and therefore its lip. (If it sloped down, its inner end "
        "would be the lip.) The fuel has a density of **{main_density}**. How deep must the "
        "depression at the lip be before a drop runs over? (g = 9.81 m/s²)",
        unit="Pa",
        reference=lambda given, earlier: given["main_density"] * GRAVITY * _lip(given),
        tolerance=0.03,
        why="The lip's height is left over from two larger ones, which doubles any rounding.",
        low=20.0,
        high=56.0,
        points=2,
        outcomes=("HI-2",),
        slips=(
            Slip(
                "water-for-fuel",
                lambda given, earlier: 1000.0 * GRAVITY * _lip(given),
                0.5,
                "That is for water, but petrol is lighter, so less depression lifts it.",
            ),
            Slip(
                "depth-added",
                lambda given, earlier: (
                    given["main_density"] * GRAVITY * (_lip(given) + 2 * given["entry_depth"])
                ),
                0.5,
                "You added the depth, but the nozzle begins below the fuel level, so a part of "
                "its rise lies under it and must be subtracted.",
            ),
            Slip(
                "from-the-well",
                lambda given, earlier: (
                    given["main_density"] * GRAVITY * (_lip(given) + given["entry_depth"])
                ),
                0.5,
                "You counted from where the nozzle leaves the well, although up to the level in "
                "the bowl the fuel stands by itself.",
            ),
            Slip(
                "no-gravity",
                lambda given, earlier: given["main_density"] * _lip(given),
                0.5,
                "g is missing: density times height is a mass over an area, which only becomes a "
                "pressure with g.",
            ),
        ),
        hints=(
            "The rise of the nozzle is its length times the sine of its slope, and `sin(Q(25, "
            "'deg'))` works.",
            "The lip stands over the fuel by the rise less the depth, and the pressure is density "
            "times g times that height.",
        ),
    ),
    Exercise(
        id="starting-speed",
        ask="Take the depression at the lip as that of the air rushing past it, which is half its "
        "density times its speed squared. The density is **{throat_density}**. At what air speed "
        "does the fuel begin to run?",
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
                "The 2 is missing, which comes from half the density times the speed squared.",
            ),
            Slip(
                "fuel-for-air",
                lambda given, earlier: sqrt(2 * earlier["lip-head"] / given["main_density"]),
                0.5,
                "You took the density of the fuel, but it is air that rushes past the lip.",
            ),
            Slip(
                "no-root",
                lambda given, earlier: _speed(earlier["lip-head"], given) ** 2,
                0.5,
                "That is the speed squared, so take the root of it.",
            ),
        ),
        hints=(
            "The depression is density / 2 times speed squared, so solve that for the speed.",
            "`(2 * lip_head / throat_density) ** 0.5` keeps the units.",
        ),
    ),
)
