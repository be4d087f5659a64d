"""A question on the high-speed circuit, asked again in unit 10 so that it is not forgotten."""

from math import sqrt

from fuelmarks.questions.frame.exercise import Exercise, Given, Slip, Values

__all__ = ["GIVENS", "THIN_AIR"]

GIVENS = (
    Given("valley_ratio", "mixture in the valley", "", low=14.0, high=15.4, step=0.2),
    Given("valley_density", "air in the valley", "kg/m^3", low=1.18, high=1.24, step=0.01),
    Given("pass_density", "air on the pass", "kg/m^3", low=0.90, high=1.02, step=0.01),
)


def _thinner(given: Values) -> float:
    """Return the density on the pass over that in the valley [1]."""
    return given["pass_density"] / given["valley_density"]


THIN_AIR = Exercise(
    id="thin-air",
    ask="From unit 06. In the valley, where the air weighs **{valley_density}**, the main jets "
    "give **{valley_ratio}** to one. On the pass the air weighs only **{pass_density}**, and the "
    "ratio of air to fuel goes with the root of the density of the air. What is the ratio on the "
    "pass?",
    unit="",
    reference=lambda given, earlier: given["valley_ratio"] * sqrt(_thinner(given)),
    tolerance=0.005,
    why="The trade writes one digit after the point.",
    low=8.0,
    high=20.0,
    points=2,
    outcomes=("HI-4",),
    rounded_to=0.1,
    slips=(
        Slip(
            "in-proportion",
            lambda given, earlier: given["valley_ratio"] * _thinner(given),
            0.5,
            "You took the densities themselves. Because the flows of air and fuel both follow a "
            "root of the same depression, only the root of the densities is left.",
        ),
        Slip(
            "leaner-on-the-pass",
            lambda given, earlier: given["valley_ratio"] / sqrt(_thinner(given)),
            0.5,
            "The ratio is upside down. Thin air weighs less while the fuel stays the same, so the "
            "mixture becomes richer on the pass.",
        ),
    ),
    hints=(
        "Divide the density on the pass by the density in the valley, and take the root of that.",
    ),
)
