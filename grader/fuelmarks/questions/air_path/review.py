"""Questions from unit 00 that unit 01 asks again."""

from math import hypot

from fuelmarks.questions.frame.exercise import Exercise, Given, Slip

__all__ = ["TWO_ERRORS", "TWO_ERRORS_GIVENS"]

TWO_ERRORS_GIVENS = (
    Given("rule_error", "rule, plus or minus", "mm", choices=(0.1, 0.15, 0.2)),
    Given("gasket_error", "gasket, plus or minus", "mm", choices=(0.25, 0.3, 0.35, 0.4)),
)

TWO_ERRORS = Exercise(
    id="two-errors",
    ask="From unit 00. A gasket is good to plus or minus **{gasket_error}**, and the steel rule to "
    "plus or minus **{rule_error}**. Each of them is wrong only by chance. How far is a reading "
    "over both of them wrong as a rule, if that is the root of the sum of the squares?",
    unit="mm",
    reference=lambda given, earlier: hypot(given["rule_error"], given["gasket_error"]),
    tolerance=0.02,
    why="Nobody reads a rule to a hundredth of a millimetre.",
    low=0.1,
    high=0.8,
    points=1,
    outcomes=("SHOP-4",),
    rounded_to=0.01,
    slips=(
        Slip(
            "added-up",
            lambda given, earlier: given["rule_error"] + given["gasket_error"],
            0.5,
            "That is the worst case, in which both are wrong in the same direction. By chance they "
            "partly cancel, so square them before you add.",
        ),
    ),
    hints=("In code the root of the sum of the squares is (a**2 + b**2) ** 0.5.",),
)
