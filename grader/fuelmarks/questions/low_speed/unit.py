"""Unit 04, the low-speed circuit: jet, bleeds and screw, and two questions from before.

The numbers are those of no real carburettor; their ranges are common practice, no source.
"""

from fuelmarks.questions.frame.exercise import ExerciseSet, Given
from fuelmarks.questions.low_speed import idle_jet, mixture_screw
from fuelmarks.questions.low_speed import review as earlier_low_speed

__all__ = ["EXERCISES"]

GIVENS = (
    Given("idle_air", "air at curb idle, both barrels", "g/s", low=4.0, high=6.0, step=0.1),
    Given("idle_ratio", "air to fuel at curb idle", "", low=12.8, high=14.0, step=0.1),
    Given("jet_bore", "bore of the low-speed jet", "mm", low=0.66, high=0.78, step=0.02),
    Given("jet_coefficient", "discharge of that jet", "", choices=(0.6, 0.62, 0.65, 0.68, 0.7)),
    Given("fuel_density", "petrol in the bowl", "kg/m^3", low=725.0, high=770.0, step=5.0),
    Given("blocked_vacuum", "chamber, bleeds blocked", "inH2O", low=2.6, high=3.4, step=0.1),
    Given("port_depth", "idle port below the fuel", "mm", low=16.0, high=26.0, step=1.0),
    Given("gum", "skin of gum in the jet", "mm", low=0.02, high=0.05, step=0.01),
    Given("screw_pitch", "rise of the screw in a turn", "mm", choices=(0.6, 0.7, 0.75, 0.8)),
    Given("screw_seat", "bore of the screw's seat", "mm", low=1.4, high=1.6, step=0.05),
    Given("needle_taper", "thinner for each mm of rise", "", choices=(0.3, 0.35, 0.4)),
    Given("screw_turns", "turns out, as set", "", low=1.75, high=2.75, step=0.25),
    Given("cap_turns", "turns the cap still allows", "", choices=(0.375, 0.5, 0.75)),
    *earlier_low_speed.HUNG_VENT_GIVENS,
    *earlier_low_speed.PUMP_PUSH_GIVENS,
)

EXERCISES = ExerciseSet(
    unit="04-low-speed",
    title="The low-speed circuit",
    givens=GIVENS,
    exercises=(
        *idle_jet.EXERCISES,
        *mixture_screw.EXERCISES,
        earlier_low_speed.HUNG_VENT,
        earlier_low_speed.PUMP_PUSH,
    ),
)
