"""The bowl while the engine runs: its temperature, and the vapour it makes."""

from collections.abc import Sequence
from math import exp
from typing import NamedTuple

from fuelcircuits.physics.circuits.hot_soak import LIQUID_HEAT, HotSoak
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.boiling import remaining_pressure, spreading, vapour_line
from fuelcircuits.physics.numerics.interpolation import interpolate
from fuelcircuits.physics.numerics.ode import integrate

__all__ = ["BowlHeat", "bowl_heat", "coolant"]


class BowlHeat(NamedTuple):
    """A running bowl followed in time: one number for each time."""

    temperature: list[float]  # K
    lost_share: list[float]  # share of its fuel that has boiled off and not been made good [1]
    boiled: list[float]  # kg of vapour made since the start
    vapour: list[float]  # kg/s


def coolant(soak: HotSoak, time: float, start: float) -> float:
    r"""Return the coolant's temperature after a start.

    .. math:: T = T_w + (T_0 - T_w) e^{-t/\tau}

    Parameters
    ----------
    soak
        Warm temperature T\ :sub:`w` (block_temperature) and time constant (warm_up).
    time
        Time since the start [s].
    start
        Temperature T\ :sub:`0` at the start [K].

    Returns
    -------
    Temperature [K].

    Notes
    -----
    One lump: common practice, no source.
    """
    warm = soak.block_temperature
    return warm + (start - warm) * exp(-time / soak.warm_up)


def bowl_heat(
    soak: HotSoak,
    weather: Weather,
    fuel: Fuel,
    times: Sequence[float],
    *,
    fuel_flow: Sequence[float],
    coolant: Sequence[float],
    mass: float,
    start: tuple[float, float],
) -> BowlHeat:
    r"""Follow temperature and vapour of a bowl through which fuel flows.

    .. math::
        C \frac{dT}{dt} &= G_b (T_c - T) - (G_c + c\, \dot m_f)(T - T_a) - L \dot m_v \\
        m \frac{df}{dt} &= \dot m_v - f \dot m_f

    The conductance G\ :sub:`c` to the passing air follows from the rise `bowl_rise` that the
    bowl of a warm engine keeps at idle. Fresh fuel comes in at the temperature outside.

    Parameters
    ----------
    soak
        Heat paths and rates.
    weather
        The air outside.
    fuel
        The fuel.
    times
        Rising times [s].
    fuel_flow
        Fuel through the bowl at each time [kg/s].
    coolant
        Coolant temperature at each time [K].
    mass
        Fuel in the bowl m [kg].
    start
        Bowl temperature [K] and lost share f [1] at the first time.

    Returns
    -------
    BowlHeat
        Temperature, lost share, vapour so far and vapour flow at each time.

    Notes
    -----
    First principles for one lump. The bowl boils against ambient pressure: what vents add
    or take is a thousandth of that.
    """
    air, outside = weather.temperature, weather.pressure
    away = soak.block_temperature - air - soak.bowl_rise
    cooling = soak.block_to_bowl * max(away, 0.0) / max(soak.bowl_rise, 1.0)
    capacity = soak.bowl_heat + LIQUID_HEAT * mass
    latent, line = liquid.heat_of_vaporisation(fuel), vapour_line(fuel)

    def vapour(temperature: float, share: float) -> float:
        pressure = remaining_pressure(line, temperature, share)
        boiled = soak.boil_rate * max(pressure - outside, 0.0)
        return spreading(soak, pressure / outside) + boiled

    def rate(now: float, state: list[float]) -> list[float]:
        temperature, share, _ = state
        made, flow = vapour(temperature, share), interpolate(now, times, fuel_flow)
        gain = soak.block_to_bowl * (interpolate(now, times, coolant) - temperature)
        loss = (cooling + LIQUID_HEAT * flow) * (temperature - air)
        return [(gain - loss - made * latent) / capacity, (made - share * flow) / mass, made]

    run = integrate(rate, [*start, 0.0], times, relative=1e-7, absolute=1e-9, name="bowl heat")
    temperature, share, boiled = map(list, zip(*run, strict=True))
    return BowlHeat(temperature, share, boiled, list(map(vapour, temperature, share)))
