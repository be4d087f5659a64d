"""The bowl's level in time: what comes in, what the engine takes, and what runs over."""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from functools import cache, lru_cache
from math import inf
from typing import NamedTuple

from fuelcircuits.errors import RangeError, between
from fuelcircuits.physics.circuits.float_balance import WARM, angle_at
from fuelcircuits.physics.circuits.float_lever import (
    FloatBowl,
    Supply,
    flow_per_area,
    open_area_at,
    supply_to,
)
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.numerics.course import Course, course
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace
from fuelcircuits.physics.numerics.ode import integrate

__all__ = ["COVER", "Filling", "fill", "inlet_curve"]

COVER = 1e-3
"""Depth of fuel over the floor [m] below which the outlet begins to draw air, and depth below
the brim from which fuel begins to leave by the vent: each takes over smoothly within it."""


class Filling(NamedTuple):
    """A run of the bowl: one number for each time."""

    times: Sequence[float]  # s
    level: list[float]  # m above the floor
    inflow: list[float]  # kg, come in since the start
    delivered: list[float]  # kg, taken by the engine since the start
    spilled: list[float]  # kg, run over since the start
    stored: list[float]  # kg, gained by the bowl since the start: area times rise times density


def fill(
    bowl: FloatBowl,
    fuel: Fuel,
    demand: Course,
    level: float,
    times: Sequence[float],
    *,
    supply_gauge: Course | None = None,
    temperature: float = WARM,
    bowl_gauge: float = 0.0,
    drawn: Course = 0.0,
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
        Level above the bowl's floor at the first time [m].
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
        Level in time, and what has come in, gone out and run over; `float_balance.at_level`
        tells where the float rides.

    Raises
    ------
    RangeError
        If an argument is outside its range, or a course has not one value for each time.

    Notes
    -----
    First principles, integrated by `ode.integrate`. The free surface `bowl_area` is constant:
    exact while the float follows the level, a few per cent out while it rests on seat or stop.
    """
    between("level above floor", level, 0, bowl.depth, "m")
    asked = [between("demand", each, 0, inf, "kg/s") for each in course("demand", demand, times)]
    given = bowl.fuel_pressure if supply_gauge is None else supply_gauge
    gauges, away = course("supply", given, times), course("drawn", drawn, times)
    if grid and max(gauges) > min(gauges):
        raise RangeError(f"supply must be constant with a grid, got {given}")
    supplies = [supply_to(bowl, fuel, gauge, temperature, bowl_gauge) for gauge in gauges]
    density, drops = supplies[0].density, [supply.pressure_drop for supply in supplies]
    curve = inlet_curve(bowl, supplies[0], grid) if grid else None
    case = _Case(bowl, times, density, drops, asked, away, curve)
    states = integrate(
        lambda now, state: _rates(case, now, state[0]),
        [level, 0.0, 0.0, 0.0],
        times,
        relative=relative,
        absolute=1e-3 * relative,
        name="bowl level",
    )
    followed, inflow, delivered, spilled = map(list, zip(*states, strict=True))
    levels = [_standing(case, now, each) for now, each in zip(times, followed, strict=True)]
    stored = [case.mass * (each - level) - out for each, out in zip(followed, away, strict=True)]
    return Filling(times, levels, inflow, delivered, spilled, stored)


class _Case(NamedTuple):
    """What a level is followed through."""

    bowl: FloatBowl
    times: Sequence[float]  # s
    density: float  # kg/m3
    drops: list[float]  # Pa across the inlet, at each time
    asked: list[float]  # kg/s, at each time
    away: list[float]  # kg drawn by other ways, at each time
    curve: Callable[[float], float] | None  # the inlet's flow [kg/s] at a level [m]

    @property
    def mass(self) -> float:
        """Fuel for each metre of level [kg/m]."""
        return self.bowl.bowl_area * self.density


def _rates(case: _Case, now: float, followed: float) -> tuple[float, float, float, float]:
    """Return the rise of what is followed [m/s], and the flows in, out and over [kg/s]."""
    level = _standing(case, now, followed)
    if case.curve is None:
        supply = Supply(case.density, interpolate(now, case.times, case.drops))
        inflow = _inflow(case.bowl, supply, level)
    else:
        inflow = case.curve(level)
    wanted = interpolate(now, case.times, case.asked)
    delivered, spilled = _outflows(case.bowl, level, inflow, wanted)
    return (inflow - delivered - spilled) / case.mass, inflow, delivered, spilled


def _standing(case: _Case, now: float, followed: float) -> float:
    """Return the level [m]: what is followed, less what other ways have drawn."""
    level = followed - interpolate(now, case.times, case.away) / case.mass
    return min(max(level, 0.0), case.bowl.depth)


def _inflow(bowl: FloatBowl, supply: Supply, level: float) -> float:
    """Return what the inlet passes with the float in balance with a level [kg/s]."""
    return open_area_at(bowl, angle_at(bowl, supply, level)) * flow_per_area(bowl, supply)


@lru_cache(maxsize=16)
def inlet_curve(bowl: FloatBowl, supply: Supply, count: int) -> Callable[[float], float]:
    """Return what gives the inlet's flow [kg/s] at any level above the floor [m].

    Parameters
    ----------
    bowl, supply
        The float bowl, and the fuel before its inlet.
    count
        Levels from floor to brim between which the flow goes straight [1]; each is worked out
        once, when it is first asked for.
    """
    levels = linspace(0.0, bowl.depth, count)

    @cache
    def at(place: int) -> float:
        return _inflow(bowl, supply, levels[place])

    def flow(level: float) -> float:
        place = bisect_right(levels, level, 1, count - 1)
        return interpolate(level, levels[place - 1 : place + 1], (at(place - 1), at(place)))

    return flow


def _outflows(bowl: FloatBowl, level: float, inflow: float, wanted: float) -> tuple[float, float]:
    """Return what the engine gets and what runs over [kg/s]."""
    delivered = wanted * min(level / COVER, 1.0)
    full = min(max(1.0 - (bowl.depth - level) / COVER, 0.0), 1.0)
    return delivered, full * max(inflow - delivered, 0.0)
