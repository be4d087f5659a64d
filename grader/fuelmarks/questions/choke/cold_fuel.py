"""Unit 09, the fuel a cold engine needs, and what the start timer adds."""

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES", "SHARES", "TEMPERATURES"]

TEMPERATURES = (-20.0, -15.0, -10.0, -5.0, 0.0, 5.0)
"""Temperatures of the unit's table [degC]."""
SHARES = (19.0, 27.0, 35.0, 43.0, 52.0, 61.0)
"""Share of the fuel that evaporates there [%]: `physics.evaporation` at 13 to 1, rounded."""
TIMER = 35.0
"""How long the start timer stays on after the engine caught [s] (common practice, no source)."""


def _needed(given: Values) -> float:
    """Return the fuel a cold engine must get so that enough of it evaporates [kg/s]."""
    return given["cranking_air"] / given["burnt_ratio"] / given["vapour_share"]


def _extra(given: Values, seconds: float) -> float:
    """Return the fuel the timer adds in so many seconds [kg]."""
    each = 1 / given["timed_ratio"] - 1 / given["plain_ratio"]
    return given["idle_air"] * seconds * each


EXERCISES = (
    Exercise(
        id="cold-fuel",
        ask="While the starter turns, the engine draws **{cranking_air}** of air, and it fires if "
        "there are **{burnt_ratio}** parts of air to one part of fuel vapour. At this temperature "
        "only **{vapour_share}** of the fuel evaporates. How much fuel must the carburettor "
        "deliver?",
        unit="g/s",
        reference=lambda given, earlier: _needed(given),
        tolerance=0.02,
        why="Three figures are enough; the share that evaporates is never known better.",
        low=0.1,
        high=6.0,
        points=2,
        outcomes=("CHK-3",),
        slips=(
            Slip(
                "all-evaporates",
                lambda given, earlier: given["cranking_air"] / given["burnt_ratio"],
                0.25,
                "That much vapour is needed. Because part of the fuel stays liquid in the cold, "
                "more than that has to be delivered.",
            ),
            Slip(
                "times-the-share",
                lambda given, earlier: _needed(given) * given["vapour_share"] ** 2,
                0.5,
                "You multiplied by the share that evaporates. You have to divide by it, because "
                "the less evaporates, the more must be delivered.",
            ),
            Slip(
                "share-that-stays-liquid",
                lambda given, earlier: (
                    _needed(given) * given["vapour_share"] / (1 - given["vapour_share"])
                ),
                0.5,
                "You took the share that stays liquid, but what burns is the share that "
                "evaporates.",
            ),
        ),
        hints=(
            "First find the vapour needed, from the air. Then work out how much fuel gives "
            "that much vapour.",
        ),
    ),
    Exercise(
        id="timer-fuel",
        ask="The engine caught after **{cranking_time}** on the starter. For the 35 s after that "
        "the timer keeps the idle air passage shut and the mixture at **{timed_ratio}** to one, "
        "while without it the mixture would be **{plain_ratio}** to one. If the engine draws "
        "**{idle_air}** of air, how much extra fuel does the timer add in these 35 s?",
        unit="g",
        reference=lambda given, earlier: _extra(given, TIMER),
        tolerance=0.03,
        why="It is the difference of two numbers near each other, which widens every error.",
        low=0.5,
        high=25.0,
        points=3,
        outcomes=("CHK-3",),
        slips=(
            Slip(
                "all-the-fuel",
                lambda given, earlier: given["idle_air"] * TIMER / given["timed_ratio"],
                0.5,
                "That is all the fuel of these seconds. The question asks only for what the timer "
                "adds to it.",
            ),
            Slip(
                "difference-of-ratios",
                lambda given, earlier: (
                    given["idle_air"] * TIMER / (given["plain_ratio"] - given["timed_ratio"])
                ),
                0.5,
                "You subtracted the two ratios and divided by the difference. Work out the two "
                "fuel flows instead, and subtract those.",
            ),
            Slip(
                "cranking-counted-in",
                lambda given, earlier: _extra(given, TIMER + given["cranking_time"]),
                0.5,
                "You counted the time on the starter too. The timer is at work then, but the "
                "question begins when the engine has caught.",
            ),
        ),
        hints=(
            "Fuel flow is air flow divided by the ratio, so work it out once with the timer "
            "and once without it.",
        ),
    ),
)
