"""A quantity in time that is given as one number, or as one for each of some times."""

from collections.abc import Sequence

from fuelcircuits.errors import RangeError

__all__ = ["Course", "course"]

Course = float | Sequence[float]
"""One number for all times, or one for each; between the times it runs straight."""


def course(name: str, values: Course, times: Sequence[float]) -> list[float]:
    """Return one value for each time, or raise `RangeError` naming the quantity."""
    if not isinstance(values, Sequence):
        return [values] * len(times)
    if len(values) != len(times):
        raise RangeError(
            f"{name} must have one value for each time, got {len(values)} for {len(times)} times"
        )
    return list(values)
