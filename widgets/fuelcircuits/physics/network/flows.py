"""Every flow of the network for given pressures, as one barrel has it.

Each flow is computed once and enters both its ends, so what one part loses another gains, air
and fuel apart. Air comes first, then the jets, then what they make together.
"""

from typing import Generic, NamedTuple

from fuelcircuits.physics.circuits.high_speed import hole_flow
from fuelcircuits.physics.engine.back_pressure import hindered_air
from fuelcircuits.physics.engine.recirculation import crowded_out, recirculated
from fuelcircuits.physics.network.fuel_jets import fuel_jets
from fuelcircuits.physics.network.mixing import from_mix, from_well, ports
from fuelcircuits.physics.network.openings import uncovered
from fuelcircuits.physics.network.pressures import Met
from fuelcircuits.physics.network.problem import Barrel, Point, Problem
from fuelcircuits.physics.network.stream import Each, Pair, Stream
from fuelcircuits.physics.openings.gas_flow import flow_through

__all__ = ["Flows", "Own", "Shared", "barrel_flows", "engine_air", "shared_flows"]


class Shared(NamedTuple):
    """Flows that are there once [kg/s]."""

    cleaner: float
    choke: float  # past its plate
    leak: float  # into the manifold
    inside_vent: float  # horn to bowl
    outer_vents: float  # all else that the bowl gains: other vents, leak, vapour
    engine: float  # air into the cylinders, and into a manifold that fills


Own = tuple[
    tuple[float, float, float],
    tuple[float, float, float, Pair, float],
    tuple[Pair, Pair, Pair],
    tuple[Pair, Pair, Pair, Pair],
    tuple[Pair, float, float, float, float],
]
"""Flows of one barrel in the order of `Flows`: main air, well, mix, chamber, nozzle."""


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
        flow_through(of.cleaner, outside, horn, of.gas),
        flow_through(of.choke, horn, choke, of.gas),
        flow_through(of.leak, outside, manifold, of.gas),
        flow_through(vents.inside, horn, bowl, of.gas),
        flow_through(vents.outside + vents.gasket, outside, bowl, of.gas)
        + flow_through(vents.canister, of.canister, bowl, of.gas)
        + of.vapour,
        engine_air(of, at, manifold) + at.fill_rate * manifold - at.fill_loss,
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


def barrel_flows(of: Problem, at: Point, met: Met, number: int) -> Own:
    """Return every flow of one barrel, in the order of `Flows`.

    Standing columns of fuel hold: air runs back through the low-speed jet only when it has
    pushed the fuel out of the foot of its tube, and into the well from the booster only when
    the well is empty. Each of these mouths opens little by little while the fuel's surface
    crosses it.

    Parameters
    ----------
    of, at
        The network and its operating point.
    met
        The pressures as the barrel meets them.
    number
        Which of the barrels told apart.

    References
    ----------
    Each opening's equation stands with it in its own module.
    """
    barrel = of.barrels[number]
    horn, choke, manifold, _, venturi, well, tube, mix, _, booster, throttle = met
    pull_over = uncovered(of, barrel.tube, mix, well + of.weight * barrel.foot)
    backflow = uncovered(of, barrel.nozzle, booster, well + of.weight * barrel.floor)
    main, back, jet, power_share = fuel_jets(of, barrel, met, backflow)
    holes = _holes(of, barrel, tube, well)
    mixed = from_mix(of, barrel, met, jet)
    rest, gas = main - jet[1], holes + pull_over
    nozzle, carried = from_well(of, barrel, met, rest if rest > 0.0 else 0.0, gas)
    passed = ports(of, barrel, met, at.slots[number], mixed[-1])
    return (
        (
            flow_through(barrel.venturi, choke, venturi, of.gas),
            flow_through(at.throttles[number], throttle, manifold, of.gas),
            flow_through(barrel.bleed, horn, tube, of.gas),
        ),
        (holes, main, back, jet, pull_over),
        mixed,
        passed,
        (nozzle, carried, gas - carried, backflow, power_share),
    )


def _holes(of: Problem, barrel: Barrel, tube: float, well: float) -> float:
    """Return the air that enters the fuel by the well's bleed holes, if it has a bleed."""
    if not barrel.bleed:
        return 0.0
    return hole_flow(barrel.high, tube, well, of.density, tube / of.gas, depths=barrel.depths)
