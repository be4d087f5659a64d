"""A journey to drive: throttle and engine speed against time, made of legs."""

from itertools import accumulate, pairwise
from typing import NamedTuple

from fuelcircuits.errors import RangeError, between, positive
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["Journey", "Leg", "cranked", "journey", "since_start"]

CRANKING = 1.6
"""Speed over cranking speed from which an engine is taken to run by itself [1]."""
LONG = 3600.0
"""Time for which an engine that runs from the beginning is taken to have run [s]."""


class Leg(NamedTuple):
    """One straight piece of a journey; where the last leg ended it begins."""

    duration: float  # s
    throttle: float  # share of the way from the idle stop to wide open at its end [1]
    speed: float  # rad/s at its end


class Journey(NamedTuple):
    """What the driver and the road do; every list runs over time."""

    times: list[float]  # s
    throttle: list[float]  # rad, asked for by the pedal
    speed: list[float]  # rad/s


def journey(
    legs: list[Leg], stop: float, *, start: tuple[float, float] = (0.0, 75.0), step: float = 0.05
) -> Journey:
    """Return a journey made of legs.

    Parameters
    ----------
    legs
        The legs in order.
    stop
        Throttle angle at the idle stop [rad]: `network.curb_idle` finds it.
    start
        Throttle share and speed [rad/s] at the beginning.
    step
        Time between points [s]; each leg gets a whole number of equal steps of about it.

    Returns
    -------
    Journey
        Times, throttle angles and speeds; the end of every leg is one of the points.

    Raises
    ------
    RangeError
        If there is no leg, or a duration, speed or throttle share is out of range.
    """
    if not legs:
        raise RangeError("journey must have a leg, got none")
    durations = [positive("duration", leg.duration, "s") for leg in legs]
    shares = [
        between("throttle share", each, 0, 1)
        for each in (start[0], *(leg.throttle for leg in legs))
    ]
    speeds = [positive("speed", each, "rad/s") for each in (start[1], *(leg.speed for leg in legs))]
    corners = list(accumulate(durations, initial=0.0))
    times = [0.0]
    for begin, end in pairwise(corners):
        count = max(round((end - begin) / positive("step", step, "s")), 1)
        times += linspace(begin, end, count + 1)[1:]
    return Journey(
        times,
        [stop + (OPEN - stop) * interpolate(now, corners, shares) for now in times],
        [interpolate(now, corners, speeds) for now in times],
    )


def cranked(trip: Journey, crank_speed: float) -> list[bool]:
    """Return at which times the starter still turns the engine.

    Parameters
    ----------
    trip
        The journey.
    crank_speed
        Cranking speed [rad/s].

    Returns
    -------
    list of bool
        True below 1.6 times the cranking speed.
    """
    return [speed < CRANKING * crank_speed for speed in trip.speed]


def since_start(trip: Journey, crank_speed: float) -> list[float]:
    """Return the time since the engine last began to run by itself [s].

    Parameters
    ----------
    trip, crank_speed
        As in `cranked`.

    Returns
    -------
    list of float
        Time [s]; -1 while it does not. An engine that runs from the beginning is taken to have
        been running for long (an hour).
    """
    started, before, waited = trip.times[0] - LONG, False, []
    for now, turning in zip(trip.times, cranked(trip, crank_speed), strict=True):
        if before and not turning:
            started = now
        waited.append(-1.0 if turning else now - started)
        before = turning
    return waited
