"""The float's shape: a bar with rounded ends, seen from the side, however it is tilted.

These functions run in the innermost loop of every balance and do not check their arguments;
the float's dimensions are checked once, where they come in (`FloatBowl`).
"""

from math import asin, cos, pi, sin

__all__ = ["profile_area", "submerged"]

Point = tuple[float, float]
Integrals = tuple[float, float]
"""Area [m2] and first moment [m3] that a piece of the outline adds."""


def profile_area(length: float, height: float) -> float:
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
    Area [m2].

    Notes
    -----
    First principles.
    """
    return (length - height) * height + pi / 4 * height**2


def submerged(length: float, height: float, tilt: float, surface: float) -> Integrals:
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
    area, moment
        Area below the surface [m2], and its moment about the upright line through the
        float's centre [m3], positive towards the end that the tilt raises.

    Notes
    -----
    First principles.
    """
    radius, sine, cosine = height / 2, sin(tilt), cos(tilt)
    straight, pieces = length / 2 - radius, []
    for side in (1.0, -1.0):
        end = side * straight * cosine, side * straight * sine
        edge = -side * radius * sine, side * radius * cosine
        start = end[0] + edge[0], end[1] + edge[1]
        finish = edge[0] - end[0], edge[1] - end[1]
        pieces.append(_half_circle(end, radius, tilt - side * pi / 2, surface))
        pieces.append(_flat(start, finish, surface))
    return sum(area for area, _ in pieces), sum(moment for _, moment in pieces)


def _flat(start: Point, finish: Point, level: float) -> Integrals:
    """Return the two integrals along the wetted part of a straight edge."""
    low, high = min(start[1], level), min(finish[1], level)
    if low == high:
        return 0.0, 0.0
    wetted, lean = high - low, (finish[0] - start[0]) / (finish[1] - start[1])
    middle = start[0] + lean * ((low + high) / 2 - start[1])
    return wetted * middle, wetted / 2 * (middle**2 + (lean * wetted) ** 2 / 12)


def _half_circle(centre: Point, radius: float, start: float, level: float) -> Integrals:
    """Return the two integrals along the wetted parts of the half circle from angle `start`.

    The circle is wetted from ``-pi - wet`` to ``wet``, and a turn later.
    """
    wet, area, moment = asin(min(max((level - centre[1]) / radius, -1.0), 1.0)), 0.0, 0.0
    for low, high in ((-pi - wet, wet), (pi - wet, 2 * pi + wet)):
        first, last = max(low, start), min(high, start + pi)
        if first < last:
            before, after = _arc(centre[0], radius, first), _arc(centre[0], radius, last)
            area, moment = area + after[0] - before[0], moment + after[1] - before[1]
    return area, moment


def _arc(x: float, radius: float, angle: float) -> Integrals:
    """Return the two integrals along a circle round x from angle 0 to `angle`."""
    sine = sin(angle)
    half = radius**2 * (angle + sine * cos(angle)) / 2
    cubic = radius**3 * (sine - sine**3 / 3)
    return x * radius * sine + half, (x * (x * radius * sine + 2 * half) + cubic) / 2
