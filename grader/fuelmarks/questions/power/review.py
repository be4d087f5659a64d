"""Questions from units 05 and 06 that unit 07 asks again, so that they are not forgotten."""

from math import sqrt

from fuelmarks.questions.frame.exercise import Exercise, Given, Slip, Values

__all__ = ["CARBON_LOSS", "CARBON_LOSS_GIVENS", "THIN_AIR", "THIN_AIR_GIVENS"]

CARBON_LOSS_GIVENS = (
    Given("slot_below", "slot below the edge, clean", "mm^2", low=0.6, high=1.2, step=0.05),
    Given("screw_port", "open area of the screw port", "mm^2", low=0.7, high=1.1, step=0.05),
    Given("carbon", "share of the slot's width lost", "percent", low=30.0, high=70.0, step=5.0),
)


def _lost(given: Values, slot: float, screw: float) -> float:
    """Return the share of the flow that the carbon takes [1]."""
    return given["carbon"] * slot / (slot + screw)


CARBON_LOSS = Exercise(
    id="carbon-loss",
    ask="From unit 05. Off idle **{slot_below}** of clean slot lie below the edge of the plate, "
    "beside a screw port of **{screw_port}**, and both are choked. Then carbon takes "
    "**{carbon}** of the slot's width. What share of the mixture to the engine is lost?",
    unit="percent",
    reference=lambda given, earlier: _lost(given, given["slot_below"], given["screw_port"]),
    tolerance=0.03,
    why="Nobody can measure carbon more finely.",
    low=5.0,
    high=60.0,
    points=2,
    outcomes=("OFF-4", "OFF-2"),
    slips=(
        Slip(
            "slot-alone",
            lambda given, earlier: given["carbon"],
            0.25,
            "That is what the slot loses, but the screw port goes on as before, so the engine "
            "loses less.",
        ),
        Slip(
            "what-is-left",
            lambda given, earlier: 1 - _lost(given, given["slot_below"], given["screw_port"]),
            0.5,
            "That is what still comes, while the question asks for what is lost.",
        ),
        Slip(
            "screw-for-slot",
            lambda given, earlier: _lost(given, given["screw_port"], given["slot_below"]),
            0.5,
            "You let the carbon grow in the screw port, although it sits in the slot.",
        ),
    ),
    hints=(
        "Choked openings pass mixture as their areas say, so divide the lost area by the whole "
        "area before.",
    ),
)

THIN_AIR_GIVENS = (
    Given("home_ratio", "air to fuel at home", "", low=12.6, high=15.0, step=0.2),
    Given("home_density", "air at home", "kg/m^3", low=1.17, high=1.23, step=0.01),
    Given("pass_density", "air on the pass", "kg/m^3", low=0.92, high=1.04, step=0.01),
)


def _thin(given: Values) -> float:
    """Return the density of the air on the pass over that at home [1]."""
    return given["pass_density"] / given["home_density"]


THIN_AIR = Exercise(
    id="thin-air",
    ask="From unit 06. At home, where the air has a density of **{home_density}**, the main jet "
    "gives a ratio of **{home_ratio}**. What does the same jet give on a pass, where the density "
    "is only **{pass_density}**?",
    unit="",
    reference=lambda given, earlier: given["home_ratio"] * sqrt(_thin(given)),
    tolerance=0.015,
    why="Half a part of air is a real difference, so the band is narrow.",
    low=10.0,
    high=15.0,
    points=2,
    outcomes=("HI-4",),
    slips=(
        Slip(
            "no-root",
            lambda given, earlier: given["home_ratio"] * _thin(given),
            0.5,
            "The root is missing, because at one depression the air flow goes with the root of "
            "its density.",
        ),
        Slip(
            "leaner-up-there",
            lambda given, earlier: given["home_ratio"] / sqrt(_thin(given)),
            0.5,
            "You made it leaner, but thin air is less air for the same fuel, so the ratio falls.",
        ),
    ),
    hints=("The ratio goes with the root of the density of the air.",),
)
