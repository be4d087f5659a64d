"""Unit 12, diagnosis: three cars with a hidden fault, and two from before about a loose hose.

The numbers are those of no real car; their ranges are common practice, no source.
"""

from fuelmarks.questions.diagnosis import cases as diagnosis_cases
from fuelmarks.questions.diagnosis import leak as diagnosis_leak
from fuelmarks.questions.frame.exercise import ExerciseSet, Given

__all__ = ["EXERCISES"]

GIVENS = (
    *diagnosis_cases.GIVENS,
    Given("hole_bore", "bore of the open hose", "mm", low=2.0, high=4.5, step=0.1),
    Given("hole_coefficient", "discharge of the hole", "", choices=(0.65, 0.7, 0.75, 0.8)),
    Given("outside_pressure", "barometer, absolute", "kPa", low=97.0, high=103.0, step=0.5),
    Given("inside_pressure", "manifold, absolute", "kPa", low=35.0, high=48.0, step=0.5),
    Given("air_temperature", "air in the shop", "degC", low=12.0, high=30.0, step=1.0),
    Given("idle_air", "air at idle before", "g/s", low=3.0, high=5.5, step=0.1),
    Given("idle_lambda", "lambda at idle before", "", low=0.88, high=0.98, step=0.01),
)

EXERCISES = ExerciseSet(
    unit="12-diagnosis",
    title="Diagnosis",
    givens=GIVENS,
    exercises=(*diagnosis_cases.EXERCISES, *diagnosis_leak.EXERCISES),
)
