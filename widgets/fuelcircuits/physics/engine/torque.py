"""What the engine makes of its air: heat, friction, pumping, and the torque that is left."""

from math import exp, pi

from fuelcircuits.errors import positive
from fuelcircuits.physics.engine.back_pressure import back_pressure
from fuelcircuits.physics.engine.engine import Engine
from fuelcircuits.physics.engine.recirculation import recirculated_share
from fuelcircuits.physics.engine.work import work_share

__all__ = [
    "AIR_HEAT",
    "BEST_TORQUE",
    "brake_torque",
    "consumption_factor",
    "friction_pressure",
    "torque_factor",
]

AIR_HEAT = 3.0e6
"""Heat that a kilogram of air sets free with the fuel it just burns [J/kg]: a lower heating
value of 44 MJ/kg over an air-fuel ratio of 14.6 for petrol, 26.9 over 9.0 for ethanol
(Heywood 1988, table D.4, from memory)."""
BEST_TORQUE = 0.913
"""Lambda of the greatest torque [1]: 0.075 kg of petrol to a kilogram of air, the middle of what
Sparrow found (NACA Report 189, 1925), over 0.0685."""
_CURVATURE = 3.0  # [1], puts least consumption where Sparrow found it


def torque_factor(lambda_: float) -> float:
    r"""Return the gross torque at a mixture over the torque at the best one.

    .. math:: \tau = \exp\left[-3 (\lambda - 0.913)^2\right]

    Parameters
    ----------
    lambda_
        Air over air needed [1]; beyond about 0.6 to 1.35 an engine misfires, which the
        smooth curve only stands for.

    Returns
    -------
    Torque factor [1], 0 to 1.

    References
    ----------
    S. W. Sparrow, Relation of Fuel-Air Ratio to Engine Performance, NACA Report 189, 1925:
    greatest power at 0.07 to 0.08 of fuel to air; nearly least consumption where the power has
    fallen to 95 %. The bell through both is this package's own.
    """
    apart = lambda_ - BEST_TORQUE
    return exp(-_CURVATURE * apart * apart)


def consumption_factor(lambda_: float) -> float:
    r"""Return the fuel for each unit of gross work over that at the mixture of best torque.

    .. math:: \frac{0.913}{\lambda\, \tau(\lambda)}

    Parameters
    ----------
    lambda_
        Air over air needed [1], positive and below 15; see `torque_factor`.

    Returns
    -------
    Consumption factor [1].

    References
    ----------
    First principles from `torque_factor`: at equal air the fuel goes as 1 over lambda. The
    factor is least where :math:`6 \lambda (\lambda - 0.913) = 1`, at a lambda of 1.069.
    """
    return BEST_TORQUE / (lambda_ * torque_factor(lambda_))


def friction_pressure(speed: float) -> float:
    r"""Return the friction mean effective pressure of a warm engine.

    .. math:: f = 97 + 15 n + 5 n^2 \quad \text{kPa}, \qquad n = \text{rpm}/1000

    Parameters
    ----------
    speed
        Crankshaft speed [rad/s], up to about 600.

    Returns
    -------
    Friction mean effective pressure [Pa].

    References
    ----------
    Barnes-Moss's fit to motored four-cylinder engines of 0.85 to 2 litres at wide open
    throttle, as in Heywood 1988, eq. 13.6 (from memory). It holds the throttle-open pumping
    work; what a closed throttle adds is left to `brake_torque`.
    """
    thousands = speed * 60 / (2 * pi) / 1000
    return 97e3 + 15e3 * thousands + 5e3 * thousands**2


def brake_torque(
    engine: Engine,
    speed: float,
    air_flow: float,
    manifold_pressure: float,
    exhaust_pressure: float,
    *,
    mixture_factor: float = 1.0,
    drag: float = 1.0,
) -> float:
    r"""Return the torque left at the crankshaft.

    .. math::
        M = \frac{\eta_i q \tau w \dot m_a}{\omega}
            - \frac{V}{4 \pi}\left[d f(\omega) + p_e + K \dot m_a^2 - p_m\right] - M_a

    Parameters
    ----------
    engine
        Displacement V, indicated efficiency, accessory torque M_a; w is `work_share` of
        `fuelcircuits.physics.engine.work`, K its `exhaust_resistance`.
    speed
        Crankshaft speed [rad/s], positive.
    air_flow
        Air into the cylinders [kg/s].
    manifold_pressure, exhaust_pressure
        Absolute pressures p_m and p_e [Pa].
    mixture_factor
        Torque :math:`\tau` at this mixture over torque at the best mixture [1]; see
        `torque_factor`. 0 is an engine that does not fire.
    drag
        Friction over that of a warm engine, d [1].

    Returns
    -------
    Brake torque [N m]; negative when the engine holds back.

    Raises
    ------
    RangeError
        If the speed is not positive.

    References
    ----------
    First principles: work over angle; :math:`q` is `AIR_HEAT`.
    """
    positive("speed", speed, "rad/s")
    thin = recirculated_share(engine, air_flow, manifold_pressure, exhaust_pressure)
    heat = engine.indicated_efficiency * AIR_HEAT * mixture_factor
    heat *= work_share(engine, speed, thin)
    beyond = exhaust_pressure + back_pressure(engine, air_flow)
    held = drag * friction_pressure(speed) + beyond - manifold_pressure
    lever = engine.displacement / (4 * pi)
    return heat * air_flow / speed - lever * held - engine.accessory_torque
