"""A journey to drive: throttle and engine speed against time, made of legs."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.errors import RangeError, between, positive
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["Journey", "Leg", "cranked", "journey", "since_start"]

Floats = NDArray[np.float64]

CRANKING = 1.6
"""Speed over cranking speed from which an engine is taken to run by itself [1]."""


class Leg(NamedTuple):
    """One straight piece of a journey; where the last leg ended it begins."""

    duration: float  # s
    throttle: float  # share of the way from the idle stop to wide open at its end [1]
    speed: float  # rad/s at its end


class Journey(NamedTuple):
    """What the driver and the road do; every array runs over time."""

    times: Floats  # s
    throttle: Floats  # rad, asked for by the pedal
    speed: Floats  # rad/s


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
    Course
        Times, throttle angles and speeds; the end of every leg is one of the points.

    Raises
    ------
    RangeError
        If there is no leg, or a duration, speed or throttle share is out of range.
    """
    if not legs:
        raise RangeError("journey must have a leg, got none")
    durations = positive("duration", np.array([leg.duration for leg in legs]), "s")
    shares = np.array([start[0], *(leg.throttle for leg in legs)])
    speeds = positive("speed", np.array([start[1], *(leg.speed for leg in legs)]), "rad/s")
    corners = np.concatenate([[0.0], np.cumsum(durations)])
    counts = np.maximum(np.round(durations / positive("step", step, "s")), 1).astype(int)
    times = np.concatenate(
        [[0.0]]
        + [np.linspace(corners[i], corners[i + 1], count + 1)[1:] for i, count in enumerate(counts)]
    )
    share = np.interp(times, corners, between("throttle share", shares, 0, 1))
    return Journey(times, stop + (OPEN - stop) * share, np.interp(times, corners, speeds))


def cranked(trip: Journey, crank_speed: float) -> NDArray[np.bool_]:
    """Return at which times the starter still turns the engine.

    Parameters
    ----------
    trip
        The journey.
    crank_speed
        Cranking speed [rad/s].

    Returns
    -------
    numpy.ndarray of bool
        True below 1.6 times the cranking speed.
    """
    return np.asarray(trip.speed < CRANKING * crank_speed)


def since_start(trip: Journey, crank_speed: float) -> Floats:
    """Return the time since the engine last began to run by itself [s].

    Parameters
    ----------
    trip, crank_speed
        As in `cranked`.

    Returns
    -------
    numpy.ndarray
        Time [s]; -1 before the first start. An engine that runs from the beginning is taken
        to have been running for long (an hour).
    """
    turning = cranked(trip, crank_speed)
    caught = ~turning & np.concatenate([[False], turning[:-1]])
    first = -np.inf if turning[0] else trip.times[0] - 3600.0
    latest = np.maximum.accumulate(np.where(caught, trip.times, first))
    return np.where(turning | np.isinf(latest), -1.0, trip.times - latest)
