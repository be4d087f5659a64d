"""The accelerator pump in time: plunger, air under the outlet, and the shot it gives."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from fuelcircuits.physics.circuits.pump import (
    Pump,
    PumpFlows,
    effective_area,
    pump_flows,
    rod_position,
    spring_force,
)
from fuelcircuits.physics.numerics.interpolation import interpolate
from fuelcircuits.physics.numerics.stiff import integrate_stiff

__all__ = ["PumpRun", "pump_rates", "pump_run"]

TOLERANCES = (1e-8, 1e-13, 1e-13)
"""Error allowed a step in travel [m] and in volumes [m3]."""
SOFT_AIR = 5e-9
"""Air in the chamber below which the jet passes fuel again [m3], five cubic millimetres."""


class PumpRun(NamedTuple):
    """A pump followed in time: one number for each time."""

    rod: list[float]  # m
    plunger: list[float]  # m down from the top
    air: list[float]  # m3 of air in the chamber
    delivered: list[float]  # m3 of fuel through the jets so far
    fuel_flow: list[float]  # kg/s through the jets


def pump_rates(
    pump: Pump,
    rod: float,
    state: Sequence[float],
    *,
    depression: float = 0.0,
    density: float = 745.0,
    viscosity: float = 0.5e-3,
) -> tuple[list[float], PumpFlows]:
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
    (plunger, air, _), area = state, effective_area(pump)
    pressure = spring_force(pump, rod, plunger) / area
    flows = pump_flows(pump, pressure, depression=depression, density=density, viscosity=viscosity)
    airy = max(air, 0.0) / (max(air, 0.0) + SOFT_AIR)
    return [sum(flows) / area, -flows.back - airy * flows.jet, (1 - airy) * flows.jet], flows


def pump_run(
    pump: Pump,
    times: Sequence[float],
    throttle_angle: Callable[[float], float] | Sequence[float],
    *,
    depression: float = 0.0,
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
        Plate angle [rad] at each time, linear in between, or a function of time.
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

    def rod(now: float) -> float:
        if callable(throttle_angle):
            return rod_position(pump, throttle_angle(now))
        return rod_position(pump, interpolate(now, times, throttle_angle))

    def rates(now: float, state: Sequence[float]) -> list[float]:
        return pump_rates(
            pump, rod(now), state, depression=depression, density=density, viscosity=viscosity
        )[0]

    states = integrate_stiff(
        rates,
        [rod(times[0]), 0.0, 0.0],
        times,
        absolute=[coarse * allowed for allowed in TOLERANCES],
        relative=coarse * 1e-6,
        name="pump plunger",
    )
    flow = [density * rates(now, state)[2] for now, state in zip(times, states, strict=True)]
    plunger, air, delivered = map(list, zip(*states, strict=True))
    return PumpRun([rod(now) for now in times], plunger, air, delivered, flow)
