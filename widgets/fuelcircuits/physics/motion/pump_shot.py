"""The accelerator pump in time: plunger, air under the outlet, and the shot it gives."""

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import ceil
from typing import NamedTuple

from fuelcircuits.errors import positive
from fuelcircuits.physics.circuits.pump import (
    Pump,
    PumpFlows,
    effective_area,
    pump_flows,
    rod_position,
    spring_force,
)
from fuelcircuits.physics.motion.rising import rising
from fuelcircuits.physics.numerics.interpolation import interpolate

__all__ = ["Liquid", "Plunger", "PumpRun", "pump_rest", "pump_run", "pump_step"]

SOFT_AIR = 5e-9
"""Air in the chamber below which the jet passes fuel again [m3], five cubic millimetres."""
STILL = 1e-9
"""Travel in a step that counts as none, and with it whatever flows then [m]."""
CLOSE = 1e-12
"""How closely a step's travel is found, as a share of it [1]."""
SHORT = 2e-3
"""Longest step in which a whole run is followed [s]."""


class Liquid(NamedTuple):
    """What the pump is filled with."""

    density: float = 745.0  # kg/m3
    viscosity: float = 0.5e-3  # Pa s


class Plunger(NamedTuple):
    """A pump at one instant."""

    travel: float  # m down from the top
    air: float = 0.0  # m3 of air in the chamber
    given: float = 0.0  # m3 of fuel through the jets so far


class PumpRun(NamedTuple):
    """A pump followed in time: one number for each time."""

    rod: list[float]  # m
    plunger: list[float]  # m down from the top
    air: list[float]  # m3 of air in the chamber
    delivered: list[float]  # m3 of fuel through the jets so far
    fuel_flow: list[float]  # kg/s through the jets


def pump_rest(pump: Pump, throttle_angle: float) -> Plunger:
    """Return a pump that is full and at rest at a throttle angle [rad]."""
    return Plunger(rod_position(pump, throttle_angle))


def pump_step(
    pump: Pump,
    before: Plunger,
    rod: float,
    duration: float,
    liquid: Liquid,
    *,
    depression: float = 0.0,
) -> Plunger:
    r"""Return the pump after a step in which its rod has come to a new place.

    .. math:: A \frac{x_1 - x_0}{\Delta t} = \sum Q_i(p_1), \qquad p_1 = F(y_1, x_1) / A

    The plunger has no inertia: a few grams against newtons. Air that a leaking discharge
    check let in collects under the outlet and leaves first, at the fuel's pace; it would in
    truth leave faster, so the hole in the shot is at most this long.

    Parameters
    ----------
    pump
        The pump; its area is A.
    before
        The pump at the start.
    rod
        Travel y of the rod at the end of the step [m].
    duration
        Length of the step [s].
    liquid
        What it is filled with.
    depression
        Bowl pressure above that at the pump nozzle [Pa].

    Returns
    -------
    Plunger
        The pump at the end.

    Notes
    -----
    First principles: volume in the chamber, by Euler's implicit rule. The flows fall while the
    plunger goes down, so there is one answer, however stiff a check or a stop is; a chamber
    never holds more air than volume.
    """
    area, start = effective_area(pump), before.travel

    def flows(travel: float) -> PumpFlows:
        pressure = spring_force(pump, rod, travel) / area
        return pump_flows(
            pump,
            pressure,
            depression=depression,
            density=liquid.density,
            viscosity=liquid.viscosity,
        )

    def surplus(travel: float) -> float:
        return area * (travel - start) - duration * sum(flows(travel))

    if abs(surplus(start)) <= area * STILL:
        travel = start
    else:
        travel = rising(
            surplus, start, area, 0.0, pump.stroke, name="pump plunger", tolerance=CLOSE
        )
    leaving, airy = flows(travel), before.air / (before.air + SOFT_AIR)
    if travel == start and duration * max(map(abs, leaving)) <= area * STILL:
        return before
    taken = duration * leaving.jet
    air = before.air - duration * leaving.back - airy * taken
    most = area * (pump.stroke - travel)
    return Plunger(travel, min(max(air, 0.0), most), before.given + (1.0 - airy) * taken)


def pump_run(
    pump: Pump,
    times: Sequence[float],
    throttle_angle: Callable[[float], float] | Sequence[float],
    *,
    liquid: Liquid | None = None,
    depression: float = 0.0,
    longest: float = SHORT,
) -> PumpRun:
    """Follow the pump through a movement of the throttle.

    Parameters
    ----------
    pump
        The pump, at rest and full at the first angle.
    times
        Rising times [s].
    throttle_angle
        Plate angle [rad] at each time, linear in between, or a function of time.
    liquid, depression
        As in `pump_step`.
    longest
        Longest step [s].

    Returns
    -------
    PumpRun
        Rod, plunger, air, fuel delivered and mean fuel flow since the time before, at each time.

    Raises
    ------
    RangeError
        If the times do not rise.

    Notes
    -----
    Steps of the first order; with 2 ms the shot's peak is true to 1 % and its volume to rounding.
    """

    def rod(now: float) -> float:
        if callable(throttle_angle):
            return rod_position(pump, throttle_angle(now))
        return rod_position(pump, interpolate(now, times, throttle_angle))

    inside, states, flow = liquid or Liquid(), [Plunger(rod(times[0]))], [0.0]
    for before, now in pairwise(times):
        span, state = positive("time step", now - before, "s"), states[-1]
        count = ceil(span / longest)
        for step in range(1, count + 1):
            place = rod(before + span * step / count)
            state = pump_step(pump, state, place, span / count, inside, depression=depression)
        flow.append(inside.density * (state.given - states[-1].given) / span)
        states.append(state)
    travel, air, given = map(list, zip(*states, strict=True))
    return PumpRun([rod(now) for now in times], travel, air, given, flow)
