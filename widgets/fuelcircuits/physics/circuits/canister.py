"""The charcoal canister: it keeps the bowl's vapour until the engine can draw it off."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp
from typing import NamedTuple

from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.numerics.course import Course, course
from fuelcircuits.physics.numerics.interpolation import interpolate
from fuelcircuits.physics.numerics.ode import integrate
from fuelcircuits.physics.openings.gas_flow import mass_flow
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = ["Canister", "Sorption", "canister_run", "purge_air", "sorption"]

DISCHARGE = 0.65
"""Discharge coefficient of the purge orifice [1] (sharp-edged orifice; Heywood app. C)."""


@dataclass(frozen=True)
class Canister(Section):
    """A bed of charcoal with a purge line to the manifold (numbers invented for each rig)."""

    capacity: float = entry("kg", 5e-3, 0.5, "fuel vapour that a full bed holds")
    transfer_units: float = entry(
        "1", 1, 100, "length of the bed over the length in which vapour falls to 1/e", 20.0
    )
    purge_bore: float = entry("m", 0, 5e-3, "bore of the purge orifice", 1.2e-3)
    purge_ratio: float = entry(
        "1", 0.01, 2, "vapour that a unit mass of air takes from a full bed", 0.3
    )


class Sorption(NamedTuple):
    """Where the vapour goes; every field is a flow [kg/s]."""

    captured: float  # from the bowl into the bed
    lost: float  # from the bowl through the bed to the outside
    purged: float  # from the bed to the manifold


def sorption(canister: Canister, load: float, vapour: float, air: float = 0.0) -> Sorption:
    r"""Return what the bed takes up, lets through and gives back.

    .. math::
        \dot m_{captured} = \dot m_v \left(1 - e^{-N (1 - L/C)}\right), \qquad
        \dot m_{purged} = k \, \dot m_{air} \frac{L}{C}

    An empty bed lets e\ :sup:`-N` of the vapour through. As it fills from the bowl's side
    the clean part gets shorter, and at capacity everything breaks through.

    Parameters
    ----------
    canister
        Capacity C [kg], transfer units N [1], purge ratio k [1].
    load
        Fuel in the bed L [kg], 0 to C; taken as full above.
    vapour
        Vapour that comes from the bowl [kg/s].
    air
        Air drawn through the bed to the manifold [kg/s].

    Returns
    -------
    Sorption
        Flows [kg/s]; captured plus lost is the vapour that came.

    Notes
    -----
    First principles for a bed with a front of constant length; that the purged air leaves
    in proportion to the load is common practice, no source.
    """
    share = min(max(load / canister.capacity, 0.0), 1.0)
    passed = vapour * exp(-canister.transfer_units * (1 - share))
    return Sorption(vapour - passed, passed, canister.purge_ratio * air * share)


def purge_air(
    canister: Canister,
    manifold_pressure: float,
    ambient_pressure: float,
    temperature: float = 300.0,
    *,
    opened: float = 1.0,
) -> float:
    """Return the air that the manifold draws through the canister.

    Parameters
    ----------
    canister
        Bore of the purge orifice.
    manifold_pressure, ambient_pressure
        Absolute pressures [Pa].
    temperature
        Temperature of the air [K].
    opened
        Share of the orifice that a purge valve leaves open [1].

    Returns
    -------
    Air flow [kg/s], never backwards: a check keeps manifold gas out of the bed.

    Raises
    ------
    RangeError
        If a pressure or the temperature is not positive.

    Notes
    -----
    First principles: isentropic flow with choking.
    """
    area = bore_area(canister.purge_bore) * opened
    return max(mass_flow(area, ambient_pressure, manifold_pressure, temperature, DISCHARGE), 0.0)


def canister_run(
    canister: Canister,
    times: Sequence[float],
    vapour: Course,
    air: Course,
    *,
    load: float = 0.0,
) -> list[list[float]]:
    """Follow the bed through flows that are given at times and linear in between.

    Parameters
    ----------
    canister
        The bed.
    times
        Rising times [s].
    vapour, air
        Vapour that comes and air drawn [kg/s]: one number, or one for each time.
    load
        Fuel in the bed at the start [kg].

    Returns
    -------
    One row a time: fuel in the bed, lost so far, purged so far [kg]. At every time these add up
    to the first load and the vapour that came.

    Raises
    ------
    RangeError
        If the times do not rise, or a course has not one value for each time.

    Notes
    -----
    First principles: mass in the bed, with the flows of `sorption`.
    """
    came, drawn = course("vapour", vapour, times), course("air", air, times)

    def rate(now: float, state: list[float]) -> list[float]:
        arriving, purging = interpolate(now, times, came), interpolate(now, times, drawn)
        flow = sorption(canister, state[0], arriving, purging)
        return [flow.captured - flow.purged, flow.lost, flow.purged]

    return integrate(rate, [load, 0.0, 0.0], times, name="canister load")
