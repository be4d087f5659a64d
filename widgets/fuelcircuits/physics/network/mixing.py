"""Where air and fuel of the circuits meet: the mix, the nozzle, the idle-port chamber.

What a part passes on is the even mixture of all that enters it. That mixture need not be an
unknown: fuel enters the mix only by the low-speed jet and the chamber only by the economizer,
so the shares follow from the flows one after the other.

The nozzle passes nothing until the well stands above its lip. Its fuel S carries the air
:math:`a S / (a + S)` along, nearly all where fuel is plenty and none where the fuel stands; the
rest rises through it in bubbles of its own. Air alone enters the idle ports from bore or
manifold: the fuel there keeps to the stream.
"""

from fuelcircuits.physics.circuits.high_speed import GRAVITY
from fuelcircuits.physics.circuits.off_idle import SlotAreas
from fuelcircuits.physics.network.openings import drawn, mixture, mouth, volume
from fuelcircuits.physics.network.pressures import Pressures
from fuelcircuits.physics.network.problem import Barrel, Problem
from fuelcircuits.physics.network.stream import TRACE, Stream

__all__ = ["from_mix", "from_well", "ports"]


def from_mix(
    of: Problem, barrel: Barrel, p: Pressures[float], jet: Stream[float]
) -> tuple[Stream[float], Stream[float], Stream[float]]:
    """Return by-pass, idle air and economizer; a bleed that runs backwards spits mixture.

    Parameters
    ----------
    of, barrel, p
        The network, the barrel, and its pressures.
    jet
        What the low-speed jet brings.

    References
    ----------
    First principles: an even mixture; for what it passes, see
    `fuelcircuits.physics.network.openings`.
    """
    bypass = drawn(of, barrel.bypass, p.choke, p.mix)
    idle_air = drawn(of, barrel.idle_air, p.horn, p.mix)
    entering = bypass + idle_air + jet.air + jet.fuel + TRACE
    share = (jet.fuel + TRACE) / entering
    above = p.mix + GRAVITY * barrel.low.fall / volume(of, share, p.mix)
    falling = share if above > p.chamber else 0.0
    economizer = mixture(of, barrel.economizer, falling, above, p.chamber)
    share = (jet.fuel + TRACE) / (entering - min(economizer.air + economizer.fuel, 0.0))
    return (
        Stream(bypass, 0.0) if bypass else mixture(of, barrel.bypass, share, p.choke, p.mix),
        Stream(idle_air, 0.0) if idle_air else mixture(of, barrel.idle_air, share, p.horn, p.mix),
        economizer,
    )


def from_well(
    of: Problem, barrel: Barrel, p: Pressures[float], fuel: float, gas: float
) -> tuple[Stream[float], float]:
    """Return what the nozzle passes, and the air that its fuel carries along.

    Parameters
    ----------
    of, barrel, p
        The network, the barrel, and its pressures.
    fuel, gas
        Fuel that the well has for the nozzle, and air that enters that [kg/s].
    """
    together = fuel + gas + TRACE
    lip = max(p.well - of.weight * barrel.high.lip, p.booster)
    area = barrel.nozzle * mouth(of, lip - p.booster)
    share = together / (together + gas)
    return mixture(of, area, share, lip, p.booster), fuel * gas / together


def ports(
    of: Problem,
    barrel: Barrel,
    p: Pressures[float],
    slot: SlotAreas,
    *,
    lift: float,
    fed: Stream[float],
) -> tuple[Stream[float], ...]:
    """Return the chamber's openings: slot above, bleed valve, slot below, screw port.

    Parameters
    ----------
    of, barrel, p, slot
        The network, the barrel, its pressures, and its slot.
    lift
        Share of the bleed valve's lift [1].
    fed
        What the chamber gets from the economizer.
    """
    outer, inner = slot.above, barrel.valve * lift
    lower = slot.below + barrel.port
    above = drawn(of, outer, p.throttle, p.chamber)
    valve = drawn(of, inner, p.choke, p.chamber)
    below = drawn(of, lower, p.manifold, p.chamber)
    entering = max(fed.air + fed.fuel, 0.0) + above + valve + below + TRACE
    share = (max(fed.fuel, 0.0) + TRACE) / entering
    under = Stream(below, 0.0) if below else mixture(of, lower, share, p.manifold, p.chamber)
    each = -1.0 / lower if lower else 0.0
    by_slot, by_screw = each * slot.below, each * barrel.port
    return (
        Stream(above, 0.0) if above else mixture(of, outer, share, p.throttle, p.chamber),
        Stream(valve, 0.0) if valve else mixture(of, inner, share, p.choke, p.chamber),
        Stream(by_slot * under.air, by_slot * under.fuel),
        Stream(by_screw * under.air, by_screw * under.fuel),
    )
