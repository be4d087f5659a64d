"""Unit 02, the float circuit: needle and buoyancy, level, inlet, and two questions from before.

The numbers are those of no real carburettor; their ranges are common practice, no source.
"""

from fuelmarks.questions.float_bowl import balance as float_balance
from fuelmarks.questions.float_bowl import inlet as float_inlet
from fuelmarks.questions.float_bowl import level as float_level
from fuelmarks.questions.frame.exercise import ExerciseSet, Given
from fuelmarks.questions.shop_arithmetic import asked_again as earlier_units

__all__ = ["EXERCISES"]

GIVENS = (
    Given("seat_bore", "bore of the needle seat", "mm", low=2.0, high=2.6, step=0.1),
    Given("supply_pressure", "pump, gauge", "psi", low=4.0, high=5.5, step=0.1),
    Given("needle_arm", "fulcrum to needle", "mm", low=8.0, high=11.0, step=0.5),
    Given("float_arm", "fulcrum to the middle of the float", "mm", low=44.0, high=56.0, step=1.0),
    Given("float_mass", "float with lever, dry", "g", low=7.5, high=12.0, step=0.5),
    Given("fuel_density", "petrol at 15 °C", "kg/m^3", low=725.0, high=770.0, step=5.0),
    Given("new_pressure", "the new pump, gauge", "psi", low=6.5, high=8.0, step=0.1),
    Given("float_area", "float seen from above", "cm^2", low=12.0, high=18.0, step=0.5),
    Given("soaked_mass", "fuel inside the old float", "g", low=1.5, high=4.0, step=0.1),
    Given("bowl_temperature", "bowl in slow traffic", "degC", low=45.0, high=65.0, step=1.0),
    Given("air_flow", "air at full load, both barrels", "g/s", low=62.0, high=92.0, step=1.0),
    Given("air_fuel_ratio", "at full load", "", choices=(12.0, 12.2, 12.4, 12.6, 12.8, 13.0)),
    Given("seat_coefficient", "discharge of the seat", "", choices=(0.6, 0.62, 0.65, 0.68, 0.7)),
    *earlier_units.MANIFOLD_PRESSURE_GIVENS,
    *earlier_units.AIR_DEMAND_GIVENS,
)

EXERCISES = ExerciseSet(
    unit="02-float-bowl",
    first_name="02-float-circuit",
    title="The float circuit",
    givens=GIVENS,
    exercises=(
        *float_balance.EXERCISES,
        *float_level.EXERCISES,
        *float_inlet.EXERCISES,
        earlier_units.MANIFOLD_PRESSURE,
        earlier_units.AIR_DEMAND,
    ),
)
