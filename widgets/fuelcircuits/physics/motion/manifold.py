"""The manifold fills: while its pressure rises, more air comes in than the engine takes.

The step is implicit: the network above is solved at its end against what the engine takes at a
manifold pressure and what the manifold itself keeps to get there. Exhaust that is let back is
taken to mix in at once.
"""

from typing import NamedTuple

from fuelcircuits.errors import positive
from fuelcircuits.physics.circuits.canister import Canister, purge_air
from fuelcircuits.physics.engine.engine import Engine, manifold_temperature
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT, Weather
from fuelcircuits.physics.network.balance import Balance
from fuelcircuits.physics.network.flows import engine_air
from fuelcircuits.physics.network.problem import Point, Problem
from fuelcircuits.physics.network.search import balanced
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.newton import GOOD

__all__ = ["Breath", "breathed", "held_air", "holds", "purge_flow", "standing"]


class Breath(NamedTuple):
    """What the air does in a step."""

    state: State  # the network at its end, with the air that the engine takes
    pressure: float  # Pa, in the manifold at its end
    held: float  # kg of air in the manifold then
    inflow: float  # kg/s into the manifold, by carburettor, leak and purge
    taken: float  # kg/s into the cylinders
    purge: float  # kg/s through the canister
    asked: float  # kg/s of fuel that the jets want from the bowl
    answered: float  # share of a change of speed that the manifold has answered to [1]
    settings: Settings | None = None  # what the network was set to; None of an engine that stands


def held_air(engine: Engine, temperature: float) -> float:
    r"""Return the air that a manifold holds for each pascal [kg/Pa].

    .. math:: \frac{m}{p} = \frac{V}{R\,T}

    Parameters
    ----------
    engine
        Its `manifold_share` of the displacement is the volume V.
    temperature
        Temperature of the charge [K], positive.

    Raises
    ------
    RangeError
        If the temperature is not positive.

    Notes
    -----
    First principles: an ideal gas. The charge keeps one temperature while it is squeezed, since
    the wall's heat evens it out; the fuel vapour in it is left out (common practice, no source).
    """
    volume = engine.manifold_share * engine.displacement
    return volume / (AIR_CONSTANT * positive("charge temperature", temperature, "K"))


def breathed(
    of: Problem,
    at: Point,
    held: float,
    duration: float,
    *,
    purge: float,
    start: State,
    good: float = GOOD,
) -> Breath:
    r"""Return what the air does in a step.

    .. math::
        \frac{V}{R\,T} \frac{p_1 - p_0}{\Delta t} = \dot m_{in,1} - \dot m_{engine,1}

    Parameters
    ----------
    of, at
        The network, and speed and throttle at the end of the step.
    held
        Air in the manifold at its start [kg].
    duration
        Its length [s], positive.
    purge
        Air that comes in through the canister [kg/s].
    start
        The network a step earlier.
    good
        Share of its traffic that a balance may have left over [1].

    Raises
    ------
    RangeError
        If the duration is not positive.
    ConvergenceError
        If the network has no balance.

    Notes
    -----
    First principles: conservation of mass. Euler's implicit rule is of the first order, but a
    pressure never shoots past where it is going, however long the step.
    """
    capacity = holds(of)
    step = capacity / positive("time step", duration, "s")
    wanted = at._replace(fill_rate=step, fill_loss=held / duration + purge)
    state = balanced(Balance(of, wanted), start, good)
    pressure = state.pressures.manifold
    taken = engine_air(of, at, pressure)
    return Breath(
        state=state._replace(flows=state.flows._replace(engine=taken)),
        pressure=pressure,
        held=capacity * pressure,
        inflow=_inflow(state) + purge,
        taken=taken,
        purge=purge,
        asked=max(state.fuel_flow, 0.0),
        answered=at.demand_rate / (at.demand_rate + step),
    )


def standing(of: Problem, last: State, held: float, duration: float) -> Breath:
    """Return what the air does while the engine stands: it fills the manifold, and no more.

    Parameters
    ----------
    of
        The network.
    last
        Its state when the engine last turned.
    held, duration
        As in `breathed`.
    """
    full = holds(of) * of.pressure
    inflow = (full - held) / positive("time step", duration, "s")
    return Breath(last, of.pressure, full, inflow, 0.0, 0.0, 0.0, 0.0)


def holds(of: Problem) -> float:
    """Return the air that the manifold of a network holds for each pascal [kg/Pa]."""
    return held_air(of.engine, manifold_temperature(of.engine, of.temperature))


def _inflow(state: State) -> float:
    """Return the air that carburettor and leak let into the manifold [kg/s]."""
    flows, total = state.flows, state.all_barrels
    return total(flows.throttle) + total(flows.slot_below.air) + total(flows.screw.air) + flows.leak


def purge_flow(canister: Canister | None, weather: Weather, pressure: float) -> float:
    """Return the air that the manifold draws through the canister [kg/s], nought without one."""
    if canister is None:
        return 0.0
    return purge_air(canister, pressure, weather.pressure, weather.temperature)
