"""Unit 03, bowl venting and the hot start: mixture, vents, vapour, and two questions from before.

The numbers are those of no real carburettor; their ranges are common practice, no source.
"""

from fuelmarks.questions.bowl_vents import mixture as bowl_mixture
from fuelmarks.questions.bowl_vents import review as earlier_bowl_venting
from fuelmarks.questions.bowl_vents import vapour as bowl_vapour
from fuelmarks.questions.frame.exercise import ExerciseSet, Given

__all__ = ["EXERCISES"]

GIVENS = (
    Given("cruise_ratio", "air to fuel at a cruise", "", low=14.6, high=15.8, step=0.1),
    Given("booster_drop", "booster below the horn", "inH2O", low=5.0, high=10.0, step=0.5),
    Given("cleaner_loss", "lost in a dirty air cleaner", "inH2O", low=1.2, high=2.6, step=0.1),
    Given("weekly_fuel", "fuel in a week, before", "l", low=30.0, high=60.0, step=2.0),
    Given("vent_bore", "bore under the outside vent", "mm", low=6.0, high=10.0, step=0.5),
    Given("vent_lift", "its lift at idle", "mm", low=1.0, high=2.0, step=0.1),
    Given("boiled", "fuel boiled off on a hot stop", "g", low=6.0, high=14.0, step=0.5),
    Given("inside_bore", "bore of the inside vent", "mm", low=4.0, high=6.0, step=0.5),
    Given("bowl_temperature", "bowl after a hot stop", "degC", low=55.0, high=75.0, step=1.0),
    Given("bed_capacity", "vapour that fills the canister", "g", low=40.0, high=80.0, step=5.0),
    Given("purge_air", "air drawn through it", "g/s", low=0.10, high=0.30, step=0.01),
    Given("purge_ratio", "vapour for each gram of air", "", low=0.25, high=0.35, step=0.01),
    *earlier_bowl_venting.HOT_FLOAT_GIVENS,
    *earlier_bowl_venting.AREA_GROWTH_GIVENS,
)

EXERCISES = ExerciseSet(
    unit="03-bowl-vents",
    first_name="03-bowl-venting",
    title="Bowl venting and the hot start",
    givens=GIVENS,
    exercises=(
        *bowl_mixture.EXERCISES,
        *bowl_vapour.EXERCISES,
        earlier_bowl_venting.HOT_FLOAT,
        earlier_bowl_venting.AREA_GROWTH,
    ),
)
