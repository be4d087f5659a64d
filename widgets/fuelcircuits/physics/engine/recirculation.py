"""Exhaust that is let back into the manifold: what it crowds out, and what it dilutes."""

from fuelcircuits.physics.engine.engine import Engine
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT
from fuelcircuits.physics.openings.gas_flow import flow_through

__all__ = ["crowded_out", "recirculated", "recirculated_share"]

EXHAUST_TEMPERATURE = 600.0
"""Exhaust at the recirculation valve of an engine that idles [K] (common practice, no source)."""


def recirculated(engine: Engine, manifold_pressure: float, exhaust_pressure: float) -> float:
    """Return the exhaust that enters the manifold.

    Parameters
    ----------
    engine
        Its `recirculation` is the effective area that stands open.
    manifold_pressure, exhaust_pressure
        Absolute pressures [Pa].

    Returns
    -------
    Exhaust [kg/s], never negative.

    References
    ----------
    Heywood 1988, eq. 7.19 and 7.20, with the properties of air.
    """
    if not engine.recirculation or exhaust_pressure <= manifold_pressure:
        return 0.0
    gas = AIR_CONSTANT * EXHAUST_TEMPERATURE
    return flow_through(engine.recirculation, exhaust_pressure, manifold_pressure, gas)


def crowded_out(recirculated: float, temperature: float) -> float:
    r"""Return the air that recirculated exhaust takes the place of.

    .. math:: \dot m_a = \dot m_e T_e / T

    Parameters
    ----------
    recirculated
        Exhaust that enters the manifold [kg/s].
    temperature
        Temperature of the charge T [K].

    References
    ----------
    First principles: ideal gases of one heat capacity that mix at one pressure keep the sum of
    their volumes, so the hot gas takes the room of so much more cool air.
    """
    return recirculated * EXHAUST_TEMPERATURE / temperature


def recirculated_share(engine: Engine, air: float, manifold: float, exhaust: float) -> float:
    """Return the recirculated share of all that enters the cylinders [1], by mass.

    `air` is in kg/s, `manifold` and `exhaust` are absolute pressures [Pa].
    """
    back = recirculated(engine, manifold, exhaust)
    return back / (back + air) if back else 0.0
