"""Air through a bleed, a venturi or a throttle: isentropic, signed both ways, choking."""

from functools import lru_cache
from math import exp, expm1, hypot, log1p, sqrt
from typing import NamedTuple

from fuelcircuits.errors import positive
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT

__all__ = [
    "HEAT_RATIO",
    "SMALLEST_DROP",
    "SMOOTHING",
    "FlowSlopes",
    "critical_ratio",
    "flow_through",
    "mass_flow",
    "mass_flow_and_slopes",
    "mass_flux",
    "pressure_after",
]

HEAT_RATIO = 1.4  # [1], air at carburettor temperatures
SMOOTHING = 1.0  # [Pa], the drop below which a flow is proportional to the drop
SMALLEST_DROP = 1e-9  # [1], below this share of the pressure the limit is used
_NEVER_CHOKES = 0.39  # [1], no gas chokes below 1 - exp(-0.5) of the pressure before it
_SLACK = 0.01  # [1], how far past choking `pressure_after` lets a flow go while pressure falls


class FlowSlopes(NamedTuple):
    """A mass flow and how it answers to the pressure at either end."""

    flow: float  # kg/s, positive from `pressure_from` to `pressure_to`
    slope_from: float  # kg/(s Pa), never negative
    slope_to: float  # kg/(s Pa), never positive


@lru_cache(maxsize=8)
def critical_ratio(heat_ratio: float = HEAT_RATIO) -> float:
    r"""Return the pressure ratio across an opening at and below which it chokes.

    .. math:: r^* = \left(\frac{2}{\gamma + 1}\right)^{\gamma/(\gamma - 1)}

    Parameters
    ----------
    heat_ratio
        Ratio of specific heats [1], above 1.

    Returns
    -------
    Throat pressure over upstream stagnation pressure [1]; 0.528 for air.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, 1988, appendix C, eq. C.10.
    """
    ratio: float = (2.0 / (heat_ratio + 1.0)) ** (heat_ratio / (heat_ratio - 1.0))
    return ratio


def mass_flow(
    area: float,
    pressure_from: float,
    pressure_to: float,
    temperature: float,
    discharge: float = 1.0,
    *,
    gas_constant: float = AIR_CONSTANT,
    heat_ratio: float = HEAT_RATIO,
    smoothing: float = SMOOTHING,
) -> float:
    """Return the signed mass flow of a gas through an opening.

    The equation, its arguments and its source are those of `mass_flow_and_slopes`.

    Returns
    -------
    Mass flow [kg/s], positive from `pressure_from` to `pressure_to`.
    """
    positive("pressure", pressure_from, "Pa")
    positive("pressure", pressure_to, "Pa")
    gas = gas_constant * positive("temperature", temperature, "K")
    return flow_through(
        discharge * area,
        pressure_from,
        pressure_to,
        gas,
        heat_ratio=heat_ratio,
        smoothing=smoothing,
    )


def mass_flux(
    pressure_from: float,
    pressure_to: float,
    gas: float,
    *,
    heat_ratio: float = HEAT_RATIO,
    smoothing: float = SMOOTHING,
) -> float:
    r"""Return the signed mass flux of a gas through the smallest section of an opening.

    The equation and its source are those of `mass_flow_and_slopes`, for unit area and without
    loss. Nothing is checked, for a balance that asks for the same openings many times.

    Parameters
    ----------
    pressure_from, pressure_to
        Absolute pressures on the two sides [Pa], positive.
    gas
        Gas constant times temperature [J/kg].
    heat_ratio, smoothing
        As in `mass_flow_and_slopes`.

    Returns
    -------
    Mass flux [kg/(s m2)], positive from `pressure_from` to `pressure_to`.
    """
    return flow_through(
        1.0, pressure_from, pressure_to, gas, heat_ratio=heat_ratio, smoothing=smoothing
    )


def flow_through(
    area: float,
    pressure_from: float,
    pressure_to: float,
    gas: float,
    *,
    heat_ratio: float = HEAT_RATIO,
    smoothing: float = SMOOTHING,
) -> float:
    """Return the signed mass flow of a gas through an effective area.

    The equation and its source are those of `mass_flow_and_slopes`, the other arguments those of
    `mass_flux`. Nothing is checked here either.

    Parameters
    ----------
    area
        Smallest open area times discharge coefficient [m2].

    Returns
    -------
    Mass flow [kg/s], positive from `pressure_from` to `pressure_to`.
    """
    if not area:
        return 0.0
    upstream, size = pressure_from, pressure_from - pressure_to
    back = size < 0.0
    if back:
        upstream, size = pressure_to, -size
    power, used = (heat_ratio - 1.0) / heat_ratio, size / upstream
    if used > _NEVER_CHOKES:
        used = min(used, 1.0 - critical_ratio(heat_ratio))
    heat = -expm1(power * log1p(-used))  # 1 - r**power without cancellation
    dense = (1.0 - used) / (1.0 - heat)  # r**(1 / heat_ratio)
    blur = gas * power * sqrt(size * size + smoothing * smoothing)
    flow = area * upstream * dense * sqrt(2.0 * heat * size / blur)
    return -flow if back else flow


def mass_flow_and_slopes(
    area: float,
    pressure_from: float,
    pressure_to: float,
    temperature: float,
    discharge: float = 1.0,
    *,
    gas_constant: float = AIR_CONSTANT,
    heat_ratio: float = HEAT_RATIO,
    smoothing: float = SMOOTHING,
) -> FlowSlopes:
    r"""Return the signed mass flow of a gas through an opening, and its slopes.

    .. math::
        \dot m = \frac{C A p_u}{\sqrt{R T}} \Psi(r) S, \qquad
        \Psi^2 = \frac{2\gamma}{\gamma-1} r^{2/\gamma}
                 \left(1 - r^{(\gamma-1)/\gamma}\right), \qquad
        r = \max\left(\frac{p_d}{p_u}, r^*\right)

    with u the side of the higher pressure and d the other. Isentropic flow has an infinite
    slope at zero drop, where a real opening is laminar and its flow is proportional to the
    drop; the factor

    .. math:: S = \left(\frac{\Delta^2}{\Delta^2 + \delta^2}\right)^{1/4}

    makes it so below the drop :math:`\delta` and fades as :math:`1 - (\delta/2\Delta)^2`:
    0.25 % at ten times :math:`\delta`, 4 parts in a million at one inch of water. The flow is
    smooth to its first derivative everywhere, also where it turns round and where it chokes.

    Parameters
    ----------
    area
        Smallest open area A [m2], not negative.
    pressure_from, pressure_to
        Absolute pressures on the two sides [Pa], positive.
    temperature
        Temperature of the gas before the opening [K], positive.
    discharge
        Discharge coefficient C [1].
    gas_constant
        R [J/(kg K)]; dry air unless given.
    heat_ratio
        Ratio of specific heats [1], above 1.
    smoothing
        :math:`\delta` [Pa], positive.

    Returns
    -------
    Flow [kg/s] and its derivatives to either pressure [kg/(s Pa)].

    Raises
    ------
    RangeError
        If a pressure or the temperature is not positive.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, 1988, appendix C, eq. C.8 and C.9;
    the factor S is a numerical device of this package.
    """
    positive("pressure", pressure_from, "Pa")
    positive("pressure", pressure_to, "Pa")
    positive("temperature", temperature, "K")
    forward = pressure_from >= pressure_to
    upstream, drop = max(pressure_from, pressure_to), abs(pressure_from - pressure_to)
    scale = discharge * area / sqrt(gas_constant * temperature)

    power = (heat_ratio - 1.0) / heat_ratio
    most = 1.0 - critical_ratio(heat_ratio)
    share = max(drop / upstream, SMALLEST_DROP)
    used = min(share, most)
    ratio = 1.0 - used
    heat = -expm1(power * log1p(-used))  # 1 - r**power without cancellation
    dense = ratio / (1.0 - heat)  # r**(1 / heat_ratio)
    squared = dense * dense * heat * (2.0 / power)

    blur = drop * drop + smoothing * smoothing
    per_drop = scale * sqrt(squared * upstream / share / sqrt(blur))
    flow = per_drop * drop
    soften = per_drop * smoothing * smoothing / (2.0 * blur)
    bend = 0.0
    if share < most:
        steepness = (
            (2.0 / power) * dense * (1.0 + 1.0 / heat_ratio - (2.0 / heat_ratio) * dense / ratio)
        )  # minus the derivative of `squared` to `ratio`
        bend = 0.5 * per_drop * share * steepness / squared
    down, up = -(bend + soften), flow / upstream + ratio * bend + soften
    return FlowSlopes(flow, up, down) if forward else FlowSlopes(-flow, -down, -up)


def pressure_after(
    area: float,
    pressure_from: float,
    flow: float,
    temperature: float,
    discharge: float = 1.0,
    *,
    gas_constant: float = AIR_CONSTANT,
    heat_ratio: float = HEAT_RATIO,
    smoothing: float = SMOOTHING,
) -> float:
    r"""Return the pressure behind an opening that passes a given flow.

    The inverse of `mass_flow`: with :math:`h = 1 - r^{(\gamma-1)/\gamma}` it solves

    .. math:: h (1 - h)^{2/(\gamma - 1)} =
              \frac{\gamma - 1}{2 \gamma} \frac{R T}{p_u^2} \left(\frac{\dot m}{C A}\right)^2

    by Newton's rule from a start that is right where the opening chokes. No pressure makes
    a choked opening pass more; beyond that flow the pressure behind falls off as
    :math:`p^* \exp[-(\dot m/\dot m^* - 1)/0.01]`, so that a balance which contains the
    opening finds the pressure its other parts ask for, with the flow 1 % high at most.

    Parameters
    ----------
    area
        Smallest open area A [m2], positive.
    pressure_from
        Absolute pressure before the opening [Pa].
    flow
        Mass flow [kg/s]; one that is negative counts as nought.
    temperature
        Temperature of the gas before the opening [K].
    discharge, gas_constant, heat_ratio, smoothing
        As in `mass_flow_and_slopes`.

    Returns
    -------
    Absolute pressure behind the opening [Pa].

    Raises
    ------
    RangeError
        If area, pressure or temperature is not positive.

    References
    ----------
    Heywood 1988, appendix C, eq. C.8 and C.9, solved for the pressure.
    """
    positive("area", area, "m2")
    before = positive("pressure", pressure_from, "Pa")
    speed = sqrt(gas_constant * positive("temperature", temperature, "K"))
    share = max(flow, 0.0) * speed / (discharge * area * before)
    power, bend = (heat_ratio - 1.0) / heat_ratio, 2.0 / (heat_ratio - 1.0)
    top = 1.0 / (bend + 1.0)
    most = top * (1.0 - top) ** bend
    over = 0.5 * power * share * share / most  # squared flow over squared choking flow
    asked = most * min(over, 1.0)
    heat = top * (1.0 - sqrt(max(1.0 - over, 0.0)))
    for _ in range(5):
        wrong = heat * (1.0 - heat) - asked * (1.0 - heat) ** (1.0 - bend)
        heat = min(max(heat - wrong / max(1.0 - heat / top, 1e-9), 0.0), top)
    sharp = -before * expm1(log1p(-heat) / power)
    drop = _softened(sharp, smoothing)
    drop = _softened(sharp * (1.0 + 1.5 / heat_ratio * (drop - sharp) / before), smoothing)
    drop = min(drop, 0.9 * before)
    beyond = min(max((sqrt(over) - 1.0) / _SLACK, 0.0), 20.0)
    return (before - drop) * exp(-beyond)


def _softened(drop: float, smoothing: float) -> float:
    """Return the drop that, with the factor S, passes what `drop` passes without it."""
    return sqrt(0.5 * drop * (drop + hypot(drop, 2.0 * smoothing)))
