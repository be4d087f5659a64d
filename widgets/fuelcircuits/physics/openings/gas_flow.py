"""Air through a bleed, a venturi or a throttle: isentropic, signed both ways, choking."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.errors import positive
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT

__all__ = [
    "HEAT_RATIO",
    "SMOOTHING",
    "FlowSlopes",
    "critical_ratio",
    "mass_flow",
    "mass_flow_and_slopes",
    "pressure_after",
]

Floats = NDArray[np.float64]
Numbers = float | Floats

HEAT_RATIO = 1.4  # [1], air at carburettor temperatures
SMOOTHING = 1.0  # [Pa], the drop below which a flow is proportional to the drop
_SMALLEST_DROP = 1e-9  # [1], below this share of the pressure the limit is used
_SLACK = 0.01  # [1], how far past choking `pressure_after` lets a flow go while pressure falls


class FlowSlopes(NamedTuple):
    """A mass flow and how it answers to the pressure at either end."""

    flow: Floats  # kg/s, positive from `pressure_from` to `pressure_to`
    slope_from: Floats  # kg/(s Pa), never negative
    slope_to: Floats  # kg/(s Pa), never positive


def critical_ratio(heat_ratio: Numbers = HEAT_RATIO) -> Floats:
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
    return np.asarray((2.0 / (heat_ratio + 1.0)) ** (heat_ratio / (heat_ratio - 1.0)))


def mass_flow(
    area: Numbers,
    pressure_from: Numbers,
    pressure_to: Numbers,
    temperature: Numbers,
    discharge: Numbers = 1.0,
    *,
    gas_constant: Numbers = AIR_CONSTANT,
    heat_ratio: Numbers = HEAT_RATIO,
    smoothing: float = SMOOTHING,
) -> Floats:
    """Return the signed mass flow of a gas through an opening.

    The equation, its arguments and its source are those of `mass_flow_and_slopes`.

    Returns
    -------
    Mass flow [kg/s], positive from `pressure_from` to `pressure_to`.
    """
    return mass_flow_and_slopes(
        area,
        pressure_from,
        pressure_to,
        temperature,
        discharge,
        gas_constant=gas_constant,
        heat_ratio=heat_ratio,
        smoothing=smoothing,
    ).flow


def mass_flow_and_slopes(
    area: Numbers,
    pressure_from: Numbers,
    pressure_to: Numbers,
    temperature: Numbers,
    discharge: Numbers = 1.0,
    *,
    gas_constant: Numbers = AIR_CONSTANT,
    heat_ratio: Numbers = HEAT_RATIO,
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
    first = np.asarray(positive("pressure", pressure_from, "Pa"), dtype=float)
    second = np.asarray(positive("pressure", pressure_to, "Pa"), dtype=float)
    positive("temperature", temperature, "K")
    forward = first >= second
    upstream, drop = np.maximum(first, second), np.abs(first - second)
    scale = discharge * area / np.sqrt(gas_constant * np.asarray(temperature))

    power = (heat_ratio - 1.0) / heat_ratio
    most = 1.0 - critical_ratio(heat_ratio)
    share = np.maximum(drop / upstream, _SMALLEST_DROP)
    used = np.minimum(share, most)
    ratio = 1.0 - used
    heat = -np.expm1(power * np.log1p(-used))  # 1 - r**power without cancellation
    dense = ratio / (1.0 - heat)  # r**(1 / heat_ratio)
    squared = dense**2 * heat * (2.0 / power)
    steepness = (
        (2.0 / power) * dense * (1.0 + 1.0 / heat_ratio - (2.0 / heat_ratio) * dense / ratio)
    )  # minus the derivative of `squared` to `ratio`, zero where it chokes

    blur = drop * drop + smoothing * smoothing
    per_drop = scale * np.sqrt(squared * upstream / share) / blur**0.25
    flow = per_drop * drop
    soften = per_drop * smoothing**2 / (2.0 * blur)
    bend = np.where(share < most, 0.5 * per_drop * share * steepness / squared, 0.0)
    slope_down = -(bend + soften)
    slope_up = flow / upstream + ratio * bend + soften
    return FlowSlopes(
        np.where(forward, flow, -flow),
        np.where(forward, slope_up, -slope_down),
        np.where(forward, slope_down, -slope_up),
    )


def pressure_after(
    area: Numbers,
    pressure_from: Numbers,
    flow: Numbers,
    temperature: Numbers,
    discharge: Numbers = 1.0,
    *,
    gas_constant: Numbers = AIR_CONSTANT,
    heat_ratio: Numbers = HEAT_RATIO,
    smoothing: float = SMOOTHING,
) -> Floats:
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
    before = np.asarray(positive("pressure", pressure_from, "Pa"), dtype=float)
    speed = np.sqrt(gas_constant * np.asarray(positive("temperature", temperature, "K")))
    share = np.maximum(flow, 0.0) * speed / (discharge * np.asarray(area) * before)
    power, bend = (heat_ratio - 1.0) / heat_ratio, 2.0 / (heat_ratio - 1.0)
    top = 1.0 / (bend + 1.0)
    most = top * (1.0 - top) ** bend
    over = 0.5 * power * share * share / most  # squared flow over squared choking flow
    asked = most * np.minimum(over, 1.0)
    heat = top * (1.0 - np.sqrt(np.maximum(1.0 - over, 0.0)))
    for _ in range(5):
        wrong = heat * (1.0 - heat) - asked * (1.0 - heat) ** (1.0 - bend)
        heat = np.clip(heat - wrong / np.maximum(1.0 - heat / top, 1e-9), 0.0, top)
    sharp = -before * np.expm1(np.log1p(-heat) / power)
    drop = _softened(sharp, smoothing)
    drop = _softened(sharp * (1.0 + 1.5 / heat_ratio * (drop - sharp) / before), smoothing)
    drop = np.minimum(drop, 0.9 * before)
    beyond = np.clip((np.sqrt(over) - 1.0) / _SLACK, 0.0, 20.0)
    return np.asarray((before - drop) * np.exp(-beyond))


def _softened(drop: Floats, smoothing: float) -> Floats:
    """Return the drop that, with the factor S, passes what `drop` passes without it."""
    return np.asarray(np.sqrt(0.5 * drop * (drop + np.hypot(drop, 2.0 * smoothing))))
