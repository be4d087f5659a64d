"""The float's shape: a bar with rounded ends, seen from the side, however it is tilted."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import between, positive

__all__ = ["profile_area", "submerged"]

Floats = NDArray[np.float64]


def profile_area(length: ArrayLike, height: ArrayLike) -> Floats:
    r"""Return the area of the float seen from the side.

    .. math:: A = (L - h) h + \pi h^2 / 4

    Parameters
    ----------
    length
        Length L over both rounded ends [m], at least the height.
    height
        Height h [m], twice the radius of the ends, positive.

    Returns
    -------
    numpy.ndarray
        Area [m2].

    Raises
    ------
    RangeError
        If the float is higher than long or has no height.

    Notes
    -----
    First principles.
    """
    straight, radius = _sizes(length, height)
    return np.asarray(2 * straight * radius + np.pi * radius**2)


def submerged(
    length: ArrayLike, height: ArrayLike, tilt: ArrayLike, surface: ArrayLike
) -> tuple[Floats, Floats]:
    r"""Return how much of the float's profile lies below the surface, and its first moment.

    By Green's theorem, round the wetted part of the outline (the surface itself is level and
    adds nothing),

    .. math:: A = \oint x \, dy, \qquad M = \iint x \, dA = \oint \frac{x^2}{2} \, dy

    each straight edge and each rounded end giving a closed form.

    Parameters
    ----------
    length
        Length over both rounded ends [m], at least the height.
    height
        Height [m], positive.
    tilt
        Angle of the long axis above the horizontal [rad], -1.5 to 1.5.
    surface
        Height of the liquid's surface above the float's centre [m].

    Returns
    -------
    area, moment : numpy.ndarray
        Area below the surface [m2], and its moment about the upright line through the
        float's centre [m3], positive towards the end that the tilt raises.

    Raises
    ------
    RangeError
        If the float is higher than long or has no height, or stands on end.

    Notes
    -----
    First principles.
    """
    straight, radius = _sizes(length, height)
    turn = np.asarray(between("tilt", tilt, -1.5, 1.5, "rad"), dtype=float)
    level = np.asarray(surface, dtype=float)
    across, up = straight / 2 * np.cos(turn), straight / 2 * np.sin(turn)
    out, over = -radius * np.sin(turn), radius * np.cos(turn)
    parts = (
        _end((across, up), radius, turn - np.pi / 2, level),
        _edge((across + out, up + over), (out - across, over - up), level),
        _end((-across, -up), radius, turn + np.pi / 2, level),
        _edge((-across - out, -up - over), (across - out, up - over), level),
    )
    area, moment = (sum(each, np.zeros(())) for each in zip(*parts, strict=True))
    return area, moment


def _sizes(length: ArrayLike, height: ArrayLike) -> tuple[Floats, Floats]:
    """Return the straight part of the length and the radius of the ends [m]."""
    high = np.asarray(positive("float height", height, "m"), dtype=float)
    straight = np.asarray(length, dtype=float) - high
    return np.asarray(between("float length less height", straight, 0, np.inf, "m")), high / 2


def _edge(
    start: tuple[Floats, Floats], end: tuple[Floats, Floats], level: Floats
) -> tuple[Floats, Floats]:
    """Return the two integrals along the wetted part of a straight edge."""
    rise = end[1] - start[1]
    low, high = np.minimum(start[1], level), np.minimum(end[1], level)
    upright = rise != 0
    lean = np.where(upright, (end[0] - start[0]) / np.where(upright, rise, 1), 0)
    middle = start[0] + lean * ((low + high) / 2 - start[1])
    wetted = high - low
    return wetted * middle, wetted / 2 * (middle**2 + (lean * wetted) ** 2 / 12)


def _end(
    centre: tuple[Floats, Floats], radius: Floats, start: Floats, level: Floats
) -> tuple[Floats, Floats]:
    """Return the two integrals along the wetted part of a half circle from angle `start`."""
    wet = np.arcsin(np.clip((level - centre[1]) / radius, -1, 1))
    area, moment = np.zeros(()), np.zeros(())
    for turns in (0, 2 * np.pi):
        low = np.clip(turns - np.pi - wet, start, start + np.pi)
        high = np.clip(turns + wet, start, start + np.pi)
        for angle, sign in ((high, 1), (low, -1)):
            sine = np.sin(angle)
            half = radius**2 * (angle / 2 + np.sin(2 * angle) / 4)
            area = area + sign * (centre[0] * radius * sine + half)
            whole = centre[0] ** 2 * radius * sine + 2 * centre[0] * half
            moment = moment + sign / 2 * (whole + radius**3 * (sine - sine**3 / 3))
    return area, moment
