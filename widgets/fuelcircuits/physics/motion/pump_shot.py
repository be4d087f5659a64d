"""The accelerator pump in time: plunger, air under the outlet, and the shot it gives."""

from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.physics.circuits.pump import (
    Pump,
    PumpFlows,
    effective_area,
    pump_flows,
    rod_position,
    spring_force,
)
from fuelcircuits.physics.numerics.stiff import integrate_stiff

__all__ = ["PumpRun", "pump_rates", "pump_run"]

Floats = NDArray[np.float64]

TOLERANCES = (1e-8, 1e-13, 1e-13)
"""Error allowed a step in travel [m] and in volumes [m3]."""
SOFT_AIR = 5e-9
"""Air in the chamber below which the jet passes fuel again [m3], five cubic millimetres."""


class PumpRun(NamedTuple):
    """A pump followed in time; the first axis of each array runs over time."""

    rod: Floats  # m
    plunger: Floats  # m down from the top
    air: Floats  # m3 of air in the chamber
    delivered: Floats  # m3 of fuel through the jets so far
    fuel_flow: Floats  # kg/s through the jets


def pump_rates(
    pump: Pump,
    rod: ArrayLike,
    state: Floats,
    *,
    depression: ArrayLike = 0.0,
    density: ArrayLike = 745.0,
    viscosity: ArrayLike = 0.5e-3,
) -> tuple[Floats, PumpFlows]:
    r"""Return how fast the plunger moves, and the flows that let it.

    .. math:: A \frac{dx}{dt} = \sum Q_i, \qquad p - p_{bowl} = F / A

    The plunger has no inertia: a few grams against newtons. Air that a leaking discharge
    check let in collects under the outlet and leaves first, at the fuel's pace; it would in
    truth leave faster, so the hole in the shot is at most this long.

    Parameters
    ----------
    pump
        The pump.
    rod
        Travel of the rod [m].
    state
        Plunger travel [m], air in the chamber [m3], fuel delivered so far [m3].
    depression, density, viscosity
        As in `pump_flows`.

    Returns
    -------
    rates, flows
        Rate of each state, and the `PumpFlows` behind it.

    Notes
    -----
    First principles: volume in the chamber.
    """
    area = effective_area(pump)
    pressure = spring_force(pump, rod, state[0]) / area
    flows = pump_flows(pump, pressure, depression=depression, density=density, viscosity=viscosity)
    airy = np.maximum(state[1], 0.0) / (np.maximum(state[1], 0.0) + SOFT_AIR)
    travel = (flows.jet + flows.back + flows.inlet + flows.cup) / area
    rates = np.empty((3, *np.shape(travel)))
    rates[0], rates[1] = travel, -flows.back - airy * flows.jet
    rates[2] = (1 - airy) * flows.jet
    return rates, flows


def pump_run(
    pump: Pump,
    times: ArrayLike,
    throttle_angle: Callable[[float], Any] | ArrayLike,
    *,
    depression: ArrayLike = 0.0,
    density: float = 745.0,
    viscosity: float = 0.5e-3,
    coarse: float = 1.0,
) -> PumpRun:
    """Follow the pump through a movement of the throttle.

    Parameters
    ----------
    pump
        The pump, at rest and full at the first angle.
    times
        Rising times [s].
    throttle_angle
        Plate angle [rad] at each time, linear in between, or a function of time. A function
        may return an array: one run for each element.
    depression, density, viscosity
        As in `pump_flows`.
    coarse
        Factor on the error allowed a step [1]; 1000 is three times as fast and still true to
        1 % of the shot.

    Returns
    -------
    PumpRun
        Rod, plunger, air, fuel delivered and fuel flow at each time.

    Raises
    ------
    RangeError
        If the times do not rise.

    Notes
    -----
    First principles, integrated by `fuelcircuits.physics.numerics.stiff`.
    """
    when = np.asarray(times, dtype=float)
    if callable(throttle_angle):
        angle = throttle_angle
    else:
        given = np.asarray(throttle_angle, dtype=float)

        def angle(now: float) -> Any:
            return np.interp(now, when, given)

    def rates(now: float, state: Floats) -> Floats:
        return pump_rates(
            pump,
            rod_position(pump, angle(now)),
            state,
            depression=depression,
            density=density,
            viscosity=viscosity,
        )[0]

    first = np.broadcast_to(rod_position(pump, angle(when[0])), np.shape(angle(when[0])))
    start = np.stack([first, np.zeros_like(first), np.zeros_like(first)])
    states = integrate_stiff(
        rates,
        start,
        when,
        absolute=coarse * np.asarray(TOLERANCES),
        relative=coarse * 1e-6,
        name="pump plunger",
    )
    flow = np.stack([rates(now, state)[2] for now, state in zip(when, states, strict=True)])
    rod = np.stack([rod_position(pump, angle(now)) for now in when])
    return PumpRun(rod, states[:, 0], states[:, 1], states[:, 2], density * flow)
