"""Unit 08, first chain: the shot, the pressure behind it, how long it lasts, and its jet."""

from math import pi, sqrt

from fuelmarks.exercises.exercise import Exercise, Slip, Values

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
        ask="The plunger has a diameter of **{pump_bore}**. When the throttle opens all the way "
        "it goes **{pump_stroke}** down. How much fuel does a full, tight pump give?",
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
                "Four times too much: the formula with pi r² wants the radius, half the diameter.",
            ),
            Slip(
                "square-for-circle",
                lambda given, earlier: given["pump_bore"] ** 2 * given["pump_stroke"],
                0.5,
                "That is a square plunger. A round one has pi/4 of that.",
            ),
        ),
        hints=("Area of the plunger times stroke.", "A millilitre is a cubic centimetre."),
    ),
    Exercise(
        id="pump-pressure",
        ask="While the shot lasts the duration spring pushes the plunger with **{spring_push}** "
        "on average. What pressure does that make in the fuel under it, above the bowl's?",
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
                "Four times too little: with pi r² the radius counts, half the diameter.",
            ),
            Slip(
                "square-for-circle",
                lambda given, earlier: given["spring_push"] / given["pump_bore"] ** 2,
                0.5,
                "That is a square plunger. A round one has pi/4 of that area.",
            ),
        ),
        hints=("Pressure is force over area.",),
    ),
    Exercise(
        id="shot-duration",
        ask="Of that pressure the discharge check keeps **{check_load}** for itself. The rest "
        "drives the fuel through **two** pump jets of **{pump_jet}** each, with a coefficient C "
        "of **{pump_coefficient}**; the fuel has **{shot_density}**. Volume flow is C times "
        "area times the root of (2 times pressure over density). How long does the shot last?",
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
                "Twice too long: there are two jets, one for each barrel.",
            ),
            Slip(
                "no-two",
                lambda given, earlier: (
                    earlier["shot-volume"]
                    / _flow(given, (earlier["pump-pressure"] - given["check_load"]) / 2)
                ),
                0.5,
                "The 2 under the root is missing.",
            ),
            Slip(
                "no-coefficient",
                lambda given, earlier: (
                    given["pump_coefficient"]
                    * earlier["shot-volume"]
                    / _flow(given, earlier["pump-pressure"] - given["check_load"])
                ),
                0.5,
                "The coefficient is missing: the stream is thinner than the hole.",
            ),
        ),
        hints=(
            "First what drives the jets: pressure less the check's load.",
            "Then the flow of both jets; then volume over flow.",
        ),
    ),
    Exercise(
        id="jet-for-duration",
        ask="The shot is over too soon. It shall last **{wanted_duration}**, with the same spring "
        "and the same volume. What bore must both jets have?",
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
                "You scaled the bore as the flow. The area goes with the flow; the bore with the "
                "root of it.",
            ),
            Slip(
                "upside-down",
                lambda given, earlier: (
                    given["pump_jet"] * sqrt(given["wanted_duration"] / earlier["shot-duration"])
                ),
                0.5,
                "You made the jet larger. A longer shot from the same volume needs less flow, so "
                "a smaller jet.",
            ),
        ),
        hints=("Twice the time is half the flow, half the area. And the bore?",),
    ),
)
