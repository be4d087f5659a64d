"""Unit 09, choke and cold start: coil, plate, pull-off, cold fuel, timer, and two from before.

The numbers are those of no real carburettor; their ranges are common practice, no source.
"""

from fuelmarks.questions.choke import choke_plate, cold_fuel
from fuelmarks.questions.choke import review as earlier_choke_and_cold_start
from fuelmarks.questions.frame.exercise import ExerciseSet, Given
from fuelmarks.questions.shop_arithmetic import asked_again as earlier_units

__all__ = ["EXERCISES"]

GIVENS = (
    Given("flexivity", "of the coil's strip", "ppm/K", choices=(24.0, 26.0, 28.0)),
    Given("coil_length", "strip, unrolled", "mm", low=440.0, high=520.0, step=10.0),
    Given("coil_width", "of the strip", "mm", low=6.0, high=8.0, step=0.5),
    Given("coil_thickness", "of the strip", "mm", choices=(0.60, 0.65, 0.70)),
    Given("coil_modulus", "Young's modulus", "GPa", choices=(165.0, 170.0, 175.0)),
    Given("set_temperature", "coil just shuts the plate", "degC", low=18.0, high=25.0, step=1.0),
    Given("morning", "carburettor and coil at dawn", "degC", low=-22.0, high=-4.0, step=1.0),
    Given("plate_area", "of the choke plate", "cm^2", low=24.0, high=30.0, step=0.5),
    Given("plate_offset", "shaft to the plate's middle", "mm", low=2.5, high=4.0, step=0.1),
    Given("diaphragm", "bore of the pull-off", "mm", low=30.0, high=38.0, step=1.0),
    Given("preload", "spring force before it moves", "N", low=6.0, high=10.0, step=0.5),
    Given("spring_rate", "pull-off spring", "N/mm", low=1.4, high=2.0, step=0.1),
    Given("full_stroke", "pull-off, to its stop", "mm", low=5.0, high=7.0, step=0.5),
    Given("cranking_air", "air while the starter turns", "g/s", low=3.0, high=6.5, step=0.1),
    Given("burnt_ratio", "air to vapour that fires", "", choices=(12.5, 13.0, 13.5, 14.0)),
    Given("vapour_share", "of the fuel, from the table", "percent", choices=cold_fuel.SHARES),
    Given("idle_air", "air at cold idle", "g/s", low=5.0, high=8.0, step=0.1),
    Given("plain_ratio", "idle without the timer", "", low=13.2, high=14.4, step=0.2),
    Given("timed_ratio", "idle with the timer on", "", low=9.6, high=11.2, step=0.2),
    Given("cranking_time", "starter, before it caught", "s", low=4.0, high=9.0, step=1.0),
    *earlier_choke_and_cold_start.GIVENS,
    *earlier_units.MANIFOLD_PRESSURE_GIVENS,
)

EXERCISES = ExerciseSet(
    unit="09-choke",
    first_name="09-choke-and-cold-start",
    title="Choke and cold start",
    givens=GIVENS,
    exercises=(
        *choke_plate.EXERCISES,
        *cold_fuel.EXERCISES,
        earlier_choke_and_cold_start.WEAK_PUMP,
        earlier_units.MANIFOLD_PRESSURE,
    ),
)
