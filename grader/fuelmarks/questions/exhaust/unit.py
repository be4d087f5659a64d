"""Unit 10, mixture and exhaust: air for a fuel, lambda from a gas, blends, work, two from before.

The numbers are those of no real engine; their ranges are common practice, no source.
"""

from fuelmarks.questions.exhaust import burnt_mixture, exhaust_reading
from fuelmarks.questions.exhaust import review as earlier_mixture_and_exhaust
from fuelmarks.questions.frame.exercise import ExerciseSet, Given
from fuelmarks.questions.shop_arithmetic import asked_again as earlier_units

__all__ = ["EXERCISES"]

GIVENS = (
    Given("carbon", "share of the fuel's mass", "percent", low=83.0, high=88.0, step=0.2),
    Given("co2_reading", "analyser, by volume, dry", "percent", low=12.7, high=13.5, step=0.1),
    Given("co_reading", "analyser, by volume, dry", "percent", low=2.0, high=3.0, step=0.1),
    Given("o2_reading", "analyser, by volume, dry", "percent", low=0.3, high=0.7, step=0.1),
    Given("hydrogen_atoms", "for each carbon atom", "", choices=(1.80, 1.84, 1.87, 1.90, 1.94)),
    Given("cruise_co", "analyser at steady cruise", "percent", low=2.0, high=3.5, step=0.1),
    Given(
        "ethanol", "by volume", "percent", choices=(10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 85.0)
    ),
    Given("petrol_density", "at 15 °C", "kg/m^3", low=725.0, high=770.0, step=5.0),
    Given("set_ratio", "mixture set for petrol", "", low=12.6, high=14.2, step=0.2),
    Given("torque", "on the dynamometer", "N*m", low=100.0, high=130.0, step=1.0),
    Given("test_speed", "turns a minute", "1/min", low=2000.0, high=2600.0, step=50.0),
    Given("fuel_flow", "by the fuel scale", "g/s", low=1.90, high=2.60, step=0.05),
    *earlier_mixture_and_exhaust.GIVENS,
    *earlier_units.AIR_DEMAND_GIVENS,
)

EXERCISES = ExerciseSet(
    unit="10-exhaust",
    first_name="10-mixture-and-exhaust",
    title="Mixture and the exhaust",
    givens=GIVENS,
    exercises=(
        *exhaust_reading.EXERCISES,
        *burnt_mixture.EXERCISES,
        earlier_mixture_and_exhaust.THIN_AIR,
        earlier_units.AIR_DEMAND,
    ),
)
