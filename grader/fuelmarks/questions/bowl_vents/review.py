"""Questions from units 00 and 02 that unit 03 asks again."""

from fuelmarks.questions.float_bowl.level import DEPTH_GAUGE, SWELLING, hot_density
from fuelmarks.questions.frame.exercise import Exercise, Given, Slip, Values

__all__ = ["AREA_GROWTH", "AREA_GROWTH_GIVENS", "HOT_FLOAT", "HOT_FLOAT_GIVENS"]

HOT_FLOAT_GIVENS = (
    Given("float_area", "float seen from above", "cm^2", low=12.0, high=18.0, step=0.5),
    Given("fuel_density", "petrol at 15 °C", "kg/m^3", low=725.0, high=770.0, step=5.0),
    Given("immersed", "part of the float in cold fuel", "cm^3", low=14.0, high=26.0, step=0.5),
)


def _deeper(given: Values, hot: float) -> float:
    """Return how much deeper the float sits in fuel of density `hot` [m]."""
    return given["immersed"] * (given["fuel_density"] / hot - 1) / given["float_area"]


HOT_FLOAT = Exercise(
    id="hot-float",
    ask="From unit 02. In fuel of **{fuel_density}** at 15 °C a float has **{immersed}** of its "
    "volume under the fuel, and it covers **{float_area}** seen from above. Then the bowl warms "
    f"to **{{bowl_temperature}}**, and the fuel loses {SWELLING:.2f} kg/m³ for each kelvin above "
    "15 °C. The float needs the same buoyancy as before. By how much does the level rise?",
    unit="mm",
    reference=lambda given, earlier: _deeper(given, hot_density(given)),
    tolerance=0.04,
    why=DEPTH_GAUGE,
    low=0.2,
    high=3.0,
    points=2,
    outcomes=("FLT-2", "FLT-3"),
    rounded_to=0.1,
    slips=(
        Slip(
            "from-zero",
            lambda given, earlier: _deeper(given, hot_density(given, 273.15)),
            0.5,
            "You counted the warming from 0 °C. The density was measured at 15 °C, so only the "
            "degrees above that count.",
        ),
        Slip(
            "whole-depth",
            lambda given, earlier: (
                given["immersed"]
                * given["fuel_density"]
                / (hot_density(given) * given["float_area"])
            ),
            0.5,
            "That is how deep the float now sits in all. What is asked is how much deeper it sits "
            "than in cold fuel.",
        ),
    ),
    hints=(
        "First find the hot density, then the volume that must be under the hot fuel: the cold "
        "volume times cold density over hot density.",
        "The extra volume over the float's area is the extra depth.",
    ),
)

AREA_GROWTH_GIVENS = (
    Given("old_jet", "jet as it was", "mm", low=1.2, high=1.4, step=0.05),
    Given("new_jet", "jet as it is", "mm", low=1.45, high=1.6, step=0.05),
)


def _growth(given: Values, power: int) -> float:
    return (given["new_jet"] / given["old_jet"]) ** power


AREA_GROWTH = Exercise(
    id="area-growth",
    ask="From unit 00. Somebody has drilled a jet out from **{old_jet}** to **{new_jet}**. By what "
    "percentage has its area increased?",
    unit="percent",
    reference=lambda given, earlier: _growth(given, 2) - 1,
    tolerance=0.02,
    why="Three figures are enough.",
    low=3.0,
    high=90.0,
    points=2,
    outcomes=("SHOP-2",),
    rounded_to=1.0,
    slips=(
        Slip(
            "as-the-diameter",
            lambda given, earlier: _growth(given, 1) - 1,
            0.5,
            "That is how much the diameter has increased, but the area goes with the square of it.",
        ),
        Slip(
            "all-of-it",
            lambda given, earlier: _growth(given, 2),
            0.5,
            "That is the new area as a share of the old one, but the question asks how much was "
            "added.",
        ),
    ),
    hints=("Divide the new diameter by the old one, square the result, and subtract one.",),
)
