"""What an exhaust that is partly blocked does to the engine: it holds gas back."""

from math import sqrt

from fuelcircuits.physics.engine.engine import Engine

__all__ = ["back_pressure", "held_back", "hindered_air"]


def back_pressure(engine: Engine, air_flow: float) -> float:
    r"""Return the pressure before the exhaust above that outside.

    .. math:: p_e - p_0 = K \dot m^2

    Parameters
    ----------
    engine
        Its `exhaust_resistance` K [Pa s2/kg2]; nought for a free exhaust.
    air_flow
        Air through the engine [kg/s].

    Returns
    -------
    Back-pressure [Pa].

    Notes
    -----
    Turbulent flow through a narrow place: first principles, with gas of one temperature.
    """
    return engine.exhaust_resistance * air_flow * air_flow


def held_back(engine: Engine, demand_loss: float, outside: float) -> float:
    r"""Return how much of its air the exhaust holds back, q = b K.

    Parameters
    ----------
    engine
        Its `exhaust_resistance` K.
    demand_loss
        Air that exhaust at the pressure outside keeps out, :math:`b p_0` [kg/s].
    outside
        Absolute pressure outside :math:`p_0` [Pa].

    Returns
    -------
    q [s/kg], the factor of `hindered_air`.
    """
    return engine.exhaust_resistance * demand_loss / outside


def hindered_air(free: float, held: float) -> float:
    r"""Return the air that an engine takes with its exhaust held back.

    .. math:: \dot m = \dot m_0 - q \dot m^2
              \quad\Rightarrow\quad \dot m = \frac{2 \dot m_0}{1 + \sqrt{1 + 4 q \dot m_0}}

    Parameters
    ----------
    free
        Air with a free exhaust :math:`\dot m_0` [kg/s].
    held
        q [s/kg] of `held_back`.

    Returns
    -------
    Air flow [kg/s].

    References
    ----------
    First principles: the demand of `fuelcircuits.physics.engine.engine.air_demand` is a straight
    line in the pressure beyond the valves, and that goes with the square of the flow.
    """
    return 2 * free / (1 + sqrt(1 + 4 * held * max(free, 0.0)))
