"""The error for whatever in a course folder cannot be used."""

from fuelcircuits.errors import CircuitError

__all__ = ["CourseError"]


class CourseError(CircuitError, ValueError):
    """Something in the course folder cannot be used; the message names it, the rule, the value."""
