"""The balance of the whole carburettor and its engine: unknowns and residuals.

Unknowns, all absolute pressures [Pa]. Shared by the barrels: horn, choke (below its plate),
manifold, bowl. One for each barrel: venturi (main throat), well (at the height of the set fuel
level), tube (air behind the well's bleed holes), mix (where fuel and air of the low-speed
circuit meet), chamber (behind the idle ports). Where an angle or a speed is asked for, that is
the last unknown, and what it is found for the last equation.

Residuals, mass in less mass out of each part [kg/s]:

    horn      cleaner - choke plate - idle air - main bleeds - inside vent
    choke     choke plate - venturis - by-passes - bleed valves
    manifold  throttles + idle ports + leak - engine
    bowl      vents and leaks of the bowl, with the vapour made in it
    venturi   venturi + air of the nozzle - slot above the plate's edge - throttle
    well      main jet + air carried along - nozzle - low-speed jet
    tube      main bleed - bleed holes
    mix       low-speed jet + by-pass + idle air - economizer - air pulled over into the well
    chamber   economizer + slot above the edge + bleed valve - slot below - screw port

Shared parts balance air: fuel that spits into the horn or the bore falls on into the engine.
"""

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.circuit_flows import Flows, Pressures, flows, pressures
from fuelcircuits.physics.problem import Points, Problem, with_angle
from fuelcircuits.physics.torque import brake_torque, torque_factor

__all__ = ["FLOOR", "closure", "fuel_flow", "imbalances", "names", "residuals"]

Floats = NDArray[np.float64]

SHARED = ("horn pressure", "pressure below the choke", "manifold pressure", "bowl pressure")
EACH = ("venturi pressure", "well pressure", "tube pressure", "mix pressure", "chamber pressure")
FLOOR = 1e-6
"""Added to the traffic by which an imbalance is measured [kg/s]: half a per cent of idle fuel."""
_VENTING = 1.5  # kg/(s m2), what a vent passes at about 1 Pa: the bowl's measure
_PUSH = 1e-6  # kg/(s Pa), turns an imposed pressure's error into a flow


def names(problem: Problem) -> list[str]:
    """Return the name of each unknown, in order."""
    each = [name for name in EACH for _ in range(problem.barrels)]
    return [*SHARED, *each, *([problem.free] if problem.free else [])]


def fuel_flow(problem: Problem, found: Flows) -> Floats:
    """Return the fuel that leaves the bowl by all main jets [kg/s]."""
    return np.asarray(problem.alike * found.main_jet.sum(axis=0))


def imbalances(
    problem: Problem, p: Pressures, found: Flows, points: Points
) -> tuple[list[Floats], list[Floats]]:
    """Return each part's imbalance and the traffic through it [kg/s], parts first.

    The traffic is half the sum of what passes in and out, with `FLOOR` added.

    References
    ----------
    Conservation of mass; the list stands at the head of the module.
    """
    f = found

    def total(flow: Floats) -> Floats:
        return np.asarray(problem.alike * flow.sum(axis=0))

    shared = [
        (f.cleaner, -f.choke, -total(f.idle_air.air), -total(f.main_bleed), -f.inside_vent),
        (f.choke, -total(f.venturi), -total(f.bypass.air), -total(f.valve.air)),
        (total(f.throttle), total(f.slot_below.air), total(f.screw.air), f.leak, -f.engine),
    ]
    nozzle_air = f.nozzle.air + f.bubbles - f.backflow
    each = [
        (f.venturi, nozzle_air, -f.slot_above.air, -f.throttle),
        (f.main_jet, f.carried, f.backflow, -f.nozzle.total, -f.idle_jet.total),
        (f.main_bleed, -f.holes, 1e-9 * (1.0 - problem.parts.bled) * (p.tube - p.well)),
        (f.idle_jet.total, f.bypass.total, f.idle_air.total, -f.economizer.total, -f.pull_over),
        (
            f.economizer.total,
            f.slot_above.total,
            f.valve.total,
            -f.slot_below.total,
            -f.screw.total,
        ),
    ]
    levels = [np.asarray(sum(terms)) for terms in (*shared, *each)]
    traffic = [0.5 * sum(np.abs(term) for term in terms) + FLOOR for terms in (*shared, *each)]
    imposed = _PUSH * (p.bowl - points.bowl_pressure)
    levels.insert(3, np.where(np.isnan(imposed), f.bowl, imposed))
    vents = points.vent_inside + points.vent_outside + points.vent_canister + points.vent_gasket
    traffic.insert(3, np.broadcast_to(FLOOR + _VENTING * vents, levels[3].shape))
    return levels, [np.asarray(each) for each in traffic]


def closure(
    problem: Problem, wanted: str, p: Pressures, found: Flows, points: Points
) -> tuple[Floats, Floats]:
    r"""Return the last unknown's imbalance and its measure.

    Parameters
    ----------
    problem, p, found, points
        The network, its pressures, flows and points.
    wanted
        What `points.target` is: "air flow" [kg/s], "manifold pressure" [Pa], "torque" [N m] or
        "load" [N m s2], the last a brake torque of target times
        :math:`\omega^2 - \omega_{idle}^2`.

    References
    ----------
    Torque: `fuelcircuits.physics.torque`, with the mixture that the network delivers.
    """
    target, full = points.target, np.zeros_like(p.manifold)
    if wanted == "air flow":
        return found.engine - target, full + np.abs(target)
    if wanted == "manifold pressure":
        return p.manifold - target, full + np.abs(target)
    mixture = found.engine / (np.maximum(fuel_flow(problem, found), FLOOR) * points.stoichiometric)
    turning = brake_torque(
        problem.engine,
        points.speed,
        found.engine,
        p.manifold,
        points.pressure,
        mixture_factor=torque_factor(np.clip(mixture, 0.0, 3.0)),
    )
    if wanted == "load":
        target = target * (points.speed**2 - problem.engine.idle_speed**2)
    return turning - target, full + 100.0


def residuals(
    problem: Problem, wanted: str, unknowns: Floats, points: Points
) -> tuple[Floats, Floats]:
    """Return all imbalances and their measures, shape (unknowns, copies, points).

    Parameters
    ----------
    problem
        The network.
    wanted
        As in `closure`; of no account where nothing is free.
    unknowns
        Shape (unknowns, copies, points).
    points
        The operating points.
    """
    points = freed(problem, unknowns, points)
    p = pressures(problem, unknowns)
    found = flows(problem, p, points)
    levels, traffic = imbalances(problem, p, found, points)
    size, shape = 4, unknowns.shape[1:]
    imbalance, measure = np.empty_like(unknowns), np.empty_like(unknowns)
    for row in range(4):
        imbalance[row], measure[row] = levels[row], traffic[row]
    for level, busy in zip(levels[4:], traffic[4:], strict=True):
        rows = slice(size, size + problem.barrels)
        imbalance[rows] = np.broadcast_to(level, (problem.barrels, *shape))
        measure[rows] = np.broadcast_to(busy, (problem.barrels, *shape))
        size += problem.barrels
    if problem.free:
        surplus, measure[-1] = closure(problem, wanted, p, found, points)
        imbalance[-1] = surplus if problem.free == "speed" else -surplus
    return imbalance, measure


def freed(problem: Problem, unknowns: Floats, points: Points) -> Points:
    """Return the points with the last unknown put where it belongs."""
    if problem.free == "speed":
        return points._replace(speed=unknowns[-1])
    if problem.free == "angle":
        return with_angle(problem, points, np.clip(unknowns[-1], 0.0, 0.5 * np.pi))
    return points
