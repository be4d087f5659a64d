"""The film of fuel on the intake wall: why a tip-in goes lean although enough fuel is metered.

Part of the fuel that leaves the carburettor lands on the manifold wall and follows later. When
the throttle opens at low speed the vacuum collapses and the air stays slow: far more of the
fuel lands, and the wall drinks before the cylinders do. At high speed the air strips the wall
as fast as it is wetted.
"""

from math import exp2
from typing import NamedTuple

from fuelcircuits.errors import positive
from fuelcircuits.physics.circuits.wall_film import WallFilm

__all__ = ["WARM", "Wetting", "film_step", "steady_film", "wetting"]

WARM = 363.15
"""Coolant temperature at which a card states its film time [K]."""
FROZEN = 213.15
"""Coolant temperature at which vacuum flashes nothing off the wall [K] (judged)."""
BAR = 1e5
"""Manifold pressure at which a card states share and time [Pa]."""
AIRY = 10.0
"""Air for each displacement at which a card states share and time [kg/(s m3)]."""
STILL = 1e-3
"""Air flow over `AIRY` that stands for any smaller one [1]."""
MOST = 0.75
"""Largest share that lands on the wall [1]."""
HOT = 0.7
"""Longest time for which a hot wall holds its film, however slow the air [s]."""
SHORTEST, LONGEST = 0.05, 6.0
"""Between these the time constant stays [s]."""


class Wetting(NamedTuple):
    """What the wall does at one instant."""

    share: float  # of the metered fuel that lands on it [1]
    time: float  # s, that fuel stays on it


def wetting(
    film: WallFilm, displacement: float, pressure: float, air_flow: float, coolant: float = WARM
) -> Wetting:
    r"""Return share and time constant of the film.

    .. math::
        X = X_0 \left(\frac{p}{p_0}\right)^{a w} g^{-b}, \qquad
        \tau = \tau_0 \left(\frac{p}{p_0}\right)^{c} g^{-d}\, 2^{(T_0 - T)/\Delta T_2},
        \qquad g = \frac{\dot m_a}{V g_0}, \quad w = \frac{T - T_1}{T_0 - T_1}

    Deep vacuum flashes fuel, so the share falls with it and the film dries faster; the colder
    the wall, the less it flashes. Air drags and strips the film and makes finer drops. A cold
    wall holds its film longer.

    Parameters
    ----------
    film
        The manifold's film.
    displacement
        Volume V swept by all cylinders [m3].
    pressure
        Manifold pressure p [Pa].
    air_flow
        Air into the cylinders [kg/s]; the throttle's would jump while the manifold fills.
    coolant
        Coolant temperature T [K]; it stands for that of the wall.

    Returns
    -------
    Wetting
        Share, at most 0.75 [1], and time, 0.05 to 6 s, and at most 0.7 s on a hot wall.

    References
    ----------
    That share and time depend on pressure, air flow and coolant temperature: C. F. Aquino, SAE
    810494 (1981), his numbers not seen; a film that grows with pressure and falls with speed:
    Hires and Overington, SAE 810495 (1981), from memory; drops about as 1 over air speed:
    Nukiyama and Tanasawa 1939, from memory. The powers are fitted to the trend that drivers
    report (lean off idle, hardly felt at 3000 rpm, rich for a second and a half after a lifted
    foot, a hot engine that fires at once), not to a measurement. That the share falls so fast
    with vacuum has a reason in kind: by AP-42's vapour pressures petrol in its air at 25 degC
    leaves something liquid only above about 0.8 bar. Regressions published for throttle-body
    injection were tried and give the opposite trend: an injector's drops do not depend on the
    speed of the air. That a cold wall flashes less is judged; without it an engine floods at
    15 degC before its choke is pulled off.
    """
    thick = pressure / BAR
    air = max(air_flow / (displacement * AIRY), STILL)
    cold = exp2((WARM - coolant) / film.cold_doubling)
    flash = film.share_by_pressure * min(max((coolant - FROZEN) / (WARM - FROZEN), 0.0), 1.0)
    share = film.wetting_share * thick**flash / air**film.share_by_air
    time = film.warm_time * thick**film.time_by_pressure / air**film.time_by_air
    return Wetting(min(share, MOST), min(max(min(time, HOT) * cold, SHORTEST), LONGEST))


def steady_film(wall: Wetting, fuel_flow: float) -> float:
    r"""Return the mass of fuel on the wall once everything has been steady for long [kg].

    .. math:: m = X \tau \dot m_f

    Parameters
    ----------
    wall
        Share X and time constant.
    fuel_flow
        Fuel metered [kg/s].

    References
    ----------
    C. F. Aquino, SAE 810494 (1981): the steady state of his two-parameter model.
    """
    return wall.share * wall.time * fuel_flow


def film_step(wall: Wetting, mass: float, fuel_flow: float, duration: float) -> float:
    r"""Return the film's mass after a step.

    .. math::
        \frac{dm}{dt} = X \dot m_f - \frac{m}{\tau}, \qquad
        m_1 = \frac{m_0 + X \dot m_f \Delta t}{1 + \Delta t / \tau}

    What has not stayed on the wall, :math:`\dot m_f - (m_1 - m_0)/\Delta t`, has reached the
    manifold's air.

    Parameters
    ----------
    wall
        Share and time constant at the end of the step.
    mass
        Film mass at its start [kg].
    fuel_flow
        Fuel metered during it, the pump's shot included [kg/s].
    duration
        Its length [s], positive.

    Returns
    -------
    Film mass at the end [kg].

    Raises
    ------
    RangeError
        If the duration is not positive.

    References
    ----------
    C. F. Aquino, "Transient A/F Control Characteristics of the 5 Liter Central Fuel Injection
    Engine", SAE 810494 (1981). The step is Euler's implicit rule, of the first order.
    """
    landed = wall.share * fuel_flow * positive("duration", duration, "s")
    return (mass + landed) / (1.0 + duration / wall.time)
