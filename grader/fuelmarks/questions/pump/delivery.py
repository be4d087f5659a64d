"""Unit 08, first chain: the shot, the pressure behind it, how long it lasts, and its jet."""

from math import pi, sqrt

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

THREE_FIGURES = "Three figures carry the chain; two in a hundred forgives rounding on the way."
JETS = 2
"""Pump jets the questions speak of [1]: one for each barrel."""


def _well(given: Values) -> float:
    """Return the area of the plunger [m2]."""
    return pi * given["pump_bore"] ** 2 / 4


def _flow(given: Values, driving: float, jets: float = JETS) -> float:
    """Return the volume that the jets pass at that pressure [m3/s]."""
    area = jets * pi * given["pump_jet"] ** 2 / 4
    return given["pump_coefficient"] * area * sqrt(2 * driving / given["shot_density"])


EXERCISES = (
    Exercise(
        id="shot-volume",
        ask="The plunger has a diameter of **{pump_bore}**, and when the throttle opens "
        "completely it travels **{pump_stroke}** down. How much fuel does the pump deliver in one "
        "full stroke, if nothing leaks?",
        unit="ml",
        reference=lambda given, earlier: _well(given) * given["pump_stroke"],
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.2,
        high=5.0,
        points=1,
        outcomes=("PMP-1",),
        slips=(
            Slip(
                "diameter-for-radius",
                lambda given, earlier: 4 * _well(given) * given["pump_stroke"],
                0.5,
                "Four times too much: the formula with pi r² wants the radius, which is only half "
                "the diameter.",
            ),
            Slip(
                "square-for-circle",
                lambda given, earlier: given["pump_bore"] ** 2 * given["pump_stroke"],
                0.5,
                "That would be a square plunger. A round one covers only pi/4 of the square "
                "around it.",
            ),
        ),
        hints=(
            "The volume is the area of the plunger multiplied by its stroke.",
            "A millilitre is the same as a cubic centimetre.",
        ),
    ),
    Exercise(
        id="pump-pressure",
        ask="While the shot lasts, the duration spring pushes the plunger with **{spring_push}** "
        "on average. By how much does this raise the pressure of the fuel under the plunger above "
        "the pressure in the bowl?",
        unit="kPa",
        reference=lambda given, earlier: given["spring_push"] / _well(given),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=5.0,
        high=60.0,
        points=2,
        outcomes=("PMP-2",),
        datum="gauge",
        slips=(
            Slip(
                "diameter-for-radius",
                lambda given, earlier: given["spring_push"] / _well(given) / 4,
                0.5,
                "Four times too little: in pi r² the radius counts, which is half the diameter, "
                "so your area came out four times too large.",
            ),
            Slip(
                "square-for-circle",
                lambda given, earlier: given["spring_push"] / given["pump_bore"] ** 2,
                0.5,
                "That would be a square plunger. A round one has only pi/4 of that area, so the "
                "pressure is higher.",
            ),
        ),
        hints=("Pressure is force divided by area, here the area of the plunger.",),
    ),
    Exercise(
        id="shot-duration",
        ask="The discharge check keeps **{check_load}** of that pressure for itself, and only the "
        "rest drives the fuel through **two** pump jets of **{pump_jet}** each. Their coefficient "
        "C is **{pump_coefficient}** and the fuel has **{shot_density}**. The volume flow is C "
        "times area times the root of (2 times pressure over density). How long does the shot "
        "last?",
        unit="s",
        reference=lambda given, earlier: (
            earlier["shot-volume"] / _flow(given, earlier["pump-pressure"] - given["check_load"])
        ),
        tolerance=0.03,
        why="Nobody stops a shot more finely than to a few hundredths of a second.",
        low=0.25,
        high=2.5,
        points=3,
        outcomes=("PMP-1", "PMP-2"),
        follows=("shot-volume", "pump-pressure"),
        slips=(
            Slip(
                "one-jet",
                lambda given, earlier: (
                    earlier["shot-volume"]
                    / _flow(given, earlier["pump-pressure"] - given["check_load"], 1)
                ),
                0.5,
                "Twice too long: there are two jets, one for each barrel, and they share the fuel "
                "between them.",
            ),
            Slip(
                "no-two",
                lambda given, earlier: (
                    earlier["shot-volume"]
                    / _flow(given, (earlier["pump-pressure"] - given["check_load"]) / 2)
                ),
                0.5,
                "The 2 under the root is missing, so your flow is too small and your shot lasts "
                "too long.",
            ),
            Slip(
                "no-coefficient",
                lambda given, earlier: (
                    given["pump_coefficient"]
                    * earlier["shot-volume"]
                    / _flow(given, earlier["pump-pressure"] - given["check_load"])
                ),
                0.5,
                "The coefficient is missing. The stream is thinner than the hole, so less fuel "
                "passes and the shot lasts longer.",
            ),
        ),
        hints=(
            "First find what is left to drive the jets, which is the pressure less the load of "
            "the check.",
            "Then work out the flow of both jets together, and divide the volume of the shot by "
            "it.",
        ),
    ),
    Exercise(
        id="jet-for-duration",
        ask="The engine would be content with a shot of **{wanted_duration}** instead of this "
        "one. If the spring and the volume stay as they are, what bore must both jets have?",
        unit="mm",
        reference=lambda given, earlier: (
            given["pump_jet"] * sqrt(earlier["shot-duration"] / given["wanted_duration"])
        ),
        tolerance=0.02,
        why="Pump jets go by steps of a few hundredths of a millimetre.",
        low=0.28,
        high=0.7,
        points=2,
        outcomes=("PMP-2", "PMP-4"),
        follows=("shot-duration",),
        rounded_to=0.01,
        slips=(
            Slip(
                "no-root",
                lambda given, earlier: (
                    given["pump_jet"] * earlier["shot-duration"] / given["wanted_duration"]
                ),
                0.5,
                "You scaled the bore in proportion to the flow. It is the area that goes with the "
                "flow, and the bore goes with the root of the area.",
            ),
            Slip(
                "upside-down",
                lambda given, earlier: (
                    given["pump_jet"] * sqrt(given["wanted_duration"] / earlier["shot-duration"])
                ),
                0.5,
                "Your ratio is upside down. If the same volume is to take longer, less must flow "
                "in each second, so a longer shot needs a smaller jet.",
            ),
        ),
        hints=(
            "Twice the time means half the flow, and half the flow needs half the area. What "
            "does that do to the bore?",
        ),
    ),
)
