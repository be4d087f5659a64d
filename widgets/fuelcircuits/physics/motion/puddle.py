"""Fuel that a hot soak has left in bore and manifold: the next start draws it out."""

from fuelcircuits.errors import positive
from fuelcircuits.physics.circuits.hot_soak import HotSoak

__all__ = ["puddle_step"]


def puddle_step(soak: HotSoak, mass: float, speed: float, duration: float) -> float:
    r"""Return what is left of it after a step.

    .. math::
        \frac{dm}{dt} = -\frac{m}{\tau_w} \frac{\omega}{\omega_c}, \qquad
        m_1 = \frac{m_0}{1 + \Delta t\, \omega / (\omega_c \tau_w)}

    Parameters
    ----------
    soak
        Time constant with which cranking draws it out (`wash_out`) and cranking speed.
    mass
        Fuel there at the start of the step [kg].
    speed
        Speed of the crankshaft [rad/s].
    duration
        Length of the step [s], positive.

    Returns
    -------
    Fuel left [kg]; the rest has reached the manifold's air.

    Raises
    ------
    RangeError
        If the duration is not positive.

    Notes
    -----
    First principles for a well-mixed intake, which every turn draws alike, by Euler's implicit
    rule. It is no film: it stands deep where it ran together, and does not hang on the wall.
    """
    turned = positive("duration", duration, "s") * speed / soak.crank_speed
    return mass / (1.0 + turned / soak.wash_out)
