"""Liquid through a metering jet: a drilled hole whose length matters.

The Reynolds number here is built on the *ideal* velocity sqrt(2 dp / rho), the one the
pressure drop would give without loss. With it the discharge coefficient follows from the drop
at once, and so coefficient and flow are solved together without a guess. Built on the velocity
that really flows, the same curve has to be solved for (`coefficient_from_actual`). Taking the
one for the other at 1000 puts the coefficient 2 % out in a hole two diameters long and 11 % in
one ten long, so say which one you mean.
"""

from math import cbrt, copysign, exp, inf, log10, pi, sqrt

from fuelcircuits.errors import RangeError, between, positive
from fuelcircuits.physics.numerics.root import root

__all__ = [
    "coefficient_from_actual",
    "diameter_for",
    "discharge_coefficient",
    "ideal_flux",
    "mass_flow",
    "reynolds_number",
    "ultimate_coefficient",
    "viscous_coefficient",
]

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


def discharge_coefficient(reynolds: float, slenderness: float) -> float:
    r"""Return the discharge coefficient of a drilled hole.

    .. math::
        \frac1C = \frac1{C_u} + \frac{20}{Re}\left(1 + 2.25 \frac Ld\right)
        - \frac{0.005 L/d}{1 + 7.5 \left[\log_{10}(0.00015 Re)\right]^2}

    Parameters
    ----------
    reynolds
        Reynolds number Re on the ideal velocity and the diameter [1], not negative. The
        relation was fitted between 10 and 20 000; below, the flow it gives is proportional to
        the drop, as a laminar flow is, though up to a third more than Poiseuille's in a long
        hole; above, the coefficient stays near the ultimate one.
    slenderness
        Length over diameter L/d [1], 0 to 10.

    Returns
    -------
    Discharge coefficient C [1]; nought at Reynolds number nought.

    Raises
    ------
    RangeError
        If an argument is outside the relation.

    References
    ----------
    A. Lichtarowicz, R. K. Duggins and E. Markland, J. Mechanical Engineering Science 7
    (1965), pages 210-219.
    """
    between("Reynolds number", reynolds, 0, inf)
    return viscous_coefficient(reynolds, slenderness, ultimate_coefficient(slenderness))


def viscous_coefficient(reynolds: float, slenderness: float, ultimate: float) -> float:
    """Return the discharge coefficient of a hole whose ultimate one is known [1].

    The relation, its arguments and its source are those of `discharge_coefficient`; nothing is
    checked, for a balance that asks for the same jets many times.
    """
    bend = log10(0.00015 * max(reynolds, 1e-100))
    steady = 1 / ultimate - 0.005 * slenderness / (1 + 7.5 * bend * bend)
    return reynolds / (reynolds * steady + 20 * (1 + 2.25 * slenderness))


def coefficient_from_actual(reynolds: float, slenderness: float) -> float:
    r"""Return the discharge coefficient from the Reynolds number of the flow itself.

    .. math:: C = C_{ideal}(Re_{ideal}), \qquad Re = C \, Re_{ideal}

    Parameters
    ----------
    reynolds
        Reynolds number on the mean velocity that really flows [1], 1e-3 to 1e7.
    slenderness
        Length over diameter L/d [1], 0 to 10.

    Returns
    -------
    Discharge coefficient C [1], solved to 1e-12.

    Raises
    ------
    RangeError
        If an argument is outside the relation.

    References
    ----------
    The relation of `discharge_coefficient`, turned round; first principles.
    """
    actual = between("Reynolds number", reynolds, 1e-3, 1e7)
    most = 2 * actual + 40 * (1 + 2.25 * slenderness)

    def surplus(ideal: float) -> float:
        return ideal * discharge_coefficient(ideal, slenderness) - actual

    return actual / root(surplus, actual, most, name="Reynolds number")


def reynolds_number(
    diameter: float, pressure_drop: float, density: float, viscosity: float
) -> float:
    r"""Return the Reynolds number of a hole on the ideal velocity.

    .. math:: Re = \frac{d \sqrt{2 \rho \, |\Delta p|}}{\mu}

    Parameters
    ----------
    diameter
        Diameter d of the hole [m], positive.
    pressure_drop
        Pressure drop [Pa]; its sign does not matter.
    density
        Density of the liquid [kg/m3], positive.
    viscosity
        Dynamic viscosity of the liquid [Pa s], positive.

    Returns
    -------
    Reynolds number [1].

    Raises
    ------
    RangeError
        If the diameter, the density or the viscosity is not positive.

    Notes
    -----
    Definition.
    """
    positive("diameter", diameter, "m")
    positive("viscosity", viscosity, "Pa s")
    positive("density", density, "kg/m3")
    return diameter * abs(ideal_flux(pressure_drop, density)) / viscosity


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


def mass_flow(
    diameter: float,
    length: float,
    pressure_drop: float,
    density: float,
    viscosity: float,
) -> float:
    r"""Return the signed mass flow of a liquid through a drilled hole.

    .. math:: \dot m = \pm C(Re, L/d) \, \frac{\pi d^2}{4} \sqrt{2 \rho \, |\Delta p|}

    Parameters
    ----------
    diameter
        Diameter d of the hole [m], positive.
    length
        Length L of the hole [m], from 0 to ten diameters.
    pressure_drop
        Pressure before less pressure behind [Pa], either sign.
    density
        Density of the liquid [kg/m3], positive.
    viscosity
        Dynamic viscosity of the liquid [Pa s], positive.

    Returns
    -------
    Mass flow [kg/s], with the sign of the drop; proportional to the drop near nought.

    Raises
    ------
    RangeError
        If an argument is outside the relation.

    References
    ----------
    First principles with the coefficient of `discharge_coefficient`.
    """
    reynolds = reynolds_number(diameter, pressure_drop, density, viscosity)
    coefficient = discharge_coefficient(reynolds, length / diameter)
    return coefficient * pi / 4 * diameter**2 * ideal_flux(pressure_drop, density)


def diameter_for(
    flow: float,
    length: float,
    pressure_drop: float,
    density: float,
    viscosity: float,
) -> float:
    """Return the diameter of the hole that passes a given mass flow; `mass_flow` turned round.

    Parameters
    ----------
    flow
        Mass flow [kg/s], positive.
    length
        Length of the hole [m], not negative.
    pressure_drop
        Pressure before less pressure behind [Pa], positive.
    density, viscosity
        As in `mass_flow`.

    Returns
    -------
    Diameter [m], solved to 1e-12 of itself.

    Raises
    ------
    RangeError
        If flow or drop is not positive, or if the hole would be longer than ten diameters.

    References
    ----------
    First principles. The bracket's upper end comes from the largest loss the relation knows.
    """
    positive("flow", flow, "kg/s")
    flux = ideal_flux(positive("pressure drop", pressure_drop, "Pa"), density)
    inertial = sqrt(16 * flow / (pi * flux))
    thick = 20 * (1 + 2.25 * LONGEST) * positive("viscosity", viscosity, "Pa s")
    viscous = cbrt(8 * thick * flow / (pi * flux**2))
    most = max(inertial, viscous) + length
    least = max(length / LONGEST, 1e-6 * most)

    def surplus(diameter: float) -> float:
        return mass_flow(diameter, length, pressure_drop, density, viscosity) - flow

    if not surplus(least) <= 0:
        raise RangeError(
            f"flow must need a hole no longer than {LONGEST:g} diameters, got {flow} kg/s"
        )
    return root(surplus, least, most, name="diameter")
