"""The whole carburettor above a manifold that fills and empties: one round of its pressures."""

from typing import Any, NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.circuits.canister import canister_run, purge_air, sorption
from fuelcircuits.physics.engine.engine import manifold_temperature
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.journey import Journey
from fuelcircuits.physics.motion.manifold_filling import (
    Demand,
    Filled,
    advanced,
    filled,
    held_air,
    hold,
    with_filling,
)
from fuelcircuits.physics.network.posing import pose
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.search import solved
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State

__all__ = ["Plenum", "Round", "breathe", "drawn_in", "plenum", "purged", "stepped"]

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]
Tree = TypeVar("Tree")

LONGEST, MOST = 0.02, 5
"""Longest step of the filling [s], and most steps between two times of a journey [1]."""
NUDGE = 10.0
"""Pressure that the second copy's line is pushed on by, to see how the network yields [Pa]."""


class Plenum(NamedTuple):
    """A manifold followed in time; every array runs over `times`."""

    times: Floats  # s; the journey's times and steps between
    rows: Indices  # where the journey's times stand among them
    pressure: Floats  # Pa
    inflow: Floats  # kg/s of air by carburettor, leak and purge
    purge: Floats  # kg/s of that, through the canister
    taken: Floats  # kg/s of air into the cylinders
    books: Filled


class Round(NamedTuple):
    """What one round knows of the manifold."""

    state: State  # the network at each step
    unknowns: Floats  # to start the next round from
    wanted: Demand  # what the engine takes
    tried: Floats  # Pa
    pressure: Floats  # Pa, found
    advanced: Floats  # Pa, to try next
    purge: Floats  # kg/s

    @property
    def change(self) -> float:
        """How far the steps are from holding together [Pa]."""
        return float(np.max(np.abs(self.pressure - self.tried)))


def stepped(trip: Journey) -> tuple[Journey, Indices]:
    """Return a journey with steps short enough for a filling manifold.

    Parameters
    ----------
    trip
        The journey.

    Returns
    -------
    finer, rows
        The journey with equal steps of at most 20 ms between its times, but no more than five
        of them; and where its own times stand among the steps.
    """
    counts = np.clip(np.ceil(np.diff(trip.times) / LONGEST - 1e-9), 1, MOST).astype(int)
    rows = np.concatenate([[0], np.cumsum(counts)])
    finer = np.arange(rows[-1] + 1)
    times, throttle, speed = (np.interp(finer, rows, each) for each in trip)
    return Journey(times, throttle, speed), rows


def breathe(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    trip: Journey,
    settings: Settings,
    *,
    last: Round | None = None,
) -> Round:
    """Solve the network at every step against what engine and filling manifold want.

    Parameters
    ----------
    rig, weather, fuel
        As in `fuelcircuits.physics.network.solving.solve`.
    trip, settings
        The journey in steps, and the settings at each of them.
    last
        The round before; with none, the manifold is taken to be full at every time.

    Returns
    -------
    Round
        Repeated rounds come to the steps of `fuelcircuits.physics.motion.manifold_filling`; a
        change that is small becomes square times smaller.

    Raises
    ------
    ConvergenceError
        If the network has no balance at some step.

    Notes
    -----
    A canister's purge air goes by the pressure of the round before.
    """
    problem, points, shape = pose(
        rig, weather, fuel, settings, speed=trip.speed, angle=trip.throttle
    )
    wanted = Demand(points.demand_rate, points.demand_loss)
    if last is None:
        state: State = solved(problem, points, shape, settings)
        pressure = state.pressures.manifold
        return Round(state, state.unknowns, wanted, pressure, pressure, pressure, 0 * pressure)
    step = hold(_held(rig, weather), trip.times)
    purge = _purge(rig, weather, last.advanced)
    line = with_filling(wanted._replace(loss=wanted.loss + purge), step, last.advanced)
    nudge = NUDGE * line.rate
    twice = points.take(np.tile(np.arange(shape[0]), 2))._replace(
        demand_rate=np.tile(line.rate, 2),
        demand_loss=np.concatenate([line.loss, line.loss + nudge]),
    )
    start = np.tile(last.unknowns, (1, 2))
    both = solved(problem, twice, (2, *shape), settings, start=start)
    state = _picked(both, 0)._replace(unknowns=both.unknowns[:, : shape[0]])
    pressure, pushed = both.pressures.manifold
    fresh = advanced(step, last.advanced, pressure, (pushed - pressure) / nudge)
    return Round(state, state.unknowns, wanted, last.advanced, pressure, fresh, purge)


def plenum(rig: Rig, weather: Weather, times: Floats, rows: Indices, found: Round) -> Plenum:
    """Return the manifold's run from its last round.

    Parameters
    ----------
    rig, weather
        As in `breathe`.
    times, rows
        The steps [s], and where the journey's times stand among them.
    found
        The last round.

    Returns
    -------
    Plenum
        Inflow is added up from the network's own flows, not from what the engine takes.
    """
    state, held = found.state, _held(rig, weather)
    f = state.flows
    inflow = state.all_barrels(f.throttle + f.slot_below.air + f.screw.air) + f.leak + found.purge
    books = filled(found.wanted, held, times, found.pressure, inflow)
    taken = found.wanted.at(found.pressure)
    return Plenum(times, rows, found.pressure, inflow, found.purge, taken, books)


def drawn_in(state: State, run: Plenum) -> State:
    """Return a network's state at the journey's own times, with the air that the engine takes.

    Parameters
    ----------
    state
        The network at every step of the manifold.
    run
        The manifold.

    Returns
    -------
    State
        Its engine flow and its inflow differ by what the manifold stores.
    """
    chosen: State = _picked(state, run.rows)
    return chosen._replace(flows=chosen.flows._replace(engine=run.taken[run.rows]))


def purged(rig: Rig, run: Plenum, load: float) -> tuple[Floats, float]:
    """Return the fuel that purge air has brought from the canister.

    Parameters
    ----------
    rig
        Its canister, if it has one.
    run
        The manifold.
    load
        Fuel in the bed at the start [kg].

    Returns
    -------
    so_far, first
        Fuel since the first time, at each of the manifold's times [kg], and its flow at the
        first [kg/s].

    Notes
    -----
    `fuelcircuits.physics.circuits.canister`. The bowl's vapour is not led to the bed: the vents of
    a running engine lead it to the horn.
    """
    if rig.canister is None:
        return np.zeros(run.times.shape), 0.0
    first = sorption(rig.canister, load, 0.0, run.purge[0]).purged
    return canister_run(rig.canister, run.times, 0.0, run.purge, load=load)[:, 2], float(first)


def _held(rig: Rig, weather: Weather) -> float:
    """Return the air that the manifold holds for each pascal [kg/Pa]."""
    return held_air(rig.engine, float(manifold_temperature(rig.engine, weather.temperature)))


def _purge(rig: Rig, weather: Weather, pressure: Floats) -> Floats:
    """Return the air that the manifold draws through the canister, if there is one [kg/s]."""
    if rig.canister is None:
        return np.zeros(pressure.shape)
    return purge_air(rig.canister, pressure, weather.pressure, weather.temperature)


def _picked(tree: Any, index: int | Indices) -> Any:
    """Return nested tuples of arrays at some of the points: a copy's number, or their rows."""
    if isinstance(tree, tuple):
        return type(tree)(*(_picked(each, index) for each in tree))
    array = np.asarray(tree)
    if array.ndim == 0:
        return tree
    return array[..., index, :] if isinstance(index, int) else array[..., index]
