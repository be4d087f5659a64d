"""Questions from units 08 and 11 that unit 12 asks again, so that they are not forgotten."""

from math import hypot, pi, sqrt

from fuelmarks.exercises.exercise import Exercise, Given, Slip, Values

__all__ = ["GIVENS", "SHOT_TIME", "TWO_DOUBTS"]

GIVENS = (
    Given("shot_volume", "one stroke of the pump", "ml", low=0.8, high=1.6, step=0.1),
    Given("shot_jet", "bore of each of the two pump jets", "mm", low=0.5, high=0.7, step=0.02),
    Given("plunger_pressure", "under the plunger, gauge", "kPa", low=8.0, high=20.0, step=1.0),
    Given("shot_density", "petrol", "kg/m^3", low=730.0, high=760.0, step=5.0),
    Given("gauge_doubt", "the gauge's standard uncertainty", "inHg", low=0.3, high=0.6, step=0.05),
    Given("needle_doubt", "from the needle's swing", "inHg", low=0.2, high=0.5, step=0.05),
)
DISCHARGE = 0.7
INCH_OF_MERCURY = 3386.389
"""One inch of mercury at 0 °C [Pa]; NIST SP 811."""


def _jet_flow(given: Values, area_factor: float = 1.0) -> float:
    """Return the volume flow of one pump jet [m3/s]."""
    area = area_factor * pi / 4 * given["shot_jet"] ** 2
    return DISCHARGE * area * sqrt(2 * given["plunger_pressure"] / given["shot_density"])


SHOT_TIME = Exercise(
    id="shot-time",
    ask="From unit 08. The spring of the pump's plunger holds **{plunger_pressure}** under it. Two "
    "jets of **{shot_jet}** each, discharge coefficient 0.7, pass the shot of **{shot_volume}** "
    "of petrol of **{shot_density}**. How long does the shot last? Leave the check's weight and "
    "the pressure in the horn aside.",
    unit="s",
    reference=lambda given, earlier: given["shot_volume"] / (2 * _jet_flow(given)),
    tolerance=0.03,
    why="A stop watch in the hand is good to about a tenth of a second.",
    low=0.05,
    high=2.5,
    points=2,
    outcomes=("PMP-2",),
    slips=(
        Slip(
            "one-jet",
            lambda given, earlier: given["shot_volume"] / _jet_flow(given),
            0.5,
            "Twice too long: two jets share the shot.",
        ),
        Slip(
            "diameter-for-radius",
            lambda given, earlier: given["shot_volume"] / (2 * _jet_flow(given, 4.0)),
            0.5,
            "Four times too short: the bore is a diameter. Halve it before you square it.",
        ),
    ),
    hints=(
        "The speed in the jet comes from pressure and density: the root of 2 p over rho.",
        "Speed times area times coefficient, twice over, is what flows away each second.",
    ),
)

TWO_DOUBTS = Exercise(
    id="two-doubts",
    ask="From unit 11. A vacuum gauge has a standard uncertainty of **{gauge_doubt}**; its needle "
    "swings, which adds one of **{needle_doubt}**. Neither depends on the other. What is the "
    "standard uncertainty of your reading?",
    unit="inHg",
    reference=lambda given, earlier: hypot(given["gauge_doubt"], given["needle_doubt"]),
    tolerance=0.02,
    why="Nobody knows an uncertainty to better than one part in fifty.",
    low=0.2,
    high=1.5,
    points=2,
    outcomes=("SET-2",),
    rounded_to=0.01,
    slips=(
        Slip(
            "straight-sum",
            lambda given, earlier: given["gauge_doubt"] + given["needle_doubt"],
            0.5,
            "You added them straight. Two causes that know nothing of each other seldom push the "
            "same way: add their squares and take the root.",
        ),
        Slip(
            "no-root",
            lambda given, earlier: (
                hypot(given["gauge_doubt"], given["needle_doubt"]) ** 2 / INCH_OF_MERCURY
            ),
            0.5,
            "The root is missing: you stopped at the sum of the squares.",
        ),
    ),
    hints=("Squares first, then the sum, then the root.",),
)
