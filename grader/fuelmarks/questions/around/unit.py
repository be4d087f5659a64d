"""Unit 14, around the carburettor: spark, cylinders, gas, exhaust, money, and a car."""

from fuelmarks.questions.around import cases
from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="14-around", after={"steady-low": cases.EXERCISES})
