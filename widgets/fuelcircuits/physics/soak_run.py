"""Minutes after the engine stops: where the fuel goes, and how the engine starts again."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import CardError
from fuelcircuits.physics import fuel as liquid
from fuelcircuits.physics.atmosphere import Weather
from fuelcircuits.physics.canister import sorption
from fuelcircuits.physics.engine import swept_flow
from fuelcircuits.physics.fuel import Fuel
from fuelcircuits.physics.hot_soak import LIQUID_HEAT, heat_flows, outlets, vapour_flow
from fuelcircuits.physics.ode import integrate
from fuelcircuits.physics.orifice import mass_flow

if TYPE_CHECKING:
    from fuelcircuits.rig import Rig

__all__ = ["Restart", "SoakRun", "restart", "soak_run"]

Floats = NDArray[np.float64]

GRAVITY = 9.80665
"""Standard gravity [m/s2]."""
RICHEST, LEANEST = 2.0, 0.6
"""Equivalence ratios between which a cranked engine fires [1] (common practice, no source)."""


class SoakRun(NamedTuple):
    """A soak followed in time; every array runs over time."""

    times: Floats  # s since the engine stopped
    exhaust: Floats  # K
    block: Floats  # K
    bowl: Floats  # K
    fuel_left: Floats  # kg in the bowl
    stored: Floats  # kg in the canister, what was there before included
    lost: Floats  # kg through the canister to the outside
    outside: Floats  # kg by outside vent and gasket
    intake: Floats  # kg in bore and manifold now
    dried: Floats  # kg that has left bore and manifold again
    boiled: Floats  # kg of vapour the bowl has made, wherever it went
    vapour: Floats  # kg/s made
    overpressure: Floats  # Pa in the bowl


class Restart(NamedTuple):
    """How an engine starts after a soak."""

    equivalence: Floats  # fuel over the fuel that just burns, at the first turn [1]
    ratio: Floats  # air-fuel ratio at the first turn [1]
    cranking: Floats  # s until it fires


def soak_run(
    rig: Rig, weather: Weather, fuel: Fuel, times: ArrayLike, *, load: float = 0.0
) -> SoakRun:
    r"""Follow a hot soak.

    Three heat stores: exhaust side, block and bowl. The bowl gains heat from flange and air
    and spends it on warming and on vapour. The vapour leaves by the vents that are open with
    the ignition off; what leaves by the inside vent stays in the bore. Liquid follows it there
    when bubbles lift it, or when the bowl's pressure beats the nozzle's lip,

    .. math::
        \dot m_{spill} = \dot m_{jet}\left(p_{bowl} - p_a - \rho g (h_{lip} + h_{fallen})\right)

    Parameters
    ----------
    rig
        Its sections hot_soak, vents, float_bowl, high_speed, air_path and, if it has one,
        canister.
    weather
        The air outside; one number each.
    fuel
        The fuel.
    times
        Rising times since the engine stopped [s], from 0.
    load
        Fuel in the canister at the start [kg].

    Returns
    -------
    SoakRun
        Temperatures, fuel by place, vapour. The fuel adds up at every time.

    Raises
    ------
    CardError
        If the rig has no hot_soak section.
    ConvergenceError
        If every vent is shut.

    Notes
    -----
    First principles, with the relations of `fuelcircuits.physics.hot_soak`.
    """
    soak = rig.hot_soak
    if soak is None:
        raise CardError(f"rig {rig.name} must have a section hot_soak, got none")
    bowl = rig.float_bowl
    air, outside = float(weather.temperature), float(weather.pressure)
    warm = air + soak.bowl_rise
    filled = (
        bowl.bowl_area * (bowl.depth - bowl.specified_level) * float(liquid.density(fuel, warm))
    )

    def rate(now: float, state: Floats) -> Floats:
        return _rates(rig, fuel, state, (air, outside, filled))[0]

    start = [soak.exhaust_temperature, soak.block_temperature, warm, filled, load, 0, 0, 0, 0, 0]
    allowed = np.array([1e-4] * 3 + [1e-9] * 7)
    when = np.asarray(times, dtype=float)
    states = integrate(rate, start, when, relative=1e-7, absolute=allowed, name="hot soak").T
    flow, over = _rates(rig, fuel, states, (air, outside, filled))[1:]
    return SoakRun._make([when, *states, flow, over])


def _rates(
    rig: Rig, fuel: Fuel, state: Floats, given: tuple[float, float, float]
) -> tuple[Floats, Floats, Floats]:
    """Return the rate of every state, the vapour flow, and the bowl's overpressure."""
    exhaust, block, bowl, left, load, _, _, intake, _, gone = state
    air, outside, filled = given
    soak, heat = rig.hot_soak, heat_flows(rig.hot_soak, exhaust, block, bowl, air)
    share = np.clip(gone / (gone + np.maximum(left, 1e-9)), 0, 1)
    made, bubbles, pressure = vapour_flow(soak, rig.vents, fuel, bowl, share, ambient=outside)
    wet = np.clip(left / (0.02 * filled), 0, 1)  # the last fiftieth wets the floor only in part
    made, bubbles, over = made * wet, bubbles * wet, pressure - outside
    spilt = wet * _spilt(rig, fuel, over, 1 - left / filled) + soak.carry_over * bubbles
    ways = [made * each for each in outlets(rig.vents)]
    caught = np.zeros(()) if rig.canister is None else sorption(rig.canister, load, ways[2])[0]
    into_bowl = heat.block_to_bowl + heat.air_to_bowl - made * liquid.heat_of_vaporisation(fuel)
    drying = intake / soak.intake_drying
    rates = [
        -(heat.exhaust_to_block + heat.exhaust_to_air) / soak.exhaust_heat,
        (heat.exhaust_to_block - heat.block_to_air - heat.block_to_bowl) / soak.block_heat,
        into_bowl / (soak.bowl_heat + LIQUID_HEAT * np.maximum(left, 0)),
        -made - spilt,
        caught,
        ways[2] - caught,
        ways[1] + ways[3],
        ways[0] + spilt - drying,
        drying,
        made,
    ]
    return np.stack(np.broadcast_arrays(*rates)), made, over


def _spilt(rig: Rig, fuel: Fuel, over: Floats, fallen: Floats) -> Floats:
    """Return the liquid that the bowl's pressure pushes over the nozzles' lips [kg/s]."""
    bowl, high, warm = rig.float_bowl, rig.high_speed, 330.0
    mass, thick = liquid.density(fuel, warm), liquid.viscosity(fuel, warm)
    depth = bowl.depth - bowl.specified_level
    head = mass * GRAVITY * (np.asarray(high.lip) + fallen * depth)
    push = np.maximum(over - head, 0.0)
    return np.asarray(
        rig.air_path.barrels * mass_flow(high.jet_bore, high.jet_length, push, mass, thick)
    )


def restart(rig: Rig, weather: Weather, fuel: Fuel, run: SoakRun) -> Restart:
    r"""Return how the engine would start at each time of a soak.

    .. math::
        \phi(t) = 1 + \frac{r_{st}\, m_{intake}}{\tau\, \dot m_{air}} e^{-t/\tau}, \qquad
        t_{rich} = \tau \ln\frac{\phi_0 - 1}{\phi_{max} - 1}

    The carburettor itself is taken to crank at a stoichiometric mixture; the fuel in the
    intake comes on top until it is drawn out. A bowl that has boiled too far down must first
    be pumped up. The engine fires when both are over.

    Parameters
    ----------
    rig, weather, fuel
        As in `soak_run`.
    run
        The soak.

    Returns
    -------
    Restart
        First mixture and cranking time at each time of the run.

    Notes
    -----
    First principles for a well-mixed intake; the limits of firing are common practice, no
    source.
    """
    soak, bowl = rig.hot_soak, rig.float_bowl
    swept = swept_flow(rig.engine.displacement, soak.crank_speed)
    air = rig.engine.breathing * weather.density * swept
    stoichiometric = liquid.stoichiometric_ratio(fuel)
    extra = stoichiometric * run.intake / (soak.wash_out * air)
    mass = liquid.density(fuel, run.bowl) * bowl.bowl_area
    missing = np.maximum(run.fuel_left[0] - run.fuel_left - mass * soak.dry_drop, 0.0)
    rich = soak.wash_out * np.log(np.maximum(extra / (RICHEST - 1), 1.0))
    filling = missing / soak.crank_pump
    first = np.where(missing > 0, extra, 1 + extra)
    return Restart(
        np.asarray(first),
        np.asarray(stoichiometric / np.maximum(first, 1e-3)),
        np.asarray(soak.crank_least + np.maximum(rich, filling)),
    )
