"""Unit 08, the accelerator pump: shot and jet, film and cover, and two from before.

The numbers are those of no real carburettor; their ranges are common practice, no source.
"""

from fuelmarks.questions.frame.exercise import ExerciseSet, Given
from fuelmarks.questions.pump import delivery as pump_delivery
from fuelmarks.questions.pump import film as pump_film
from fuelmarks.questions.pump import review as earlier_pump

__all__ = ["EXERCISES"]

GIVENS = (
    Given("pump_bore", "diameter of the plunger", "mm", low=12.0, high=15.0, step=0.5),
    Given("pump_stroke", "its whole stroke", "mm", low=5.5, high=8.5, step=0.25),
    Given("spring_push", "duration spring, average", "N", low=2.0, high=3.6, step=0.1),
    Given("check_load", "kept by the discharge check", "kPa", low=1.0, high=2.0, step=0.1),
    Given("pump_jet", "bore of each pump jet", "mm", low=0.42, high=0.56, step=0.02),
    Given("pump_coefficient", "discharge of a pump jet", "", low=0.72, high=0.80, step=0.01),
    Given("shot_density", "fuel in the pump", "kg/m^3", low=725.0, high=770.0, step=5.0),
    Given("wanted_duration", "how long it shall last", "s", low=0.8, high=1.6, step=0.1),
    Given("wetting_share", "share that wets the wall", "", low=0.36, high=0.48, step=0.02),
    Given("film_time", "how long it stays there", "s", low=0.6, high=1.0, step=0.05),
    Given("fuel_before", "fuel before the tip-in", "g/s", low=0.5, high=0.9, step=0.1),
    Given("fuel_after", "fuel after the tip-in", "g/s", low=2.4, high=3.6, step=0.1),
    *earlier_pump.LEAN_START_GIVENS,
    *earlier_pump.ROD_STEP_GIVENS,
)

EXERCISES = ExerciseSet(
    unit="08-pump",
    first_name="08-accelerator-pump",
    title="The accelerator pump",
    givens=GIVENS,
    exercises=(
        *pump_delivery.EXERCISES,
        *pump_film.EXERCISES,
        earlier_pump.LEAN_START,
        earlier_pump.ROD_STEP,
    ),
)
