"""Minutes after the engine stops: where its heat and its fuel go."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.bowl_vents import Openings
from fuelcircuits.physics.circuits.canister import sorption
from fuelcircuits.physics.circuits.high_speed import GRAVITY, jet_coefficients, jet_flow
from fuelcircuits.physics.circuits.hot_soak import LIQUID_HEAT, bonnet_air, heat_flows, outlets
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.boiling import Boiler, boiler, boiling
from fuelcircuits.physics.numerics.ode import integrate
from fuelcircuits.physics.openings.two_phase import bore_area

if TYPE_CHECKING:
    from fuelcircuits.physics.network.rig import Rig

__all__ = ["SoakRun", "soak_run"]

SPILLING = 330.0
"""Temperature taken for the fuel that is pushed over the lips [K] (common practice, no source)."""
RICHEST, LEANEST = 2.0, 0.6
"""Equivalence ratios between which a cranked engine fires [1] (common practice, no source)."""
WHOLE = (*[1e3] * 3, *[1e-2] * 7, 1e3)
"""Temperatures [K] and masses [kg] by which the error of a small state is measured."""


class SoakRun(NamedTuple):
    """A soak followed in time: one number for each time."""

    times: Sequence[float]  # s since the engine stopped
    exhaust: list[float]  # K
    block: list[float]  # K
    bowl: list[float]  # K
    fuel_left: list[float]  # kg in the bowl
    stored: list[float]  # kg in the canister, what was there before included
    lost: list[float]  # kg through the canister to the outside
    outside: list[float]  # kg by outside vent and gasket
    intake: list[float]  # kg in bore and manifold now
    dried: list[float]  # kg that has left bore and manifold again
    boiled: list[float]  # kg of vapour the bowl has made, wherever it went
    coil: list[float]  # K, of the choke; of a rig without one, as it would be in still air
    vapour: list[float]  # kg/s made
    overpressure: list[float]  # Pa in the bowl


def soak_run(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    times: Sequence[float],
    *,
    load: float = 0.0,
    relative: float = 1e-7,
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
        Its sections hot_soak, vents, float_bowl, high_speed, air_path and, if it has them,
        canister and choke.
    weather
        The air outside.
    fuel
        The fuel.
    times
        Rising times since the engine stopped [s], from 0.
    load
        Fuel in the canister at the start [kg].
    relative
        Error allowed a step, as a share of each state [1]; a thousand kelvin and a hundredth of a
        kilogram count as whole ones where a state is small.

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
    bowl, warm = rig.float_bowl, weather.temperature + soak.bowl_rise
    depth = bowl.depth - bowl.specified_level
    filled = bowl.bowl_area * depth * liquid.density(fuel, warm)
    still = _still(rig, weather, fuel, filled)
    start = [soak.exhaust_temperature, soak.block_temperature, warm, filled, load, *[0.0] * 5]
    start.append(weather.temperature + (0.0 if rig.choke is None else rig.choke.heat_rise))
    states = integrate(
        lambda now, state: _rates(still, state),
        start,
        times,
        relative=relative,
        absolute=[relative * each for each in WHOLE],
        name="hot soak",
    )
    columns = [list(column) for column in zip(*states, strict=True)]
    vapour = [_vapour(still, state[2], state[3], state[9]) for state in states]
    made, over = [each[0] for each in vapour], [each[2] for each in vapour]
    return SoakRun._make([times, *columns, made, over])


class _Still(NamedTuple):
    """What stays the same during a soak."""

    rig: Rig
    boiler: Boiler
    air: float  # K
    filled: float  # kg in the bowl at the start
    latent: float  # J/kg
    ways: Openings  # share of the vapour by each
    lip: tuple[float, float]  # Pa of bowl pressure to reach it: at the start, and bowl empty
    spilt: tuple[float, float]  # kg/m3 and Pa s


def _still(rig: Rig, weather: Weather, fuel: Fuel, filled: float) -> _Still:
    """Return what stays the same."""
    bowl, high = rig.float_bowl, rig.high_speed
    spilt = liquid.density(fuel, SPILLING), liquid.viscosity(fuel, SPILLING)
    fallen, weight = bowl.depth - bowl.specified_level, spilt[0] * GRAVITY
    return _Still(
        rig=rig,
        boiler=boiler(rig.hot_soak, rig.vents, fuel, weather.pressure),
        air=weather.temperature,
        filled=filled,
        latent=liquid.heat_of_vaporisation(fuel),
        ways=outlets(rig.vents),
        lip=(weight * high.lip, weight * (high.lip + fallen)),
        spilt=spilt,
    )


def _rates(still: _Still, state: list[float]) -> list[float]:
    """Return the rate of every state."""
    exhaust, block, bowl, left, load, _, _, intake, _, gone, coil = state
    soak, bed = still.rig.hot_soak, still.rig.canister
    heat = heat_flows(soak, exhaust, block, bowl, still.air)
    made, bubbles, over, wet = _vapour(still, bowl, left, gone)
    spilt = wet * _spilt(still, over, 1 - left / still.filled) + soak.carry_over * bubbles
    inside, outside, stored, gasket = (made * way for way in still.ways)
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
        _cooling(still, coil, bonnet_air(soak, exhaust, block, still.air)),
    ]


def _cooling(still: _Still, coil: float, around: float) -> float:
    """Return how fast the choke's coil follows the air around it [K/s]."""
    choke = still.rig.choke
    return 0.0 if choke is None else (around - coil) / choke.cool_time


def _vapour(
    still: _Still, bowl: float, left: float, gone: float
) -> tuple[float, float, float, float]:
    """Return all vapour, the part boiled, the bowl's overpressure, and how wet its floor is."""
    share = max(gone / (gone + max(left, 1e-9)), 0.0)
    made, bubbles, over = boiling(still.boiler, bowl, share)
    # The last fiftieth wets the floor only in part.
    wet = min(max(left / (0.02 * still.filled), 0.0), 1.0)
    return made * wet, bubbles * wet, over, wet


def _spilt(still: _Still, over: float, fallen: float) -> float:
    """Return the liquid that the bowl's pressure pushes over the nozzles' lips [kg/s]."""
    push = over - still.lip[0] - fallen * (still.lip[1] - still.lip[0])
    if push <= 0:
        return 0.0
    (density, viscosity), high = still.spilt, still.rig.high_speed
    area, coefficients = bore_area(high.jet_bore), jet_coefficients(high.jet_bore, high.jet_length)
    flow = jet_flow(area, high.jet_bore, coefficients, push, density, viscosity=viscosity)
    return still.rig.air_path.barrels * flow
