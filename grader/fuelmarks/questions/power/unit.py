"""Unit 07, power enrichment: rod and ring, spring and vacuum, and two from before.

The numbers are those of no real carburettor; their ranges are common practice, no source.
"""

from fuelmarks.questions.frame.exercise import ExerciseSet, Given
from fuelmarks.questions.power import review as earlier_power
from fuelmarks.questions.power import rod as power_rod
from fuelmarks.questions.power import spring as power_spring

__all__ = ["EXERCISES"]

GIVENS = (
    Given("main_jet", "bore of the main jet", "mm", low=1.46, high=1.66, step=0.02),
    Given("lean_step", "rod, thick step", "mm", low=0.84, high=1.00, step=0.01),
    Given("rich_step", "rod, thin step", "mm", low=0.44, high=0.66, step=0.01),
    Given("rod_down_ratio", "air to fuel, rod held down", "", low=15.0, high=16.4, step=0.1),
    Given("piston_bore", "bore of the vacuum piston", "mm", choices=(9.5, 10.0, 10.5, 11.0)),
    Given("power_spring", "spring, rod down", "N", low=2.0, high=2.6, step=0.05),
    Given("rod_travel", "travel of the rod", "mm", low=4.0, high=6.0, step=0.25),
    Given("power_rate", "rate of the spring", "N/m", low=150.0, high=240.0, step=10.0),
    Given("wanted_vacuum", "where it shall lift", "inHg", low=9.0, high=11.0, step=0.25),
    *earlier_power.CARBON_LOSS_GIVENS,
    *earlier_power.THIN_AIR_GIVENS,
)

EXERCISES = ExerciseSet(
    unit="07-power",
    first_name="07-power-enrichment",
    title="Power enrichment",
    givens=GIVENS,
    exercises=(
        *power_rod.EXERCISES,
        *power_spring.EXERCISES,
        earlier_power.CARBON_LOSS,
        earlier_power.THIN_AIR,
    ),
)
