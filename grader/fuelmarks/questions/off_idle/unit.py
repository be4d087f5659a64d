"""Unit 05, off idle: the slot at the edge of the plate, the bleed valve, and two from before.

The numbers are those of no real carburettor; their ranges are common practice, no source.
"""

from fuelmarks.questions.frame.exercise import ExerciseSet, Given
from fuelmarks.questions.off_idle import review as earlier_off_idle
from fuelmarks.questions.off_idle import slot as off_idle_slot
from fuelmarks.questions.off_idle import valve as off_idle_valve
from fuelmarks.questions.shop_arithmetic import asked_again as earlier_units

__all__ = ["EXERCISES"]

GIVENS = (
    Given("plate_reach", "shaft's middle to the plate's tip", "mm", low=16.0, high=20.0, step=0.1),
    Given("plate_angle", "plate, from straight across", "deg", low=15.5, high=18.5, step=0.5),
    Given("slot_foot", "shaft's middle to the slot's foot", "mm", low=2.8, high=3.8, step=0.1),
    Given("slot_width", "width of the slot", "mm", low=0.65, high=0.85, step=0.01),
    Given("slot_height", "height of the slot", "mm", low=3.8, high=5.0, step=0.1),
    Given("plate_edge", "thickness of the plate's edge", "mm", choices=(1.3, 1.4, 1.5, 1.6)),
    Given("chamber_vacuum", "chamber, off idle", "inH2O", low=5.0, high=9.0, step=0.5),
    Given("air_density", "air in the bore", "kg/m^3", low=1.12, high=1.24, step=0.01),
    Given("screw_area", "open area of the screw port", "mm^2", low=0.7, high=1.1, step=0.05),
    Given("ball_diameter", "ball of the bleed valve", "mm", choices=(4.0, 4.5, 5.0, 5.5)),
    Given("valve_seat", "bore of the valve's seat", "mm", low=2.4, high=3.4, step=0.1),
    Given("opening_vacuum", "where it shall open", "inH2O", low=7.5, high=11.5, step=0.5),
    Given("ball_lift", "travel of the ball", "mm", low=0.5, high=0.9, step=0.05),
    Given("spring_rate", "rate of its spring", "N/m", low=8.0, high=14.0, step=0.5),
    *earlier_units.MANIFOLD_PRESSURE_GIVENS,
    *earlier_off_idle.IDLE_FUEL_GIVENS,
)

EXERCISES = ExerciseSet(
    unit="05-off-idle",
    title="Off idle: the slot and the bleed valve",
    givens=GIVENS,
    exercises=(
        *off_idle_slot.EXERCISES,
        *off_idle_valve.EXERCISES,
        earlier_units.MANIFOLD_PRESSURE,
        earlier_off_idle.IDLE_FUEL,
    ),
)
