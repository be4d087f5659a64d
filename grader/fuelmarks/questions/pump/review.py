"""Questions from units 06 and 07 that unit 08 asks again, so that they are not forgotten."""

from math import pi, sqrt

from fuelmarks.questions.frame.exercise import Exercise, Given, Slip, Values

__all__ = ["LEAN_START", "LEAN_START_GIVENS", "ROD_STEP", "ROD_STEP_GIVENS"]

LEAN_START_GIVENS = (
    Given("lip_takes", "depression that the lip takes", "Pa", low=25.0, high=50.0, step=1.0),
    Given("slow_depression", "at the lip, small flow", "Pa", low=110.0, high=260.0, step=5.0),
    Given("fast_ratio", "air to fuel at full flow", "", low=12.4, high=14.0, step=0.2),
)


def _shrunk(given: Values) -> float:
    """Return the share of the small depression that is left for the fuel [1]."""
    return 1 - given["lip_takes"] / given["slow_depression"]


LEAN_START = Exercise(
    id="lean-start",
    ask="From unit 06. A plain-fuel nozzle gives a ratio of **{fast_ratio}** at full flow, where "
    "the depression is so large that the lip counts for nothing. At a small flow the depression "
    "is only **{slow_depression}**, and the lip takes **{lip_takes}** of it. What is the air-fuel "
    "ratio there?",
    unit="",
    reference=lambda given, earlier: given["fast_ratio"] / sqrt(_shrunk(given)),
    tolerance=0.015,
    why="Half a part of air is a real difference, so the band is narrow.",
    low=12.5,
    high=20.0,
    points=2,
    outcomes=("HI-3",),
    slips=(
        Slip(
            "no-root",
            lambda given, earlier: given["fast_ratio"] / _shrunk(given),
            0.5,
            "The root is missing: a flow goes with the root of the pressure, not with the "
            "pressure itself.",
        ),
        Slip(
            "richer",
            lambda given, earlier: given["fast_ratio"] * sqrt(_shrunk(given)),
            0.5,
            "You made the mixture richer. The lip takes away depression and so fuel, which leaves "
            "the small flow leaner.",
        ),
    ),
    hints=(
        "The fuel is driven only by what the lip leaves of the depression, and its flow goes "
        "with the root of that.",
    ),
)

ROD_STEP_GIVENS = (
    Given("jet_across", "bore of the main jet", "mm", low=1.46, high=1.66, step=0.02),
    Given("thick_rod", "rod, thick step", "mm", low=0.84, high=1.00, step=0.01),
    Given("thin_rod", "rod, thin step", "mm", low=0.44, high=0.66, step=0.01),
)


def _open(given: Values, rod: str) -> float:
    """Return the ring that the rod leaves open [m2]."""
    return pi / 4 * (given["jet_across"] ** 2 - given[rod] ** 2)


ROD_STEP = Exercise(
    id="rod-step",
    ask="From unit 07. A metering rod with steps of **{thick_rod}** and **{thin_rod}** hangs in a "
    "jet of **{jet_across}**. By what share does the fuel flow grow when the thin step takes the "
    "place of the thick one, while the depression stays the same?",
    unit="percent",
    reference=lambda given, earlier: _open(given, "thin_rod") / _open(given, "thick_rod") - 1,
    tolerance=0.04,
    why="It is a small difference of two areas, which doubles any rounding.",
    low=10.0,
    high=70.0,
    points=2,
    outcomes=("PWR-1", "PWR-2"),
    slips=(
        Slip(
            "whole-share",
            lambda given, earlier: _open(given, "thin_rod") / _open(given, "thick_rod"),
            0.5,
            "That is the new fuel flow over the old one. The question is by how much it grows, so "
            "subtract the old one, which is 100 %.",
        ),
        Slip(
            "gap-as-a-bore",
            lambda given, earlier: (
                (given["jet_across"] - given["thin_rod"]) ** 2
                / (given["jet_across"] - given["thick_rod"]) ** 2
                - 1
            ),
            0.5,
            "You subtracted the diameters first and made an area of the difference. Work out both "
            "areas first, and subtract those.",
        ),
    ),
    hints=(
        "Work out the open ring for both steps first. Then divide the new one by the old one "
        "and subtract one.",
    ),
)
