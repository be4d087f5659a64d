"""The crankshaft: what the engine gives, what the road takes, and how the speed follows."""

from math import exp2
from typing import NamedTuple

from fuelcircuits.errors import between, positive

__all__ = ["NEUTRAL", "REST", "STALL", "Road", "cold_friction", "road", "speed_step"]

STALL = 26.2
"""Speed below which an engine stops by itself, 250 rpm [rad/s] (judged)."""
REST = 2.0
"""Speed below which an engine counts as standing, and nothing flows [rad/s]."""
GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]; ISO 80000-3."""
WARM, DOUBLING = 363.15, 80.0
"""Coolant temperature of a warm engine, and the fall that doubles its friction [K]."""
ROLLING, DRAG = 0.015, 0.45
"""Rolling resistance over weight [1], and drag coefficient of a saloon car [1]."""


class Road(NamedTuple):
    """What hangs on the crankshaft besides the engine."""

    inertia: float = 0.0  # kg m2
    steady: float = 0.0  # N m: hill and rolling
    square: float = 0.0  # N m s2: air, or a converter, times the square of the speed

    def torque(self, speed: float) -> float:
        """Return the torque that it takes at a speed [rad/s]; none from an engine at rest."""
        return (self.steady + self.square * speed * speed) if speed > 0.0 else 0.0


NEUTRAL = Road()
"""Nothing."""


def road(
    gear: float,
    *,
    mass: float = 1500.0,
    wheel: float = 0.31,
    slope: float = 0.0,
    front: float = 2.0,
    density: float = 1.2,
) -> Road:
    r"""Return what a car in gear hangs on the crankshaft.

    .. math::
        J = m \frac{r^2}{i^2}, \qquad
        M = \frac ri \left[m g (c_r + s) + \frac{c_d A \rho}{2} \frac{r^2}{i^2} \omega^2\right]

    Parameters
    ----------
    gear
        Turns i of the engine for one of the wheels [1]: about 12 in first, 7 in second, 3.5 in
        top.
    mass
        Mass m of the car [kg].
    wheel
        Rolling radius r [m].
    slope
        Rise of the road over its length s [1], -0.3 to 0.3.
    front
        Frontal area A [m2].
    density
        Density of the air [kg/m3].

    Returns
    -------
    Road
        Inertia and torques at the crankshaft.

    Raises
    ------
    RangeError
        If the gear is not positive or the slope out of range.

    Notes
    -----
    First principles; the coefficients are common practice, no source.
    """
    lever = wheel / positive("gear", gear)
    weight = mass * GRAVITY * (ROLLING + between("slope", slope, -0.3, 0.3))
    return Road(
        inertia=mass * lever**2,
        steady=lever * weight,
        square=0.5 * DRAG * front * density * lever**3,
    )


def cold_friction(coolant: float) -> float:
    r"""Return the friction of an engine over that of the warm one.

    .. math:: 2^{(T_w - T)/80\,\mathrm K}

    Parameters
    ----------
    coolant
        Coolant temperature T [K]; it stands for that of the oil.

    Returns
    -------
    Factor [1], 1 from 90 degC upward: 1.8 at 20 degC, 2.6 at -20 degC.

    Notes
    -----
    Friction goes with about the fourth root of the oil's viscosity (common practice, from
    memory), which rises two hundredfold on the way down to -20 degC; the part of it that rings
    and valves rub dry does not, so a little less (judged).
    """
    return exp2(max(WARM - coolant, 0.0) / DOUBLING)


def speed_step(speed: float, torque: float, falls: float, inertia: float, duration: float) -> float:
    r"""Return the crankshaft's speed after a step.

    .. math:: J \frac{d\omega}{dt} = M, \qquad
              \omega_1 = \omega_0 + \frac{M \Delta t}{J + k \Delta t}

    Parameters
    ----------
    speed, torque
        Speed [rad/s] and torque left over M [N m] at the start.
    falls
        How fast that torque falls with speed, k [N m s], not negative.
    inertia
        All inertia at the crankshaft J [kg m2].
    duration
        Length of the step [s].

    Returns
    -------
    Speed [rad/s], not negative.

    Notes
    -----
    First principles; a linearly implicit step, so that a long one ends where the torque is
    nought.
    """
    return max(speed + torque * duration / (inertia + max(falls, 0.0) * duration), 0.0)
