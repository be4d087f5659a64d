"""Every flow of the network for given pressures, as one barrel has it.

Each flow is computed once and enters both its ends, so what one part loses another gains, air
and fuel apart. Air comes first, then the jets, then what they make together.
"""

from typing import Generic, NamedTuple

from fuelcircuits.physics.circuits.high_speed import hole_flow
from fuelcircuits.physics.circuits.off_idle import valve_lift
from fuelcircuits.physics.engine.back_pressure import hindered_air
from fuelcircuits.physics.engine.recirculation import crowded_out, recirculated
from fuelcircuits.physics.network.fuel_jets import fuel_jets
from fuelcircuits.physics.network.mixing import from_mix, from_well, ports
from fuelcircuits.physics.network.openings import air, mouth
from fuelcircuits.physics.network.pressures import Pressures
from fuelcircuits.physics.network.problem import Barrel, Point, Problem
from fuelcircuits.physics.network.stream import Each, Stream

__all__ = ["Flows", "Shared", "barrel_flows", "engine_air", "shared_flows"]


class Shared(NamedTuple):
    """Flows that are there once [kg/s]."""

    cleaner: float
    choke: float  # past its plate
    leak: float  # into the manifold
    inside_vent: float  # horn to bowl
    outer_vents: float  # all else that the bowl gains: other vents, leak, vapour
    engine: float  # air into the cylinders, and into a manifold that fills


class Flows(NamedTuple, Generic[Each]):
    """Every flow [kg/s]: those of `Shared`, then those of one barrel."""

    cleaner: float
    choke: float
    leak: float
    inside_vent: float
    outer_vents: float
    engine: float
    venturi: Each
    throttle: Each
    main_bleed: Each  # horn to tube
    holes: Each  # tube to well
    main_jet: Each  # fuel, bowl to well
    jet_air: Each  # air, well to bowl by a main jet whose well has run empty
    idle_jet: Stream[Each]  # well to mix
    pull_over: Each  # air, mix to well
    bypass: Stream[Each]  # bore to mix
    idle_air: Stream[Each]  # horn to mix
    economizer: Stream[Each]  # mix to chamber
    slot_above: Stream[Each]  # bore to chamber
    valve: Stream[Each]  # bore to chamber
    slot_below: Stream[Each]  # chamber to manifold
    screw: Stream[Each]  # chamber to manifold
    nozzle: Stream[Each]  # well to booster
    carried: Each  # air that goes with the nozzle's fuel
    bubbles: Each  # air that rises through the nozzle on its own
    backflow: Each  # air, booster to an empty well
    power_share: Each  # of the main jet's flow, what the rod has let through [1]


def shared_flows(of: Problem, at: Point, unknowns: list[float]) -> Shared:
    """Return the flows that are there once.

    Parameters
    ----------
    of, at
        The network and its operating point.
    unknowns
        Pressures [Pa] as in `fuelcircuits.physics.network.pressures`.
    """
    horn, choke, manifold, bowl = unknowns[:4]
    outside, vents = of.pressure, at.vents
    return Shared(
        cleaner=air(of, of.cleaner, outside, horn),
        choke=air(of, of.choke, horn, choke),
        leak=air(of, of.leak, outside, manifold),
        inside_vent=air(of, vents.inside, horn, bowl),
        outer_vents=air(of, vents.outside + vents.gasket, outside, bowl)
        + air(of, vents.canister, of.canister, bowl)
        + of.vapour,
        engine=engine_air(of, at, manifold) + at.fill_rate * manifold - at.fill_loss,
    )


def engine_air(of: Problem, at: Point, manifold: float) -> float:
    """Return the air into the cylinders.

    Parameters
    ----------
    of, at
        The network and its operating point.
    manifold
        Absolute pressure in the manifold [Pa].

    Returns
    -------
    Air [kg/s]: what `fuelcircuits.physics.engine.engine.air_demand` asks for, less what a
    blocked exhaust holds back and what recirculated exhaust takes the place of.

    References
    ----------
    `fuelcircuits.physics.engine.back_pressure` and `fuelcircuits.physics.engine.recirculation`.
    """
    free = at.demand_rate * manifold - at.demand_loss
    if not (at.demand_held or of.engine.recirculation):
        return free
    back = recirculated(of.engine, manifold, of.pressure)
    return hindered_air(free, at.demand_held) - crowded_out(back, of.charge_temperature)


def barrel_flows(
    of: Problem, at: Point, shared: Shared, p: Pressures[float], number: int
) -> Flows[float]:
    """Return every flow of one barrel.

    Standing columns of fuel hold: air runs back through the low-speed jet only when it has
    pushed the fuel out of the foot of its tube, and into the well from the booster only when
    the well is empty. Each of these mouths opens little by little while the fuel's surface
    crosses it.

    Parameters
    ----------
    of, at
        The network and its operating point.
    shared, p
        Flows that are there once, and the pressures as the barrel meets them.
    number
        Which of the barrels told apart.

    References
    ----------
    Each opening's equation stands with it in its own module.
    """
    barrel = of.barrels[number]
    lift = valve_lift(barrel.low, p.choke - p.chamber)
    foot = min(p.well + of.weight * barrel.low.tube_depth, p.mix)
    bottom = min(p.well + of.weight * barrel.high.well_depth, p.booster)
    pull_over = mouth(of, p.mix - foot) * air(of, barrel.tube, p.mix, foot)
    backflow = mouth(of, p.booster - bottom) * air(of, barrel.nozzle, p.booster, bottom)
    main, back, lifted, power_share = fuel_jets(of, barrel, p, backflow)
    holes = _holes(of, barrel, p)
    gas = holes + pull_over
    bypass, idle_air, economizer = from_mix(of, barrel, p, lifted)
    nozzle, carried = from_well(of, barrel, p, max(main - lifted.fuel, 0.0), gas)
    above, valve, below, screw = ports(of, barrel, p, at.slots[number], lift=lift, fed=economizer)
    main_venturi = air(of, barrel.venturi, p.choke, p.venturi)
    throttle = air(of, at.throttles[number], p.throttle, p.manifold)
    main_bleed = air(of, barrel.bleed, p.horn, p.tube)
    well = holes, main, back, lifted, pull_over
    chamber = bypass, idle_air, economizer, above, valve, below, screw
    leaving = nozzle, carried, gas - carried, backflow, power_share
    return Flows(*shared, main_venturi, throttle, main_bleed, *well, *chamber, *leaving)


def _holes(of: Problem, barrel: Barrel, p: Pressures[float]) -> float:
    """Return the air that enters the fuel by the well's bleed holes, if it has a bleed."""
    if not barrel.bleed:
        return 0.0
    dense = p.tube / of.gas
    return hole_flow(barrel.high, p.tube, p.well, of.density, dense, depths=barrel.depths)
