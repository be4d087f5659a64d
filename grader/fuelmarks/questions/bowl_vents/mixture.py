"""Unit 03, first chain: what a wrong bowl pressure does to the mixture and to the fuel bill."""

from math import sqrt

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]


def _share(given: Values) -> float:
    """Return the old drop across the jet over the new one, the cleaner's loss added [1]."""
    return given["booster_drop"] / (given["booster_drop"] + given["cleaner_loss"])


def _richer(given: Values, earlier: Values) -> float:
    """Return how many times the old fuel flow the new one is [1]."""
    return given["cruise_ratio"] / earlier["hung-ratio"]


EXERCISES = (
    Exercise(
        id="hung-ratio",
        ask="At a cruise the pressure in the booster is **{booster_drop}** below the air horn, "
        "which itself is **{cleaner_loss}** below the outside because of the air cleaner. While "
        "the bowl was vented to the air horn, the mixture was **{cruise_ratio}** to 1. Now the "
        "outside vent hangs wide open, so the bowl is at the pressure outside, and the air flow "
        "stays the same. What is the air-fuel ratio now, if the nozzle's lip is neglected?",
        unit="",
        reference=lambda given, earlier: given["cruise_ratio"] * sqrt(_share(given)),
        tolerance=0.01,
        why="An air-fuel ratio is read to a tenth, less than one in a hundred.",
        low=8.0,
        high=16.0,
        points=3,
        outcomes=("VNT-1",),
        slips=(
            Slip(
                "no-root",
                lambda given, earlier: given["cruise_ratio"] * _share(given),
                0.5,
                "You let the fuel increase as the pressure does, but flow goes with the square "
                "root of pressure.",
            ),
            Slip(
                "lean-for-rich",
                lambda given, earlier: given["cruise_ratio"] / sqrt(_share(given)),
                0.5,
                "The ratio is upside down. A higher pressure on the fuel delivers more fuel, so "
                "there are fewer parts of air to one of fuel.",
            ),
            Slip(
                "loss-taken-off",
                lambda given, earlier: (
                    given["cruise_ratio"] / sqrt(1 - given["cleaner_loss"] / given["booster_drop"])
                ),
                0.5,
                "You subtracted the cleaner's loss from the booster's pull. The bowl is now at the "
                "higher pressure outside, so the loss has to be added.",
            ),
        ),
        hints=(
            "Find the pressure difference across the jet first, before and after the change.",
            "The fuel flow goes with the square root of that pressure, while the air stays the "
            "same.",
        ),
    ),
    Exercise(
        id="extra-fuel",
        ask="Before the vent hung open, the car consumed **{weekly_fuel}** in a week on such "
        "roads. How much more does it consume in a week with your new ratio, for the same air?",
        unit="l",
        reference=lambda given, earlier: given["weekly_fuel"] * (_richer(given, earlier) - 1),
        tolerance=0.04,
        why="A small difference of two ratios: rounding the ratio to a tenth already costs this.",
        low=0.5,
        high=16.0,
        points=2,
        outcomes=("VNT-1",),
        follows=("hung-ratio",),
        rounded_to=0.2,
        slips=(
            Slip(
                "all-of-it",
                lambda given, earlier: given["weekly_fuel"] * _richer(given, earlier),
                0.5,
                "That is the total consumption of a week, but the question asks how much is added.",
            ),
            Slip(
                "as-the-pressure",
                lambda given, earlier: (
                    given["weekly_fuel"] * given["cleaner_loss"] / given["booster_drop"]
                ),
                0.25,
                "You let the consumption grow as the pressure did. Compare the two air-fuel ratios "
                "instead, because they already contain the square root.",
            ),
        ),
        hints=(
            "Since the air is the same, fuel now over fuel before is old ratio over new ratio.",
        ),
    ),
)
