"""A drive: everything that moves, through what a driver does in it."""

from collections.abc import Iterator, Sequence

from fuelcircuits.errors import RangeError, positive
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.motion.pedal import Leg, eased
from fuelcircuits.physics.motion.step import stepped

__all__ = ["drive"]


def drive(car: Car, begin: Motion, legs: Sequence[Leg], start: Controls) -> list[Motion]:
    """Return a drive, moment by moment.

    Parameters
    ----------
    car
        What is driven.
    begin
        Everything at the beginning.
    legs
        What the driver does.
    start
        Pedal and held speed at the beginning.

    Returns
    -------
    list of Motion
        The beginning, and everything after every step.

    Raises
    ------
    RangeError
        If there is no leg, or a number is out of range.
    ConvergenceError
        If the network has no balance at some step.
    """
    if not legs:
        raise RangeError("drive must have a leg, got none")
    return [begin, *_marched(car, begin, legs, start)]


def _marched(car: Car, now: Motion, legs: Sequence[Leg], before: Controls) -> Iterator[Motion]:
    """Yield everything after every step."""
    for leg in legs:
        count = max(round(positive("duration", leg.duration, "s") / positive("step", leg.step)), 1)
        for step in range(1, count + 1):
            now = stepped(car, now, eased(before, leg, step / count), leg.duration / count)
            yield now
        before = leg.controls
