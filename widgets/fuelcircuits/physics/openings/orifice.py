"""Liquid through a metering jet: a drilled hole whose length matters.

The Reynolds number here is built on the *ideal* velocity sqrt(2 dp / rho), the one the
pressure drop would give without loss. With it the discharge coefficient follows from the drop
at once, and so coefficient and flow are solved together without a guess. Built on the velocity
that really flows, the same curve would have to be solved for. Taking the one for the other at
1000 puts the coefficient 2 % out in a hole two diameters long and 11 % in one ten long, so say
which one you mean.
"""

from math import copysign, exp, log10, pi, sqrt

from fuelcircuits.errors import between

__all__ = ["ideal_flux", "ultimate_coefficient", "viscous_coefficient"]

THIN_PLATE = pi / (pi + 2)
"""Discharge coefficient of a hole in a thin plate [1], 0.611; Kirchhoff's free streamlines."""
FILLED = 2.0
"""Length over diameter from which the liquid has surely refilled the hole [1]."""
LONGEST = 10.0
"""Largest length over diameter of the relation [1]."""


def ultimate_coefficient(slenderness: float) -> float:
    r"""Return the discharge coefficient that a hole reaches at high Reynolds number.

    .. math:: C_u = 0.827 - 0.0085 \frac{L}{d} \qquad (2 \le L/d \le 10)

    A shorter hole lies between a thin plate, 0.611, and the long hole at L/d = 2, along

    .. math::
        \frac{C_u(L/d) - C_u(0)}{C_u(2) - C_u(0)} = \frac{g(0) - g(L/d)}{g(0) - g(2)}, \qquad
        g(x) = \left(1 + 1.3\, e^{-1.606 x^2}\right)(0.435 + 0.021 x)

    Parameters
    ----------
    slenderness
        Length over diameter L/d [1], 0 to 10.

    Returns
    -------
    Discharge coefficient [1].

    Raises
    ------
    RangeError
        If the slenderness is outside the relation.

    References
    ----------
    A. Lichtarowicz, R. K. Duggins and E. Markland, J. Mechanical Engineering Science 7
    (1965), pages 210-219, for the long hole; W. F. McGreehan and M. J. Schotsch, J.
    Turbomachinery 110 (1988), pages 213-217, for the shape of g (from memory).
    """
    length = between("length over diameter", slenderness, 0, LONGEST)
    filled = 0.827 - 0.0085 * max(length, FILLED)
    if length >= FILLED:
        return filled
    share = (_refill(0.0) - _refill(length)) / (_refill(0.0) - _refill(FILLED))
    return THIN_PLATE + min(max(share, 0.0), 1.0) * (filled - THIN_PLATE)


def _refill(slenderness: float) -> float:
    """Return g of `ultimate_coefficient`: how far the hole is from being refilled [1]."""
    return (1 + 1.3 * exp(-1.606 * slenderness**2)) * (0.435 + 0.021 * slenderness)


def viscous_coefficient(reynolds: float, slenderness: float, ultimate: float) -> float:
    r"""Return the discharge coefficient of a drilled hole whose ultimate one is known.

    .. math::
        \frac1C = \frac1{C_u} + \frac{20}{Re}\left(1 + 2.25 \frac Ld\right)
        - \frac{0.005 L/d}{1 + 7.5 \left[\log_{10}(0.00015 Re)\right]^2}

    Nothing is checked, for a balance that asks for the same jets many times.

    Parameters
    ----------
    reynolds
        Reynolds number Re on the ideal velocity and the diameter [1], not negative. The
        relation was fitted between 10 and 20 000; below, the flow it gives is proportional to
        the drop, as a laminar flow is, though up to a third more than Poiseuille's in a long
        hole; above, the coefficient stays near the ultimate one.
    slenderness
        Length over diameter L/d [1], 0 to 10.
    ultimate
        What `ultimate_coefficient` gives for it [1].

    Returns
    -------
    Discharge coefficient C [1]; nought at Reynolds number nought.

    References
    ----------
    A. Lichtarowicz, R. K. Duggins and E. Markland, J. Mechanical Engineering Science 7
    (1965), pages 210-219.
    """
    bend = log10(0.00015 * reynolds + 1e-104)
    steady = 1 / ultimate - 0.005 * slenderness / (1 + 7.5 * bend * bend)
    return reynolds / (reynolds * steady + 20 * (1 + 2.25 * slenderness))


def ideal_flux(pressure_drop: float, density: float) -> float:
    r"""Return the signed mass flow for each unit of area if nothing were lost.

    .. math:: G = \pm \sqrt{2 \rho \, |\Delta p|}

    Parameters
    ----------
    pressure_drop
        Pressure before less pressure behind [Pa], either sign.
    density
        Density of the liquid [kg/m3], positive; not checked here.

    Returns
    -------
    Mass flux [kg/(s m2)], with the sign of the drop.

    Notes
    -----
    First principles (Bernoulli); the approach velocity is left out.
    """
    return copysign(sqrt(2 * density * abs(pressure_drop)), pressure_drop)
