"""The fuel on its way through the manifold: the charge that the engine draws in.

Fuel that flies past the wall or has left it mixes with the air that stands in the manifold,
and the engine draws both in together.
"""

__all__ = ["charge_step"]


def charge_step(fuel: float, arrived: float, air_flow: float, air: float, duration: float) -> float:
    r"""Return the fuel in the manifold's air after a step.

    .. math::
        \frac{dm}{dt} = \dot m_{arr} - m \frac{\dot m_a}{m_a}, \qquad
        m_1 = \frac{m_0 + \dot m_{arr} \Delta t}{1 + \Delta t\, \dot m_a / m_a}

    Parameters
    ----------
    fuel
        Fuel in the manifold's air at the start of the step [kg].
    arrived
        Fuel that comes into it during the step [kg/s].
    air_flow
        Air that the engine takes [kg/s].
    air
        Air in the manifold at the end of the step [kg], positive.
    duration
        Length of the step [s].

    Returns
    -------
    Fuel at the end [kg]; the engine draws it at the rate :math:`m_1 \dot m_a / m_a`.

    Notes
    -----
    First principles for a manifold that mixes well, by Euler's implicit rule. In truth a
    cylinder far from the carburettor gets its share later than a near one.
    """
    return (fuel + arrived * duration) / (1.0 + duration * air_flow / air)
