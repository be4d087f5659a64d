"""The float's shape: a bar with rounded ends, seen from the side, however it is tilted.

These functions run in the innermost loop of every balance and do not check their arguments;
the float's dimensions are checked once, where they come in (`FloatBowl`).
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["profile_area", "submerged"]

Floats = NDArray[np.float64]


SIGNS = np.array((1.0, -1.0, 1.0, -1.0))
OFFSETS = np.array((0.0, -np.pi, 2 * np.pi, np.pi))
"""The wetted parts of a circle run from ``-pi - wet`` to ``wet`` and from ``pi - wet`` to
``2 pi + wet``: each limit's offset, and the sign with which `wet` and the integral enter."""


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

    Notes
    -----
    First principles.
    """
    long, high = np.asarray(length, dtype=float), np.asarray(height, dtype=float)
    return np.asarray((long - high) * high + np.pi / 4 * high**2)


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
        Angle of the long axis above the horizontal [rad], between -pi/2 and pi/2.
    surface
        Height of the liquid's surface above the float's centre [m].

    Returns
    -------
    area, moment : numpy.ndarray
        Area below the surface [m2], and its moment about the upright line through the
        float's centre [m3], positive towards the end that the tilt raises.

    Notes
    -----
    First principles.
    """
    shape = np.broadcast_shapes(*map(np.shape, (length, height, tilt, surface)))
    turn, level = np.asarray(tilt, dtype=float), np.asarray(surface, dtype=float)
    radius = np.asarray(height, dtype=float) / 2
    straight = np.asarray(length, dtype=float) / 2 - radius
    sides = np.array((1.0, -1.0)).reshape(2, *[1] * len(shape))
    along, up = sides * straight * np.cos(turn), sides * straight * np.sin(turn)
    ends = _ends((along, up), radius, turn - sides * np.pi / 2, level)
    over = (-sides * radius * np.sin(turn), sides * radius * np.cos(turn))
    start, finish = (along + over[0], up + over[1]), (over[0] - along, over[1] - up)
    edges = _edges(start, finish, level)
    return ends[0] + edges[0], ends[1] + edges[1]


def _edges(
    start: tuple[Floats, Floats], finish: tuple[Floats, Floats], level: Floats
) -> tuple[Floats, Floats]:
    """Return the two integrals along the wetted parts of both straight edges."""
    rise = finish[1] - start[1]
    low, high = np.minimum(start[1], level), np.minimum(finish[1], level)
    upright = rise != 0
    lean = np.where(upright, (finish[0] - start[0]) / np.where(upright, rise, 1), 0)
    middle = start[0] + lean * ((low + high) / 2 - start[1])
    wetted = high - low
    moment = wetted / 2 * (middle**2 + (lean * wetted) ** 2 / 12)
    return np.sum(wetted * middle, axis=0), np.sum(moment, axis=0)


def _ends(
    centre: tuple[Floats, Floats], radius: Floats, start: Floats, level: Floats
) -> tuple[Floats, Floats]:
    """Return the two integrals along the wetted parts of both half circles from `start`."""
    wet = np.arcsin(np.clip((level - centre[1]) / radius, -1, 1))
    column = (4, *[1] * wet.ndim)
    sign = SIGNS.reshape(column)
    angle = np.clip(OFFSETS.reshape(column) + sign * wet, start, start + np.pi)
    sine, x = np.sin(angle), centre[0]
    half = radius**2 * (angle / 2 + sine * np.cos(angle) / 2)
    area = x * radius * sine + half
    moment = x * (x * radius * sine + 2 * half) + radius**3 * (sine - sine**3 / 3)
    return np.sum(sign * area, axis=(0, 1)), np.sum(sign * moment, axis=(0, 1)) / 2
