"""Every flow of the network for given pressures.

Each flow is computed once and enters both its ends, so what one part loses another gains, air
and fuel apart. Air comes first, then the jets, then what they make together; each of the three
has a module of its own.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.circuits.high_speed import hole_flow
from fuelcircuits.physics.circuits.off_idle import valve_lift
from fuelcircuits.physics.network.air_pass import air_pass
from fuelcircuits.physics.network.circuit_pressures import Pressures
from fuelcircuits.physics.network.fuel_jets import fuel_jets
from fuelcircuits.physics.network.mixing import met, ports
from fuelcircuits.physics.network.problem import Points, Problem
from fuelcircuits.physics.network.stream import Stream

__all__ = ["Flows", "flows"]

Floats = NDArray[np.float64]


class Flows(NamedTuple):
    """Every flow [kg/s]; a barrel's flows are those of one barrel."""

    cleaner: Floats
    choke: Floats  # past its plate
    leak: Floats  # into the manifold
    inside_vent: Floats  # horn to bowl
    outer_vents: Floats  # all else that the bowl gains: other vents, leak, vapour
    engine: Floats  # air into the cylinders
    venturi: Floats
    throttle: Floats
    main_bleed: Floats  # horn to tube
    holes: Floats  # tube to well
    main_jet: Floats  # fuel, bowl to well
    jet_air: Floats  # air, well to bowl by a main jet whose well has run empty
    idle_jet: Stream  # well to mix
    pull_over: Floats  # air, mix to well
    bypass: Stream  # bore to mix
    idle_air: Stream  # horn to mix
    economizer: Stream  # mix to chamber
    slot_above: Stream  # bore to chamber
    valve: Stream  # bore to chamber
    slot_below: Stream  # chamber to manifold
    screw: Stream  # chamber to manifold
    nozzle: Stream  # well to booster
    carried: Floats  # air that goes with the nozzle's fuel
    bubbles: Floats  # air that rises through the nozzle on its own
    backflow: Floats  # air, booster to an empty well
    power_share: Floats  # of the main jet's flow, what the rod has let through [1]


def flows(problem: Problem, p: Pressures, points: Points) -> Flows:
    """Return every flow of the network.

    Parameters
    ----------
    problem
        The network.
    p
        Pressures [Pa].
    points
        The operating points.

    Returns
    -------
    Flows
        Shared ones of shape (copies, points), a barrel's with barrels before.

    References
    ----------
    Each opening's equation stands with it in its own module.
    """
    lift = np.asarray(valve_lift(problem.low, p.choke - p.chamber))
    air = air_pass(problem, p, points, lift)
    jets = fuel_jets(problem, p, points, air.backflow)
    density = p.tube / (points.gas_constant * points.temperature)
    holes = np.asarray(
        hole_flow(
            problem.high,
            p.tube,
            p.well,
            points.fuel_density,
            density,
            depths=problem.parts.depths,
        )
    )
    holes = problem.parts.bled * holes
    gas = holes + air.pull_over
    mix = met(problem, p, points, air, jets=jets, gas=gas)
    above, valve, below, screw = ports(
        problem, p, points, alone=air.ports, economizer=mix.economizer, lift=lift
    )
    cleaner, choke, leak, inside, *vents = air.common
    return Flows(
        cleaner=cleaner,
        choke=choke,
        leak=leak,
        inside_vent=inside,
        outer_vents=vents[0] + vents[1] + vents[2] + points.vapour,
        engine=points.demand_rate * p.manifold - points.demand_loss,
        venturi=air.venturi,
        throttle=air.throttle,
        main_bleed=air.main_bleed,
        holes=holes,
        main_jet=jets.main,
        jet_air=jets.back,
        idle_jet=jets.low_speed,
        pull_over=air.pull_over,
        bypass=mix.bypass,
        idle_air=mix.idle_air,
        economizer=mix.economizer,
        slot_above=above,
        valve=valve,
        slot_below=below,
        screw=screw,
        nozzle=mix.nozzle,
        carried=mix.carried,
        bubbles=gas - mix.carried,
        backflow=air.backflow,
        power_share=jets.power_share,
    )
