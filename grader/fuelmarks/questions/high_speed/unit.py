"""Unit 06, the high-speed circuit: start, jet, flow and altitude, and two from before.

The numbers are those of no real carburettor; their ranges are common practice, no source.
"""

from fuelmarks.questions.frame.exercise import ExerciseSet, Given
from fuelmarks.questions.high_speed import jet as high_speed_jet
from fuelmarks.questions.high_speed import review as earlier_high_speed
from fuelmarks.questions.high_speed import start as high_speed_start
from fuelmarks.questions.shop_arithmetic import asked_again as earlier_units

__all__ = ["EXERCISES"]

GIVENS = (
    Given("barrel_air", "air of one barrel, wide open", "g/s", low=24.0, high=36.0, step=0.5),
    Given("wanted_ratio", "air to fuel, wide open", "", low=12.4, high=13.4, step=0.1),
    Given("nozzle_length", "the nozzle, from well to lip", "mm", low=30.0, high=40.0, step=1.0),
    Given("nozzle_slope", "upwards, from level", "deg", low=20.0, high=28.0, step=1.0),
    Given("entry_depth", "where it leaves the well", "mm", low=7.0, high=10.0, step=0.5),
    Given("main_density", "fuel in the bowl", "kg/m^3", low=725.0, high=770.0, step=5.0),
    Given("throat_density", "air at the lip", "kg/m^3", low=1.10, high=1.22, step=0.01),
    Given("main_depression", "at the lip, wide open", "inH2O", low=12.0, high=22.0, step=0.5),
    Given("jet_coefficient", "discharge of the jet", "", low=0.68, high=0.78, step=0.01),
    Given("small_depression", "at the lip, small flow", "inH2O", low=0.3, high=0.9, step=0.05),
    Given("valley_density", "air at home", "kg/m^3", low=1.16, high=1.22, step=0.01),
    Given("mountain_density", "air up there", "kg/m^3", low=0.90, high=1.02, step=0.01),
    *earlier_units.AIR_DEMAND_GIVENS,
    *earlier_high_speed.SEAT_FORCE_GIVENS,
)

EXERCISES = ExerciseSet(
    unit="06-high-speed",
    title="The high-speed circuit",
    givens=GIVENS,
    exercises=(
        *high_speed_start.EXERCISES,
        *high_speed_jet.EXERCISES,
        earlier_units.AIR_DEMAND,
        earlier_high_speed.SEAT_FORCE,
    ),
)
