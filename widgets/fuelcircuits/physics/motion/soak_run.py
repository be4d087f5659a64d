"""Minutes after the engine stops: where the fuel goes, and how the engine starts again."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple, TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.canister import sorption
from fuelcircuits.physics.circuits.high_speed import GRAVITY, jet_coefficients, jet_flow
from fuelcircuits.physics.circuits.hot_soak import LIQUID_HEAT, heat_flows, outlets
from fuelcircuits.physics.engine.engine import swept_flow
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.boiling import Boiler, boiler, boiling
from fuelcircuits.physics.numerics.ode import integrate
from fuelcircuits.physics.openings.two_phase import bore_area

if TYPE_CHECKING:
    from fuelcircuits.physics.network.rig import Rig

__all__ = ["Restart", "SoakRun", "restart", "soak_run"]

Floats = NDArray[np.float64]
Numbers: TypeAlias = float | Floats

SPILLING = 330.0
"""Temperature taken for the fuel that is pushed over the lips [K] (common practice, no source)."""
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
    First principles, with the relations of `fuelcircuits.physics.circuits.hot_soak`.
    """
    soak = rig.hot_soak
    if soak is None:
        raise CardError(f"rig {rig.name} must have a section hot_soak, got none")
    bowl, warm = rig.float_bowl, float(weather.temperature) + soak.bowl_rise
    depth = bowl.depth - bowl.specified_level
    filled = bowl.bowl_area * depth * float(liquid.density(fuel, warm))
    still = _still(rig, weather, fuel, filled)

    def rate(now: float, state: Floats) -> list[Numbers]:
        return _rates(still, state.tolist())

    start = [soak.exhaust_temperature, soak.block_temperature, warm, filled, load, 0, 0, 0, 0, 0]
    allowed = np.array([1e-4] * 3 + [1e-9] * 7)
    when = np.asarray(times, dtype=float)
    states = integrate(rate, start, when, relative=1e-7, absolute=allowed, name="hot soak").T
    flow, _, over, _ = _vapour(still, states[2], states[3], states[9])
    return SoakRun._make([when, *states, np.asarray(flow), np.asarray(over)])


class _Still(NamedTuple):
    """What stays the same during a soak."""

    rig: Rig
    boiler: Boiler
    air: float  # K
    filled: float  # kg in the bowl at the start
    latent: float  # J/kg
    ways: tuple[float, ...]  # share of the vapour by each opening
    lip: tuple[float, float]  # Pa of bowl pressure to reach it: at the start, and bowl empty
    jet: tuple[float, float, float]  # m2, length over bore, ultimate coefficient
    spilt: tuple[float, float]  # kg/m3 and Pa s


def _still(rig: Rig, weather: Weather, fuel: Fuel, filled: float) -> _Still:
    """Return what stays the same, as plain numbers."""
    bowl, high = rig.float_bowl, rig.high_speed
    spilt = float(liquid.density(fuel, SPILLING)), float(liquid.viscosity(fuel, SPILLING))
    slender, ultimate = jet_coefficients(high.jet_bore, high.jet_length)
    lip, weight = float(high.lip), spilt[0] * GRAVITY
    return _Still(
        rig=rig,
        boiler=boiler(rig.hot_soak, rig.vents, fuel, float(weather.pressure)),
        air=float(weather.temperature),
        filled=filled,
        latent=float(liquid.heat_of_vaporisation(fuel)),
        ways=tuple(map(float, outlets(rig.vents))),
        lip=(weight * lip, weight * (lip + bowl.depth - bowl.specified_level)),
        jet=(float(bore_area(high.jet_bore)), float(slender), float(ultimate)),
        spilt=spilt,
    )


def _rates(still: _Still, state: list[float]) -> list[Numbers]:
    """Return the rate of every state."""
    exhaust, block, bowl, left, load, _, _, intake, _, gone = state
    soak, bed = still.rig.hot_soak, still.rig.canister
    heat = heat_flows(soak, exhaust, block, bowl, still.air)
    made, bubbles, over, wet = _vapour(still, bowl, left, gone)
    spilt = wet * _spilt(still, over, 1 - left / still.filled) + soak.carry_over * bubbles
    inside, outside, stored, gasket = (made * each for each in still.ways)
    caught = 0.0 if bed is None else sorption(bed, load, stored).captured
    drying = intake / soak.intake_drying
    into_bowl = heat.block_to_bowl + heat.air_to_bowl - made * still.latent
    return [
        -(heat.exhaust_to_block + heat.exhaust_to_air) / soak.exhaust_heat,
        (heat.exhaust_to_block - heat.block_to_air - heat.block_to_bowl) / soak.block_heat,
        into_bowl / (soak.bowl_heat + LIQUID_HEAT * max(left, 0.0)),
        -made - spilt,
        caught,
        stored - caught,
        outside + gasket,
        inside + spilt - drying,
        drying,
        made,
    ]


def _vapour(
    still: _Still, bowl: Numbers, left: Numbers, gone: Numbers
) -> tuple[Numbers, Numbers, Numbers, Numbers]:
    """Return all vapour, the part boiled, the bowl's overpressure, and how wet its floor is."""
    share = np.maximum(gone / (gone + np.maximum(left, 1e-9)), 0.0)
    made, bubbles, over = boiling(still.boiler, bowl, share)
    # The last fiftieth wets the floor only in part.
    wet: Numbers = np.minimum(np.maximum(left / (0.02 * still.filled), 0.0), 1.0)
    return made * wet, bubbles * wet, over, wet


def _spilt(still: _Still, over: Numbers, fallen: float) -> Numbers:
    """Return the liquid that the bowl's pressure pushes over the nozzles' lips [kg/s]."""
    push = over - still.lip[0] - fallen * (still.lip[1] - still.lip[0])
    if push <= 0:
        return 0.0
    (area, slender, ultimate), (mass, thick) = still.jet, still.spilt
    bore = still.rig.high_speed.jet_bore
    flow = jet_flow(area, bore, (slender, ultimate), push, mass, viscosity=thick)
    return still.rig.air_path.barrels * float(flow)


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
