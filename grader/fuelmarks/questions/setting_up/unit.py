"""Unit 11, setting up: what a gauge is good for, what a reading proves, and two from before.

The numbers are those of no real workshop; their ranges are common practice, no source.
"""

from fuelmarks.questions.frame.exercise import ExerciseSet, Given
from fuelmarks.questions.setting_up import card_check, gauge_doubt
from fuelmarks.questions.setting_up import review as earlier_setting_up

__all__ = ["EXERCISES"]

GIVENS = (
    Given("gauge_scale", "fuel gauge, end of its scale", "psi", choices=(10.0, 15.0, 16.0, 30.0)),
    Given("gauge_class", "of the end of the scale", "percent", choices=(1.6, 2.5, 4.0)),
    Given("fuel_reading", "fuel gauge at idle", "psi", low=4.5, high=5.5, step=0.1),
    Given("repeat_count", "times the level was read", "", choices=(4.0, 5.0, 6.0, 8.0, 10.0)),
    Given("repeat_spread", "standard deviation of these", "mm", low=0.12, high=0.30, step=0.01),
    Given("rule_limit", "depth gauge is true to", "mm", choices=(0.05, 0.10, 0.15, 0.20)),
    Given("face_limit", "cover's face is flat to", "mm", choices=(0.05, 0.08, 0.10, 0.12, 0.15)),
    Given("level_setting", "float level, card", "mm", low=8.0, high=11.0, step=0.5),
    Given("level_tolerance", "either way, card", "mm", choices=(0.4, 0.5, 0.6)),
    Given("vent_lift", "outside vent as you set it", "mm", low=1.3, high=1.8, step=0.1),
    Given("vent_rate", "lift lost as the throttle opens", "mm/rad", low=12.0, high=18.0, step=1.0),
    Given("stop_change", "throttle opened by the stop", "deg", low=1.0, high=2.5, step=0.1),
    Given("idle_ratio", "air to fuel at idle", "", low=12.8, high=14.4, step=0.2),
    Given("air_doubt", "air meter, standard uncertainty", "percent", low=1.5, high=3.0, step=0.1),
    Given("fuel_doubt", "fuel scale, standard uncertainty", "percent", low=0.6, high=1.8, step=0.1),
    *earlier_setting_up.GIVENS,
)

EXERCISES = ExerciseSet(
    unit="11-setting-up",
    title="Setting up",
    givens=GIVENS,
    exercises=(
        *gauge_doubt.EXERCISES,
        *card_check.EXERCISES,
        earlier_setting_up.THRIFTY_MIXTURE,
        earlier_setting_up.BALL_LIFTS,
    ),
)
