"""A strip of two metals wound to a coil: how far it turns with heat, and how hard it pushes."""

from fuelcircuits.errors import positive

__all__ = ["coil_rotation", "coil_stiffness", "flexivity"]


def flexivity(
    expansion_low: float,
    expansion_high: float,
    thickness_ratio: float = 1.0,
    modulus_ratio: float = 1.0,
) -> float:
    r"""Return the flexivity of a strip from the two metals it is made of.

    .. math::
        F = \frac{t}{\Delta T}\left(\frac1{R_2} - \frac1{R_1}\right)
          = \frac{6 (\alpha_h - \alpha_l)(1 + m)^2}
                 {3 (1 + m)^2 + (1 + m n)\left(m^2 + \frac1{m n}\right)}

    Parameters
    ----------
    expansion_low, expansion_high
        Coefficients of expansion of the two metals [1/K].
    thickness_ratio
        Thickness of the low-expansion metal over that of the other, m [1].
    modulus_ratio
        Young's modulus of the low-expansion metal over that of the other, n [1].

    Returns
    -------
    Flexivity [1/K], 3/2 of the difference for two like layers.

    Raises
    ------
    RangeError
        If a ratio is not positive.

    References
    ----------
    S. Timoshenko, J. Optical Society of America 11 (1925), pages 233-255, eq. 4, in the form
    of ASTM B106, which defines flexivity.
    """
    m = positive("thickness ratio", thickness_ratio)
    n = positive("modulus ratio", modulus_ratio)
    bend = 3 * (1 + m) ** 2 + (1 + m * n) * (m**2 + 1 / (m * n))
    return 6 * (expansion_high - expansion_low) * (1 + m) ** 2 / bend


def coil_rotation(flexivity: float, length: float, thickness: float, rise: float) -> float:
    r"""Return the angle by which the free end of a coil turns when it is heated.

    .. math:: \varphi = \frac{F L \Delta T}{t}

    Parameters
    ----------
    flexivity
        Flexivity F of the strip [1/K].
    length
        Active length L of the strip [m].
    thickness
        Thickness t of the strip [m], positive.
    rise
        Rise in temperature [K], either sign.

    Returns
    -------
    Rotation [rad].

    Raises
    ------
    RangeError
        If the thickness is not positive.

    Notes
    -----
    First principles: the change of curvature of ASTM B106, F dT / t, times the length. How
    the strip is wound does not matter. Makers' tables put up to a sixth on top for the
    width of the strip.
    """
    return flexivity * length * rise / positive("thickness", thickness, "m")


def coil_stiffness(modulus: float, width: float, thickness: float, length: float) -> float:
    r"""Return the torque with which a coil answers to each radian it is held back.

    .. math:: k = \frac{E b t^3}{12 L}

    Parameters
    ----------
    modulus
        Young's modulus E of the strip [Pa].
    width
        Width b [m].
    thickness
        Thickness t [m].
    length
        Active length L [m], positive.

    Returns
    -------
    Stiffness [N m/rad].

    Raises
    ------
    RangeError
        If the length is not positive.

    Notes
    -----
    First principles: a flat spiral spring is a beam under a constant moment.
    """
    return modulus * width * thickness**3 / 12 / positive("length", length, "m")
