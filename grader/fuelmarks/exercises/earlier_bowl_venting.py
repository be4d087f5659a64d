"""Questions from units 00 and 02 that unit 03 asks again."""

from dataclasses import replace

from fuelmarks.exercises import float_level
from fuelmarks.exercises.exercise import Exercise, Given, Slip, Values

__all__ = ["AREA_GROWTH", "AREA_GROWTH_GIVENS", "SOAKED_FLOAT", "SOAKED_FLOAT_GIVENS"]

_SOAKED = next(one for one in float_level.EXERCISES if one.id == "soaked-level-shift")

SOAKED_FLOAT_GIVENS = (
    Given("float_area", "float seen from above", "cm^2", low=12.0, high=18.0, step=0.5),
    Given("fuel_density", "petrol in the bowl", "kg/m^3", low=725.0, high=770.0, step=5.0),
    Given("soaked_mass", "fuel inside the old float", "g", low=1.5, high=4.0, step=0.1),
)

SOAKED_FLOAT = replace(
    _SOAKED,
    id="soaked-float",
    ask="From unit 02. A float covers **{float_area}**, seen from above, in fuel of "
    "**{fuel_density}**. It has soaked up **{soaked_mass}** of fuel. By how much does the level "
    "rise before the needle shuts?",
    slips=tuple(slip for slip in _SOAKED.slips if slip.name == "water-for-fuel"),
)

AREA_GROWTH_GIVENS = (
    Given("old_jet", "jet as it was", "mm", low=1.2, high=1.4, step=0.05),
    Given("new_jet", "jet as it is", "mm", low=1.45, high=1.6, step=0.05),
)


def _growth(given: Values, power: int) -> float:
    return (given["new_jet"] / given["old_jet"]) ** power


AREA_GROWTH = Exercise(
    id="area-growth",
    ask="From unit 00. Somebody has drilled a jet of **{old_jet}** out to **{new_jet}**. By how "
    "many percent has its area grown?",
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
            "So much has the diameter grown. Area goes with the diameter squared.",
        ),
        Slip(
            "all-of-it",
            lambda given, earlier: _growth(given, 2),
            0.5,
            "That is the new area as a share of the old. Asked is what was added.",
        ),
    ),
    hints=("Divide the diameters, square, take off one.",),
)
