"""Unit 00: tolerances that stack, at worst and as a rule."""

from math import hypot

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

TO_A_TWENTIETH = "A depth gauge shows a twentieth of a millimetre, so nothing finer is asked."


def _parts(given: Values) -> tuple[float, ...]:
    """Return the four tolerances between the fuel and the rule [m]."""
    return tuple(given[f"{part}_tolerance"] for part in ("cover", "gasket", "tab", "rule"))


EXERCISES = (
    Exercise(
        id="worst-stack",
        ask="Four tolerances lie between the fuel level and your reading of it: the cover "
        "(±{cover_tolerance}), the gasket (±{gasket_tolerance}), the bent tab "
        "(±{tab_tolerance}) and the rule (±{rule_tolerance}). In the worst case all of them are "
        "wrong in the same direction. By how much, plus or minus, can the level then be wrong?",
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
                "That is the whole distance from one end to the other. Plus or minus is measured "
                "from the middle, so it is half of that.",
            ),
            Slip(
                "largest-alone",
                lambda given, earlier: max(_parts(given)),
                0.25,
                "That is only the largest of the four, but in the worst case all of them add up.",
            ),
        ),
        hints=("In the worst case every tolerance counts in full, so add the four.",),
    ),
    Exercise(
        id="likely-stack",
        ask="It hardly ever happens that all four are wrong in the same direction. If each of them "
        "is wrong by chance, the total is the root of the sum of the squares. How much is that "
        "for your four tolerances?",
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
                "That is the worst case. Square each tolerance first, then add the squares, and "
                "take the root at the end.",
            ),
            Slip(
                "largest-alone",
                lambda given, earlier: max(_parts(given)),
                0.25,
                "That is only the largest of the four, and the others still add a little to it.",
            ),
            Slip(
                "no-squares",
                lambda given, earlier: sum(_parts(given)) / 2,
                0.25,
                "You halved the sum, which is no way to combine them. Square each of the four "
                "before you add them.",
            ),
        ),
        hints=(
            "In code the root of the sum of the squares is (a**2 + b**2 + c**2 + d**2) ** 0.5.",
        ),
    ),
)
