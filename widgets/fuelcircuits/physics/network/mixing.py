"""Where air and fuel of the circuits meet: the mix, the nozzle, the idle-port chamber.

What a part passes on is the even mixture of all that enters it. That mixture need not be an
unknown: fuel enters the mix only by the low-speed jet and the chamber only by the economizer,
so the shares follow from the flows one after the other.

The nozzle passes nothing until the well stands above its lip. Its fuel S carries the air
:math:`a S / (a + S)` along, nearly all where fuel is plenty and none where the fuel stands; the
rest rises through it in bubbles of its own. Air alone enters the idle ports from bore or
manifold: the fuel there keeps to the stream.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.circuits.high_speed import GRAVITY
from fuelcircuits.physics.network.air_pass import AirPass, mouth
from fuelcircuits.physics.network.circuit_pressures import Pressures
from fuelcircuits.physics.network.fuel_jets import Jets
from fuelcircuits.physics.network.port_openings import through
from fuelcircuits.physics.network.problem import Points, Problem
from fuelcircuits.physics.network.stream import TRACE, Stream
from fuelcircuits.physics.openings.two_phase import specific_volume

__all__ = ["Met", "met", "ports"]

Floats = NDArray[np.float64]

_INWARD = np.array([1.0, 1.0, -1.0, -1.0]).reshape(4, 1, 1, 1)
"""Sign of what enters the chamber by slot above, valve, slot below and screw."""


class Met(NamedTuple):
    """What leaves mix and well [kg/s]."""

    bypass: Stream
    idle_air: Stream
    economizer: Stream
    nozzle: Stream
    carried: Floats  # air that goes with the nozzle's fuel


def met(
    problem: Problem, p: Pressures, points: Points, air: AirPass, *, jets: Jets, gas: Floats
) -> Met:
    """Return by-pass, idle air, economizer and nozzle.

    Parameters
    ----------
    problem, p, points
        The network, its pressures and points.
    air, jets
        Flows of air alone, and of the jets.
    gas
        Air that enters the well's fuel [kg/s].

    References
    ----------
    First principles: an even mixture; for what it passes, see
    `fuelcircuits.physics.network.port_openings`.
    """
    parts, weight = problem.parts, GRAVITY * points.fuel_density
    jet = jets.low_speed
    entering = np.maximum(air.bypass, 0.0) + np.maximum(air.idle_air, 0.0) + jet.total + TRACE
    mixed = (jet.fuel + TRACE) / entering
    volume = specific_volume(
        mixed, p.mix, points.temperature, points.fuel_density, points.gas_constant
    )
    surplus = np.maximum(jets.main - jet.fuel, 0.0)
    together = surplus + gas + TRACE
    carried = surplus * gas / together
    first, second = np.empty((2, *p.well.shape)), np.empty((2, *p.well.shape))
    area, share = np.empty_like(first), np.empty_like(first)
    first[0] = p.mix + GRAVITY * problem.low.fall / volume
    first[1] = np.maximum(p.well - weight * problem.high.lip, p.booster)
    second[0], second[1] = p.chamber, p.booster
    share[0] = np.where(first[0] > p.chamber, mixed, 0.0)
    share[1] = together / (together + gas)
    area[0] = parts.economizer
    area[1] = parts.nozzle * mouth(first[1] - p.booster, weight)
    total = area * through(points, first, second, share)
    fuel = share * total
    economizer, nozzle = (Stream(*each) for each in zip(total - fuel, fuel, strict=True))
    bypass, idle_air = _spilled(
        problem, p, points, air, jet=jet, entering=entering - total[0].clip(None, 0.0)
    )
    return Met(bypass, idle_air, economizer, nozzle, carried)


def _spilled(
    problem: Problem,
    p: Pressures,
    points: Points,
    air: AirPass,
    *,
    jet: Stream,
    entering: Floats,
) -> tuple[Stream, Stream]:
    """Return by-pass and idle air; where one runs backwards it spits mixture."""
    none = np.zeros_like(entering)
    if min(air.bypass.min(), air.idle_air.min()) >= 0.0:
        return Stream(air.bypass, none), Stream(air.idle_air, none)
    share = (jet.fuel + TRACE) / entering
    first = np.stack([np.broadcast_to(each, p.mix.shape) for each in (p.choke, p.horn)])
    area = np.stack(
        [np.broadcast_to(each, p.mix.shape) for each in (problem.parts.bypass, points.idle_air)]
    )
    both = np.broadcast_to(share, first.shape)
    spit = area * through(points, first, np.maximum(p.mix, first), both)
    bypass, idle_air = (
        Stream(np.maximum(one, 0.0) + (1.0 - share) * two, share * two)
        for one, two in zip((air.bypass, air.idle_air), spit, strict=True)
    )
    return bypass, idle_air


def ports(
    problem: Problem,
    p: Pressures,
    points: Points,
    *,
    alone: Floats,
    economizer: Stream,
    lift: Floats,
) -> list[Stream]:
    """Return the chamber's openings: slot above, bleed valve, slot below, screw port.

    Parameters
    ----------
    problem, p, points
        The network, its pressures and points.
    alone
        What they pass if only air passes [kg/s], (4, barrels, copies, points).
    economizer
        What the chamber gets of mixture.
    lift
        Share of the bleed valve's lift [1].
    """
    inward = np.maximum(_INWARD * alone, 0.0)
    entering = np.maximum(economizer.total, 0.0) + inward.sum(axis=0) + TRACE
    share = (np.maximum(economizer.fuel, 0.0) + TRACE) / entering
    beyond = np.empty_like(alone)
    beyond[0], beyond[1], beyond[2:] = p.throttle, p.choke, p.manifold
    areas = points.areas[-4 * problem.barrels :]
    outward = areas.reshape(4, problem.barrels, *areas.shape[1:]) * through(
        points, np.maximum(p.chamber, beyond), beyond, np.broadcast_to(share, alone.shape)
    )
    outward[1] *= lift
    fuel = -_INWARD * (share * outward)
    return [Stream(*each) for each in zip(_INWARD * (inward - outward) - fuel, fuel, strict=True)]
