"""The bowl's level in time: what comes in, what the engine takes, and what runs over."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import RangeError, between
from fuelcircuits.physics.circuits.float_balance import WARM, angle_at, at_level
from fuelcircuits.physics.circuits.float_lever import (
    FloatBowl,
    FloatState,
    flow_per_area,
    open_area_at,
    supply_to,
)
from fuelcircuits.physics.matter.fuel import Fuel, density
from fuelcircuits.physics.numerics.ode import integrate

__all__ = ["Filling", "fill"]

Floats = NDArray[np.float64]

COVER = 1e-3
"""Depth of fuel over the floor [m] below which the outlet begins to draw air, and depth below
the brim from which fuel begins to leave by the vent: each takes over smoothly within it."""


class Filling(NamedTuple):
    """A run of the bowl; the first axis of every array is time."""

    times: Floats  # s
    state: FloatState  # where the float rides at each time
    inflow: Floats  # kg, come in since the start
    delivered: Floats  # kg, taken by the engine since the start
    spilled: Floats  # kg, run over since the start
    stored: Floats  # kg, gained by the bowl since the start: area times rise times density


def fill(
    bowl: FloatBowl,
    fuel: Fuel,
    demand: ArrayLike,
    level: ArrayLike,
    times: ArrayLike,
    *,
    supply_gauge: ArrayLike | None = None,
    temperature: float = WARM,
    bowl_gauge: ArrayLike = 0.0,
    drawn: ArrayLike = 0.0,
    grid: int = 0,
    relative: float = 1e-6,
) -> Filling:
    r"""Return the bowl's level in time.

    .. math:: \rho A \frac{dh}{dt} = \dot m_{in}(h) - \dot m_{out} - \dot m_{over}

    The float is light and rides in balance with the level at every instant. What goes out is
    the demand while fuel covers the outlet, and fades over the last millimetre above the floor;
    what runs over is the surplus, and takes over within the last millimetre below the brim.

    Parameters
    ----------
    bowl, fuel
        The rig's section, and what is in it.
    demand
        Fuel asked for [kg/s]: one number, or one for each of `times` with straight lines between.
    level
        Level above the bowl's floor at the first time [m]; an array follows many runs at once.
    times
        Rising times [s] at which the answer is wanted.
    supply_gauge
        Pump pressure at the inlet [Pa], gauge: one number, one for each of `times`, or the card's.
    temperature
        Temperature of the fuel [K].
    bowl_gauge
        Pressure in the bowl [Pa], gauge, constant.
    drawn
        Fuel taken since the start by other ways [kg], such as the pump's chamber or vapour: one
        for each of `times` with straight lines between. It may fall again; it is neither
        delivered nor spilled.
    grid
        Levels between floor and brim at which the needle's flow is worked out beforehand, to be
        interpolated in time; 0 works it out anew at every step. A long run of one bowl at one
        supply pressure is thirty times faster so; with 1000 the level is off by less than 0.01 um.
    relative
        Error allowed each step as a share of the level [1]; the balance of what came in and went
        out closes whatever it is.

    Returns
    -------
    Filling
        Level and float in time, and what has come in, gone out and run over.

    Raises
    ------
    RangeError
        If an argument is outside its range, or a course has not one value for each time.

    Notes
    -----
    First principles, integrated by `ode.integrate`. The free surface `bowl_area` is constant:
    exact while the float follows the level, a few per cent out while it rests on seat or stop.
    """
    when = np.asarray(times, dtype=float)
    asked = _course("demand", between("demand", demand, 0, np.inf, "kg/s"), when)
    gauge = _course("supply", bowl.fuel_pressure if supply_gauge is None else supply_gauge, when)
    start = np.asarray(between("level above floor", level, 0, np.max(bowl.depth), "m"), dtype=float)
    mass = np.asarray(bowl.bowl_area * density(fuel, temperature))
    away = _course("drawn", drawn, when)

    def passed(now: float, height: Floats) -> Floats:
        supply = supply_to(bowl, fuel, np.interp(now, when, gauge), temperature, bowl_gauge)
        return open_area_at(bowl, angle_at(bowl, supply, height)) * flow_per_area(bowl, supply)

    levels = np.linspace(0, bowl.depth, grid)
    curve = passed(when[0], levels) if grid else levels
    if grid and np.ptp(gauge) > 0:
        raise RangeError(f"supply must be constant with a grid, got {gauge}")

    def rate(now: float, state: Floats) -> Floats:
        height = np.clip(state[0] - np.interp(now, when, away) / mass, 0, bowl.depth)
        inflow = np.interp(height, levels, curve) if grid else passed(now, height)
        wanted = np.interp(now, when, asked)
        delivered, spilled = _outflows(bowl, height, inflow, wanted)
        rise = (inflow - delivered - spilled) / mass
        return np.array(np.broadcast_arrays(rise, inflow, delivered, spilled))

    shape = np.broadcast_shapes(start.shape, mass.shape)
    first = np.stack([np.broadcast_to(start, shape), *np.zeros((3, *shape))])
    run = integrate(
        rate, first, when, relative=relative, absolute=1e-3 * relative, name="bowl level"
    )
    column = (len(when), *[1] * len(shape))
    followed = run[:, 0] - away.reshape(column) / mass
    heights = np.clip(followed, 0, bowl.depth)
    state = at_level(
        bowl, fuel, heights, gauge.reshape(column), temperature=temperature, bowl_gauge=bowl_gauge
    )
    return Filling(when, state, run[:, 1], run[:, 2], run[:, 3], mass * (followed - start))


def _course(name: str, values: ArrayLike, times: Floats) -> Floats:
    """Return one value for each time from one number or a course."""
    course = np.asarray(values, dtype=float)
    if course.shape not in ((), times.shape):
        raise RangeError(f"{name} must have one value for each time, got shape {course.shape}")
    return np.broadcast_to(course, times.shape)


def _outflows(
    bowl: FloatBowl, level: Floats, inflow: Floats, wanted: float
) -> tuple[Floats, Floats]:
    """Return what the engine gets and what runs over [kg/s]."""
    covered = np.minimum(level / COVER, 1)
    delivered = wanted * covered
    full = np.clip(1 - (bowl.depth - level) / COVER, 0, 1)
    return np.asarray(delivered), np.asarray(full * np.maximum(inflow - delivered, 0))
