"""Unit 11, from the limits of a gauge to the uncertainty of a reading.

The rules are those of JCGM 100:2008 (GUM): equal chances 4.3.7, repeats 4.2.3, root of the sum
of squares 5.1.2.
"""

from math import hypot, sqrt

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

TWO_FIGURES = "An uncertainty is written with one or two figures; the band forgives rounding."


def _gauge_limit(given: Values) -> float:
    """Return the most that the gauge may be wrong by [Pa]."""
    return given["gauge_class"] * given["gauge_scale"]


def _repeated(given: Values) -> float:
    """Return the standard uncertainty of the mean of the readings [m]."""
    return given["repeat_spread"] / sqrt(given["repeat_count"])


EXERCISES = (
    Exercise(
        id="gauge-uncertainty",
        ask="A fuel gauge reads to **{gauge_scale}** and is of class **{gauge_class}**, so it is "
        "nowhere wrong by more than this share of the end of its scale. It shows {fuel_reading}, "
        "and every error within the limits is as likely as any other. What is the standard "
        "uncertainty of the reading?",
        unit="psi",
        reference=lambda given, earlier: _gauge_limit(given) / sqrt(3),
        tolerance=0.03,
        why=TWO_FIGURES,
        low=0.01,
        high=3.0,
        points=2,
        outcomes=("SET-1",),
        slips=(
            Slip(
                "limit-itself",
                lambda given, earlier: _gauge_limit(given),
                0.5,
                "That is the limit, the worst that the gauge may do. When all errors are alike "
                "likely, the standard uncertainty is the limit divided by the root of three.",
            ),
            Slip(
                "share-of-the-reading",
                lambda given, earlier: given["gauge_class"] * given["fuel_reading"] / sqrt(3),
                0.5,
                "The class is a share of the end of the scale, and not of the value to which the "
                "hand points.",
            ),
            Slip(
                "half-the-limit",
                lambda given, earlier: _gauge_limit(given) / 2,
                0.5,
                "You halved the limit. When all errors are alike likely, it has to be divided by "
                "the root of three instead.",
            ),
        ),
        hints=(
            "First find the limit, from class and scale. Then apply the rule for errors that "
            "are all alike likely.",
        ),
    ),
    Exercise(
        id="repeat-uncertainty",
        ask="You took the cover off and measured the float level **{repeat_count}** times, and "
        "the readings have a standard deviation of **{repeat_spread}**. What is the standard "
        "uncertainty of their mean?",
        unit="mm",
        reference=lambda given, earlier: _repeated(given),
        tolerance=0.03,
        why=TWO_FIGURES,
        low=0.005,
        high=0.5,
        points=1,
        outcomes=("SET-1",),
        slips=(
            Slip(
                "one-reading",
                lambda given, earlier: given["repeat_spread"],
                0.5,
                "That is the doubt of a single reading. The mean of several readings is better "
                "known than that.",
            ),
            Slip(
                "no-root",
                lambda given, earlier: given["repeat_spread"] / given["repeat_count"],
                0.5,
                "You have to divide by the root of the number of readings, because four readings "
                "only halve the doubt.",
            ),
        ),
        hints=("Divide the standard deviation by the root of the number of readings.",),
    ),
    Exercise(
        id="level-uncertainty",
        ask="The depth gauge is true within **±{rule_limit}**, and the face of the cover is flat "
        "within **±{face_limit}**, with all errors alike likely. The doubt from repeating, your "
        "last answer, comes on top, and none of the three depends on the others. What is the "
        "combined standard uncertainty of the level?",
        unit="mm",
        reference=lambda given, earlier: hypot(
            earlier["repeat-uncertainty"],
            given["rule_limit"] / sqrt(3),
            given["face_limit"] / sqrt(3),
        ),
        tolerance=0.03,
        why=TWO_FIGURES,
        low=0.01,
        high=0.6,
        points=3,
        outcomes=("SET-2", "SHOP-4"),
        follows=("repeat-uncertainty",),
        slips=(
            Slip(
                "added-straight",
                lambda given, earlier: (
                    earlier["repeat-uncertainty"]
                    + (given["rule_limit"] + given["face_limit"]) / sqrt(3)
                ),
                0.5,
                "You added the three, as if all of them were wrong the same way at once. Because "
                "they are independent, their squares have to be added.",
            ),
            Slip(
                "limits-as-they-stand",
                lambda given, earlier: hypot(
                    earlier["repeat-uncertainty"], given["rule_limit"], given["face_limit"]
                ),
                0.5,
                "The two limits went in as they stand. Turn them into standard uncertainties "
                "first, by dividing by the root of three.",
            ),
            Slip(
                "repeats-forgotten",
                lambda given, earlier: hypot(given["rule_limit"], given["face_limit"]) / sqrt(3),
                0.5,
                "The doubt from repeating is missing, although it is one of the three.",
            ),
        ),
        hints=(
            "Find the three standard uncertainties first, then square each, add the squares, "
            "and take the root.",
        ),
    ),
)
