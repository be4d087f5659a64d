"""Unit 01, the air side: demand, venturi and throttle, and two questions from before.

The numbers are those of no real engine; their ranges are common practice, no source.
"""

from fuelmarks.questions.air_path import review as earlier_air_side
from fuelmarks.questions.air_path import throttle_plate
from fuelmarks.questions.air_path import venturi as venturi_air
from fuelmarks.questions.frame.exercise import ExerciseSet, Given
from fuelmarks.questions.shop_arithmetic import asked_again as earlier_units

__all__ = ["EXERCISES"]

GIVENS = (
    *(one for one in earlier_units.AIR_DEMAND_GIVENS if one.name != "engine_speed"),
    Given("engine_speed", "turns a minute", "1/min", low=3000.0, high=4400.0, step=100.0),
    Given("venturi_bore", "throat of each venturi", "mm", low=25.0, high=32.0, step=0.5),
    Given("throat_speed", "air in the throat", "m/s", low=115.0, high=150.0, step=5.0),
    Given("air_temperature", "air before it", "degC", low=10.0, high=35.0, step=1.0),
    Given("throttle_bore", "throttle bore", "mm", low=30.0, high=40.0, step=0.5),
    Given("closed_angle", "plate shut, from square across", "deg", low=8.0, high=12.0, step=1.0),
    Given("open_angle", "plate as it stands", "deg", low=28.0, high=42.0, step=1.0),
    *earlier_units.MANIFOLD_PRESSURE_GIVENS,
    *earlier_air_side.TWO_ERRORS_GIVENS,
)

EXERCISES = ExerciseSet(
    unit="01-air-path",
    first_name="01-air-side",
    title="The air side",
    givens=GIVENS,
    exercises=(
        *venturi_air.EXERCISES,
        *throttle_plate.EXERCISES,
        earlier_units.MANIFOLD_PRESSURE,
        earlier_air_side.TWO_ERRORS,
    ),
)
