"""A round plate on a shaft across a bore: how much of the bore it leaves open.

The throttle and the choke are both such plates. Angles are those of the plate from the plane
square to the bore: a plate that stands at `closed_angle` fills the bore, one at a right angle
stands on edge in it.
"""

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.errors import RangeError, between, positive
from fuelcircuits.physics.numerics.root import root

__all__ = ["OPEN", "angle_for_area", "edge_on_angle", "open_area"]

Floats = NDArray[np.float64]
Numbers = float | Floats

OPEN = np.pi / 2
"""Angle of a plate that stands on edge in its bore [rad]."""


def edge_on_angle(bore: Numbers, shaft: Numbers, closed_angle: Numbers) -> Floats:
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
    return np.asarray(np.arccos(np.asarray(shaft) / bore * np.cos(closed_angle)))


def open_area(bore: Numbers, shaft: Numbers, closed_angle: Numbers, angle: Numbers) -> Floats:
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
    thickness = between("shaft over bore", np.asarray(shaft) / positive("bore", bore, "m"), 0, 0.9)
    closed = np.cos(between("closed angle", closed_angle, 0.0, 0.6, "rad"))
    turned = np.maximum(np.asarray(between("plate angle", angle, 0.0, OPEN + 1e-9, "rad")), 0.0)
    cosine = np.clip(np.cos(turned), thickness * closed, closed)
    narrowed = cosine / closed
    behind = np.minimum(thickness / np.maximum(narrowed, 1e-12), 1.0)
    bracket = thickness * (np.sqrt(1.0 - behind**2) - np.sqrt(1.0 - thickness**2))
    bracket = bracket + narrowed * np.arcsin(behind) - np.arcsin(thickness)
    share = 1.0 - narrowed + 2.0 / np.pi * bracket
    return np.asarray(np.pi / 4 * np.asarray(bore) ** 2 * np.maximum(share, 0.0))


def angle_for_area(bore: Numbers, shaft: Numbers, closed_angle: Numbers, area: Numbers) -> Floats:
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
    closed = np.asarray(closed_angle, dtype=float)
    largest = open_area(bore, shaft, closed, OPEN)
    wanted = np.asarray(area, dtype=float)
    if not (np.all(wanted >= 0) and np.all(wanted <= largest)):
        raise RangeError(
            f"open area must be between 0 and {1e6 * np.max(largest):g} mm2, "
            f"got {1e6 * np.max(wanted):g} mm2"
        )
    return root(
        lambda angle: open_area(bore, shaft, closed, angle) - wanted,
        closed,
        edge_on_angle(bore, shaft, closed),
        name="plate angle",
    )
