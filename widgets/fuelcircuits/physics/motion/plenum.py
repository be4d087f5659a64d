"""The whole carburettor above a manifold that fills and empties, step by step."""

from collections.abc import Sequence
from math import ceil
from typing import NamedTuple

from fuelcircuits.physics.circuits.canister import canister_run, purge_air, sorption
from fuelcircuits.physics.engine.engine import manifold_temperature
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.journey import Journey
from fuelcircuits.physics.motion.manifold_filling import (
    Demand,
    Filled,
    filled,
    held_air,
    with_filling,
)
from fuelcircuits.physics.network.balance import Balance
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.search import balanced
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import linspace

__all__ = ["Plenum", "Steps", "breathe", "drawn_in", "purged", "stepped"]

LONGEST, MOST = 0.02, 5
"""Longest step of the filling [s], and most steps between two times of a journey [1]."""


class Plenum(NamedTuple):
    """A manifold followed in time; every list but `rows` runs over `times`."""

    times: list[float]  # s; the journey's times and steps between
    rows: list[int]  # where the journey's times stand among them
    states: list[State]  # the network; its air flow is what engine and filling manifold want
    pressure: list[float]  # Pa
    inflow: list[float]  # kg/s of air by carburettor, leak and purge
    purge: list[float]  # kg/s of that, through the canister
    taken: list[float]  # kg/s of air into the cylinders
    books: Filled


class Steps(NamedTuple):
    """A journey with steps short enough for a filling manifold."""

    trip: Journey
    rows: list[int]  # where the journey's own times stand among the steps


def stepped(trip: Journey) -> Steps:
    """Return a journey in steps.

    Parameters
    ----------
    trip
        The journey.

    Returns
    -------
    Steps
        Equal ones of at most 20 ms between the journey's times, but no more than five of them.
    """
    rows, finer = [0], Journey([trip.times[0]], [trip.throttle[0]], [trip.speed[0]])
    for leg in range(1, len(trip.times)):
        span = trip.times[leg] - trip.times[leg - 1]
        count = min(max(ceil(span / LONGEST - 1e-9), 1), MOST)
        for steps, each in zip(finer, trip, strict=True):
            steps.extend(linspace(each[leg - 1], each[leg], count + 1)[1:])
        rows.append(rows[-1] + count)
    return Steps(finer, rows)


class _Step(NamedTuple):
    """What is found at one time."""

    state: State
    taken: float  # kg/s of air into the cylinders
    purge: float  # kg/s


def breathe(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    steps: Steps,
    settings: Sequence[Settings],
    *,
    near: Sequence[State] = (),
) -> Plenum:
    """Solve the network at one step after another against what engine and filling manifold want.

    Parameters
    ----------
    rig, weather, fuel
        As in `fuelcircuits.physics.network.solving.solve`.
    steps, settings
        The journey in steps, and the settings at each of them. At the first the manifold is
        taken to be full.
    near
        The states of the round before, from which the search starts.

    Returns
    -------
    Plenum
        Inflow is added up from the network's own flows, not from what the engine takes.

    Raises
    ------
    ConvergenceError
        If the network has no balance at some step.

    Notes
    -----
    A canister's purge air goes by the pressure of the round before; in the first round, by
    that of the step before.
    """
    trip, held = steps.trip, _held(rig, weather)
    found, before = list[_Step](), weather.pressure
    for j, now in enumerate(trip.times):
        of = pose(rig, weather, fuel, settings[j])
        at = place(of, trip.speed[j], trip.throttle[j])
        start = near[j] if near else (found[-1].state if found else None)
        felt = near[j].pressures.manifold if near else before
        wanted, purge = Demand(at.demand_rate, at.demand_loss), _purge(rig, weather, felt)
        line = wanted._replace(loss=wanted.loss + purge)
        if found:
            line = with_filling(line, held, now - trip.times[j - 1], before)
        at = at._replace(demand_rate=line.rate, demand_loss=line.loss)
        state = balanced(Balance(of, at), start)
        before = state.pressures.manifold
        found.append(_Step(state, wanted.at(before), purge))
    return _plenum(held, steps, found)


def drawn_in(run: Plenum) -> list[State]:
    """Return the network's states at the journey's own times, with the air that the engine takes.

    Parameters
    ----------
    run
        The manifold.

    Returns
    -------
    list of State
        Their engine flow and their inflow differ by what the manifold stores.
    """
    chosen = [(run.states[row], run.taken[row]) for row in run.rows]
    return [state._replace(flows=state.flows._replace(engine=taken)) for state, taken in chosen]


def purged(rig: Rig, run: Plenum, load: float) -> tuple[list[float], float]:
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
        return [0.0] * len(run.times), 0.0
    bed = canister_run(rig.canister, run.times, 0.0, run.purge, load=load)
    first = sorption(rig.canister, load, 0.0, run.purge[0]).purged
    return [gone for _, _, gone in bed], first


def _plenum(held: float, steps: Steps, found: list[_Step]) -> Plenum:
    """Return the manifold's run from its steps."""
    states, taken = [each.state for each in found], [each.taken for each in found]
    purge = [each.purge for each in found]
    inflow = [_inflow(each.state) + each.purge for each in found]
    pressure = [each.pressures.manifold for each in states]
    times = steps.trip.times
    books = filled(held, times, pressure, inflow, taken)
    return Plenum(times, steps.rows, states, pressure, inflow, purge, taken, books)


def _inflow(state: State) -> float:
    """Return the air that carburettor and leak let into the manifold [kg/s]."""
    flows, total = state.flows, state.all_barrels
    return total(flows.throttle) + total(flows.slot_below.air) + total(flows.screw.air) + flows.leak


def _held(rig: Rig, weather: Weather) -> float:
    """Return the air that the manifold holds for each pascal [kg/Pa]."""
    return held_air(rig.engine, manifold_temperature(rig.engine, weather.temperature))


def _purge(rig: Rig, weather: Weather, pressure: float) -> float:
    """Return the air that the manifold draws through the canister, if there is one [kg/s]."""
    if rig.canister is None:
        return 0.0
    return purge_air(rig.canister, pressure, weather.pressure, weather.temperature)
