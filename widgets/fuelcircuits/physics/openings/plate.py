"""A round plate on a shaft across a bore: how much of the bore it leaves open.

The throttle and the choke are both such plates. Angles are those of the plate from the plane
square to the bore: a plate that stands at `closed_angle` fills the bore, one at a right angle
stands on edge in it.
"""

from math import acos, asin, cos, pi, sqrt

from fuelcircuits.errors import RangeError, between, positive
from fuelcircuits.physics.numerics.root import root

__all__ = ["OPEN", "angle_for_area", "edge_on_angle", "open_area"]

OPEN = pi / 2
"""Angle of a plate that stands on edge in its bore [rad]."""


def edge_on_angle(bore: float, shaft: float, closed_angle: float) -> float:
    r"""Return the angle from which only the shaft is in the way.

    .. math:: \cos \psi = \frac{d}{D} \cos \psi_0

    Parameters
    ----------
    bore, shaft
        Diameters D of the bore and d of the shaft [m].
    closed_angle
        Angle :math:`\psi_0` of the closed plate [rad].

    Returns
    -------
    Angle [rad].

    References
    ----------
    First principles: there the plate's edge passes behind the shaft.
    """
    return acos(shaft / bore * cos(closed_angle))


def open_area(bore: float, shaft: float, closed_angle: float, angle: float) -> float:
    r"""Return the area of the bore that plate and shaft leave open, seen along the bore.

    .. math::
        \frac{4 A}{\pi D^2} = 1 - \frac{c}{c_0} + \frac{2}{\pi}\left[
            \frac{a}{c} \sqrt{c^2 - a^2 c_0^2} + \frac{c}{c_0} \arcsin\frac{a c_0}{c}
            - a \sqrt{1 - a^2} - \arcsin a \right]

    with :math:`c = \cos\psi`, :math:`c_0 = \cos\psi_0`, :math:`a = d/D`. The closed plate is
    cut as an ellipse that fills the bore; turned on, its shadow narrows by
    :math:`c/c_0`, and the shaft's shadow, a strip, covers what lies between its two edges.
    The area left is the bore less the two shadows together. Past `edge_on_angle` it stays
    as it is.

    Parameters
    ----------
    bore, shaft
        Diameters D of the bore and d of the shaft [m], d below D.
    closed_angle
        Angle :math:`\psi_0` of the closed plate [rad], 0 to 0.6.
    angle
        Angle :math:`\psi` of the plate [rad]; below `closed_angle` it counts as closed.

    Returns
    -------
    Open area [m2]; the clearance round a closed plate is not in it.

    Raises
    ------
    RangeError
        If the bore is not positive, the shaft not thinner than the bore, the closed angle
        outside 0 to 0.6, or the angle outside 0 to a right angle.

    References
    ----------
    First principles; the same geometry as Heywood 1988, eq. 7.18.
    """
    thickness = between("shaft over bore", shaft / positive("bore", bore, "m"), 0, 0.9)
    closed = cos(between("closed angle", closed_angle, 0.0, 0.6, "rad"))
    cosine = cos(between("plate angle", angle, 0.0, OPEN + 1e-9, "rad"))
    narrowed = min(max(cosine / closed, thickness), 1.0)
    behind = min(thickness / max(narrowed, 1e-12), 1.0)
    bracket = thickness * (sqrt(1.0 - behind**2) - sqrt(1.0 - thickness**2))
    bracket += narrowed * asin(behind) - asin(thickness)
    return pi / 4 * bore**2 * max(1.0 - narrowed + 2.0 / pi * bracket, 0.0)


def angle_for_area(bore: float, shaft: float, closed_angle: float, area: float) -> float:
    """Return the angle at which the plate leaves `area` open; the inverse of `open_area`.

    Parameters
    ----------
    bore, shaft, closed_angle
        As in `open_area`.
    area
        Open area [m2], from 0 to that of a plate on edge.

    Returns
    -------
    Angle [rad].

    Raises
    ------
    RangeError
        If no angle leaves that much open.
    """
    largest = open_area(bore, shaft, closed_angle, OPEN)
    if not 0 <= area <= largest:
        raise RangeError(
            f"open area must be between 0 and {1e6 * largest:g} mm2, got {1e6 * area:g} mm2"
        )
    return root(
        lambda angle: open_area(bore, shaft, closed_angle, angle) - area,
        closed_angle,
        edge_on_angle(bore, shaft, closed_angle),
        name="plate angle",
    )
