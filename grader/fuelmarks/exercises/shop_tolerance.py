"""Unit 00: tolerances that stack, at worst and as a rule."""

from math import hypot

from fuelmarks.exercises.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

TO_A_TWENTIETH = "A depth gauge shows a twentieth of a millimetre, so nothing finer is asked."


def _parts(given: Values) -> tuple[float, ...]:
    """Return the four tolerances between the fuel and the rule [m]."""
    return tuple(given[f"{part}_tolerance"] for part in ("cover", "gasket", "tab", "rule"))


EXERCISES = (
    Exercise(
        id="worst-stack",
        ask="Between the fuel level and your reading of it lie four things: the cover "
        "(±{cover_tolerance}), the gasket (±{gasket_tolerance}), the bent tab "
        "(±{tab_tolerance}) and the rule (±{rule_tolerance}). At worst all are off the same way. "
        "By how much, plus or minus, can the level then be off?",
        unit="mm",
        reference=lambda given, earlier: sum(_parts(given)),
        tolerance=0.02,
        why=TO_A_TWENTIETH,
        low=0.3,
        high=1.2,
        points=2,
        outcomes=("SHOP-4",),
        slips=(
            Slip(
                "from-end-to-end",
                lambda given, earlier: 2 * sum(_parts(given)),
                0.5,
                "That is from one end to the other. Asked is plus or minus: half of it.",
            ),
            Slip(
                "largest-alone",
                lambda given, earlier: max(_parts(given)),
                0.25,
                "That is the largest of them alone. At worst they all add up.",
            ),
        ),
        hints=("At worst: add the four.",),
    ),
    Exercise(
        id="likely-stack",
        ask="Four things are hardly ever all off the same way. If each is off by chance, the "
        "whole is off by the root of the sum of the squares. How much is that for your four?",
        unit="mm",
        reference=lambda given, earlier: hypot(*_parts(given)),
        tolerance=0.02,
        why=TO_A_TWENTIETH,
        low=0.15,
        high=0.8,
        points=2,
        outcomes=("SHOP-4",),
        slips=(
            Slip(
                "added-up",
                lambda given, earlier: sum(_parts(given)),
                0.25,
                "That is the worst case. Square each, add, and take the root.",
            ),
            Slip(
                "largest-alone",
                lambda given, earlier: max(_parts(given)),
                0.25,
                "That is the largest of them alone. The others add a little.",
            ),
            Slip(
                "no-squares",
                lambda given, earlier: sum(_parts(given)) / 2,
                0.25,
                "You took the root of four, or halved the sum. Square the four first.",
            ),
        ),
        hints=("(a² + b² + c² + d²) ** 0.5",),
    ),
)
