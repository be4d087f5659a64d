"""Where air and fuel of the circuits meet: the mix, the nozzle, the idle-port chamber.

What a part passes on is the even mixture of all that enters it. That mixture need not be an
unknown: fuel enters the mix only by the low-speed jet and the chamber only by the economizer,
so the shares follow from the flows one after the other.

The nozzle passes nothing until the well stands above its lip. Its fuel S carries the air
:math:`a S / (a + S)` along, nearly all where fuel is plenty and none where the fuel stands; the
rest rises through it in bubbles of its own. Air alone enters the idle ports from bore or
manifold: the fuel there keeps to the stream.
"""

from fuelcircuits.physics.circuits.off_idle import SlotAreas, valve_lift
from fuelcircuits.physics.network.openings import drawn, mixture, mouth, volume
from fuelcircuits.physics.network.pressures import Met
from fuelcircuits.physics.network.problem import Barrel, Problem
from fuelcircuits.physics.network.stream import TRACE, Pair

__all__ = ["from_mix", "from_well", "ports"]


def from_mix(of: Problem, barrel: Barrel, met: Met, jet: Pair) -> tuple[Pair, Pair, Pair]:
    """Return by-pass, idle air and economizer; a bleed that runs backwards spits mixture.

    Parameters
    ----------
    of, barrel, met
        The network, the barrel, and the pressures that it meets.
    jet
        What the low-speed jet brings.

    References
    ----------
    First principles: an even mixture; for what it passes, see
    `fuelcircuits.physics.network.openings`.
    """
    horn, choke, _, _, _, _, _, mix, chamber, _, _ = met
    lifted, fuel = jet
    bypass = drawn(of, barrel.bypass, choke, mix)
    idle_air = drawn(of, barrel.idle_air, horn, mix)
    fuel += TRACE
    entering = bypass + idle_air + lifted + fuel
    share = fuel / entering
    above = mix + barrel.fall / volume(of, share, mix)
    economizer = mixture(of, barrel.economizer, share if above > chamber else 0.0, above, chamber)
    if bypass and idle_air:
        return (bypass, 0.0), (idle_air, 0.0), economizer
    share = fuel / (entering - min(economizer[0] + economizer[1], 0.0))
    return (
        (bypass, 0.0) if bypass else mixture(of, barrel.bypass, share, choke, mix),
        (idle_air, 0.0) if idle_air else mixture(of, barrel.idle_air, share, horn, mix),
        economizer,
    )


def from_well(of: Problem, barrel: Barrel, met: Met, fuel: float, gas: float) -> tuple[Pair, float]:
    """Return what the nozzle passes, and the air that its fuel carries along.

    Parameters
    ----------
    of, barrel, met
        The network, the barrel, and the pressures that it meets.
    fuel, gas
        Fuel that the well has for the nozzle, and air that enters that [kg/s].
    """
    _, _, _, _, _, well, _, _, _, booster, _ = met
    together, lip = fuel + gas + TRACE, well - of.weight * barrel.lip
    carried = fuel * gas / together
    if lip <= booster:
        return (0.0, 0.0), carried
    area = barrel.nozzle * mouth(of, lip - booster)
    return mixture(of, area, together / (together + gas), lip, booster), carried


def ports(
    of: Problem, barrel: Barrel, met: Met, slot: SlotAreas, fed: Pair
) -> tuple[Pair, Pair, Pair, Pair]:
    """Return the chamber's openings: slot above, bleed valve, slot below, screw port.

    The first two count positive into the chamber, the last two, which share their ends, out.

    Parameters
    ----------
    of, barrel, met, slot
        The network, the barrel, the pressures that it meets, and its slot.
    fed
        What the chamber gets from the economizer.
    """
    _, choke, manifold, _, _, _, _, _, chamber, _, throttle = met
    under, outer = slot
    lower, inner = under + barrel.port, barrel.valve
    if inner:
        inner *= valve_lift(barrel.low, choke - chamber)
    above = drawn(of, outer, throttle, chamber)
    valve = drawn(of, inner, choke, chamber)
    below = drawn(of, lower, manifold, chamber)
    air, fuel = fed
    gained = air + fuel
    fuel = fuel + TRACE if fuel > 0.0 else TRACE
    share = fuel / ((gained if gained > 0.0 else 0.0) + above + valve + below + TRACE)
    air, fuel = (below, 0.0) if below else mixture(of, lower, share, manifold, chamber)
    each = -1.0 / lower if lower else 0.0
    by_slot, by_screw = each * under, each * barrel.port
    return (
        (above, 0.0) if above else mixture(of, outer, share, throttle, chamber),
        (valve, 0.0) if valve else mixture(of, inner, share, choke, chamber),
        (by_slot * air, by_slot * fuel),
        (by_screw * air, by_screw * fuel),
    )
