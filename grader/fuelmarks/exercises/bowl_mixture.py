"""Unit 03, first chain: what a wrong bowl pressure does to the mixture and to the fuel bill."""

from math import sqrt

from fuelmarks.exercises.exercise import Exercise, Slip, Values

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
        ask="At a cruise the booster pulls **{booster_drop}** below the air horn, and the air "
        "cleaner takes **{cleaner_loss}** before that. With the bowl vented to the air horn the "
        "mixture is **{cruise_ratio}** to 1. Now the outside vent hangs wide open, so the bowl is "
        "at the pressure outside. The air flow stays. What is the air-fuel ratio now? Leave the "
        "nozzle's lip out.",
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
                "You let the fuel grow as the pressure does. Flow goes with the root of pressure.",
            ),
            Slip(
                "lean-for-rich",
                lambda given, earlier: given["cruise_ratio"] / sqrt(_share(given)),
                0.5,
                "The ratio is upside down. More push on the fuel means more fuel, so fewer parts "
                "of air to one of fuel.",
            ),
            Slip(
                "loss-taken-off",
                lambda given, earlier: (
                    given["cruise_ratio"] / sqrt(1 - given["cleaner_loss"] / given["booster_drop"])
                ),
                0.5,
                "You took the cleaner's loss off the drop. The bowl is at the higher pressure "
                "outside, so the loss comes on top.",
            ),
        ),
        hints=(
            "First the pressure across the jet, before and after.",
            "Fuel goes with the root of that pressure; the air stays the same.",
        ),
    ),
    Exercise(
        id="extra-fuel",
        ask="Before the vent hung open, the car used **{weekly_fuel}** a week on such roads. How "
        "much more does it use a week with your new ratio, for the same air?",
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
                "That is the whole use of a week. Asked is how much is added.",
            ),
            Slip(
                "as-the-pressure",
                lambda given, earlier: (
                    given["weekly_fuel"] * given["cleaner_loss"] / given["booster_drop"]
                ),
                0.25,
                "That is how much the pressure grew. Use the two air-fuel ratios.",
            ),
        ),
        hints=("Same air: fuel now over fuel before is old ratio over new ratio.",),
    ),
)
