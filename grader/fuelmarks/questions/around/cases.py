"""Unit 14, a car that may have nothing wrong with its carburettor."""

from fuelmarks.questions.diagnosis.cases import case
from fuelmarks.questions.diagnosis.garage import JOBS

__all__ = ["EXERCISES"]

EXERCISES = case(JOBS["set-in-vain"], "car_four", "fourth", "ARD-1")
