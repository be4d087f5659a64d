"""Unit 00, shop arithmetic: pressures, holes, tolerances, and two questions from school.

The numbers are those of no real carburettor; their ranges are common practice, no source.
"""

from dataclasses import replace

from fuelmarks.questions.frame.exercise import ExerciseSet, Given
from fuelmarks.questions.shop_arithmetic import asked_again as earlier_units
from fuelmarks.questions.shop_arithmetic import holes as shop_holes
from fuelmarks.questions.shop_arithmetic import review as earlier_shop
from fuelmarks.questions.shop_arithmetic import tolerance as shop_tolerance

__all__ = ["EXERCISES"]

GIVENS = (
    *earlier_units.MANIFOLD_PRESSURE_GIVENS,
    Given("supply_pressure", "fuel gauge", "psi", low=4.0, high=6.5, step=0.1),
    Given("drill", "number of the drill that just passes", "", low=50.0, high=60.0, step=1.0),
    Given("cover_tolerance", "cover, plus or minus", "mm", choices=(0.1, 0.15, 0.2, 0.25)),
    Given("gasket_tolerance", "gasket, plus or minus", "mm", choices=(0.05, 0.1, 0.15)),
    Given("tab_tolerance", "bent tab, plus or minus", "mm", choices=(0.2, 0.25, 0.3, 0.35)),
    Given("rule_tolerance", "rule, plus or minus", "mm", choices=(0.05, 0.1, 0.15, 0.2)),
    *earlier_shop.BURETTE_GIVENS,
    *earlier_shop.ETHANOL_GIVENS,
)

EXERCISES = ExerciseSet(
    unit="00-shop-arithmetic",
    title="Shop arithmetic",
    givens=GIVENS,
    exercises=(
        replace(
            earlier_units.MANIFOLD_PRESSURE,
            ask=earlier_units.MANIFOLD_PRESSURE.ask.removeprefix("From unit 00. "),
        ),
        *shop_holes.EXERCISES,
        *shop_tolerance.EXERCISES,
        earlier_shop.BURETTE,
        earlier_shop.ETHANOL,
    ),
)
