"""The balance of the whole carburettor and its engine: unknowns and residuals.

Unknowns, all absolute pressures [Pa]. Shared by the barrels: horn, choke (below its plate),
manifold, bowl. One for each barrel: venturi (main throat), well (at the height of the set fuel
level), tube (air behind the well's bleed holes), mix (where fuel and air of the low-speed
circuit meet), chamber (behind the idle ports). Where an angle or a speed is asked for, that is
the last unknown, and what it is found for the last equation.

Residuals: mass in less mass out of each part [kg/s], as `BALANCES` lists them. Each
flow is computed once and stands in the balances of both its ends; so what one part loses
another gains.

Shared parts balance air: fuel that spits into the horn or the bore falls on into the engine.
"""

from functools import lru_cache
from typing import Any, get_type_hints

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.engine.torque import brake_torque, torque_factor
from fuelcircuits.physics.network.circuit_flows import Flows, flows
from fuelcircuits.physics.network.circuit_pressures import Pressures, pressures
from fuelcircuits.physics.network.posing import with_angle, with_speed
from fuelcircuits.physics.network.problem import Points, Problem
from fuelcircuits.physics.network.stream import Stream

__all__ = [
    "BALANCES",
    "FLOOR",
    "PUSH",
    "SLACK",
    "VENTING",
    "closure",
    "freed",
    "fuel_flow",
    "names",
    "residuals",
    "stacked",
    "terms",
    "unstacked",
]

Floats = NDArray[np.float64]

SHARED = ("horn pressure", "pressure below the choke", "manifold pressure", "bowl pressure")
EACH = ("venturi pressure", "well pressure", "tube pressure", "mix pressure", "chamber pressure")
BALANCES = {
    "horn": "cleaner -choke -idle_air.air -main_bleed -inside_vent",
    "choke": "choke -venturi -bypass.air -valve.air",
    "manifold": "throttle slot_below.air screw.air leak -engine",
    "bowl": "inside_vent outer_vents jet_air",
    "venturi": "venturi nozzle.air bubbles -backflow -slot_above.air -throttle",
    "well": "main_jet carried backflow -jet_air -nozzle.air -nozzle.fuel -idle_jet.air"
    " -idle_jet.fuel",
    "tube": "main_bleed -holes",
    "mix": "idle_jet.air idle_jet.fuel bypass.air bypass.fuel idle_air.air idle_air.fuel"
    " -economizer.air -economizer.fuel -pull_over",
    "chamber": "economizer.air economizer.fuel slot_above.air slot_above.fuel valve.air valve.fuel"
    " -slot_below.air -slot_below.fuel -screw.air -screw.fuel",
}
"""What enters each part, and with a minus what leaves it."""
FLOOR = 1e-5
"""Added to the traffic that measures an imbalance [kg/s]: a twentieth of a barrel's idle fuel."""
VENTING = 1.5
"""What a vent passes at about 1 Pa [kg/(s m2)]: the bowl's measure."""
PUSH = 1e-6
"""Turns an imposed pressure's error into a flow [kg/(s Pa)]."""
SLACK = 1e-9
"""Holds the tube of a well without a bleed at the well's pressure [kg/(s Pa)]."""
_SHARED_PARTS = tuple(BALANCES)[:4]
_SHARED_FLOWS = Flows._fields[: Flows._fields.index("venturi")]
_MIXED = tuple(name for name, kind in get_type_hints(Flows).items() if kind is Stream)
_EACH_FLOWS = tuple(
    f"{name}{suffix}"
    for name in Flows._fields[len(_SHARED_FLOWS) : -1]
    for suffix in ((".air", ".fuel") if name in _MIXED else ("",))
)


def names(problem: Problem) -> list[str]:
    """Return the name of each unknown, in order."""
    each = [name for name in EACH for _ in range(problem.barrels)]
    return [*SHARED, *each, *([problem.free] if problem.free else [])]


def fuel_flow(problem: Problem, found: Flows) -> Floats:
    """Return the fuel that leaves the bowl by all main jets [kg/s]."""
    return np.asarray(problem.alike * found.main_jet.sum(axis=0))


@lru_cache(maxsize=8)
def terms(barrels: int, alike: float) -> tuple[NDArray[np.intp], Floats, NDArray[np.intp]]:
    """Return the terms of all balances, one balance after the other.

    Parameters
    ----------
    barrels
        Barrels told apart.
    alike
        Real barrels for each of those, as a barrel's flow counts in a shared part.

    Returns
    -------
    flow, weight, first
        For each term the row of its flow in `stacked`, and what it counts, negative where it
        leaves; for each balance the place of its first term.
    """
    place = {name: row for row, name in enumerate(_SHARED_FLOWS)}
    for row, name in enumerate(_EACH_FLOWS):
        place[name] = len(_SHARED_FLOWS) + row * barrels
    flow: list[int] = []
    weight, first = [], []
    for name, text in BALANCES.items():
        common = name in _SHARED_PARTS
        for barrel in range(1 if common else barrels):
            first.append(len(flow))
            for term in text.split():
                sign, row = (-1.0 if term[0] == "-" else 1.0), place[term.lstrip("-")]
                single = term.lstrip("-") in _SHARED_FLOWS
                rows = [row] if single else [row + each for each in range(barrels)]
                rows = rows if common else [row + barrel]
                flow += rows
                weight += [sign * (alike if common and not single else 1.0)] * len(rows)
    return np.array(flow), np.array(weight), np.array(first)


def closure(
    problem: Problem, wanted: str, p: Pressures, found: Flows, points: Points
) -> tuple[Floats, Floats]:
    """Return the last unknown's imbalance and its measure.

    Parameters
    ----------
    problem, p, found, points
        The network, its pressures, flows and points.
    wanted
        What `points.target` is: "air flow" [kg/s], "manifold pressure" [Pa] or brake "torque"
        [N m].

    References
    ----------
    Torque: `fuelcircuits.physics.engine.torque`, with the mixture that the network delivers.
    """
    target = points.target
    if wanted == "air flow":
        return found.engine - target, np.abs(target)
    if wanted == "manifold pressure":
        return p.manifold - target, np.abs(target)
    mixture = found.engine / (np.maximum(fuel_flow(problem, found), FLOOR) * points.stoichiometric)
    turning = brake_torque(
        problem.engine,
        points.speed,
        found.engine,
        p.manifold,
        points.pressure,
        mixture_factor=torque_factor(np.clip(mixture, 0.0, 3.0)),
    )
    return turning - target, np.full_like(target, 100.0)


def stacked(found: Flows) -> Floats:
    """Return every flow in the order of the rows that `terms` names."""
    tall, *wide = found.venturi.shape
    rows = np.empty((len(_SHARED_FLOWS) + len(_EACH_FLOWS) * tall, *wide))
    end = len(_SHARED_FLOWS)
    for row, value in enumerate(found[:end]):
        rows[row] = value
    for value in found[end:-1]:
        for part in value if isinstance(value, Stream) else (value,):
            rows[end : end + tall] = part
            end += tall
    return rows


def unstacked(rows: Floats, barrels: int, power_share: Floats) -> Flows:
    """Return the flows whose rows `stacked` gives, with the share that is not among them."""
    end = len(_SHARED_FLOWS)
    values: list[Any] = list(rows[:end])
    for name in Flows._fields[end:-1]:
        parts = []
        for _ in range(2 if name in _MIXED else 1):
            parts.append(rows[end : end + barrels])
            end += barrels
        values.append(Stream(*parts) if name in _MIXED else parts[0])
    return Flows._make([*values, power_share])


def residuals(
    problem: Problem, wanted: str, unknowns: Floats, points: Points
) -> tuple[Floats, Floats]:
    """Return all imbalances [kg/s] and what each is measured by.

    An imbalance is measured by the traffic: half of all that passes in and out, with `FLOOR`
    added; the bowl, which may stand still, by what its vents pass at about 1 Pa.

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

    Returns
    -------
    imbalance, measure
        Shapes (unknowns, copies, points) and (unknowns, points), the latter of the first copy.

    References
    ----------
    Conservation of mass; the list stands at the head of the module.
    """
    points = freed(problem, unknowns, points)
    p = pressures(problem, unknowns)
    found = flows(problem, p, points)
    flow, weight, first = terms(problem.barrels, problem.alike)
    entering = stacked(found)[flow]
    entering *= weight[:, None, None]
    imbalance, measure = np.empty_like(unknowns), np.empty_like(unknowns[:, 0])
    np.add.reduceat(entering, first, axis=0, out=imbalance[: first.size])
    traffic = np.add.reduceat(np.abs(entering[:, 0]), first, axis=0)
    measure[: first.size] = 0.5 * traffic + FLOOR
    imposed = PUSH * (p.bowl - points.bowl_pressure)
    imbalance[3] = np.where(np.isnan(imposed), imbalance[3], -imposed)
    vents = points.vent_inside + points.vent_outside + points.vent_canister + points.vent_gasket
    measure[3] = FLOOR + VENTING * (vents if vents.ndim == 1 else vents[0])
    tubes = slice(4 + 2 * problem.barrels, 4 + 3 * problem.barrels)
    imbalance[tubes] -= SLACK * (1.0 - problem.parts.bled) * (p.tube - p.well)
    if problem.free:
        surplus, measure[-1] = closure(problem, wanted, p, found, points)
        imbalance[-1] = surplus if problem.free == "speed" else -surplus
    return imbalance, measure


def freed(problem: Problem, unknowns: Floats, points: Points) -> Points:
    """Return the points with the last unknown put where it belongs."""
    if problem.free == "speed":
        return with_speed(problem, points, unknowns[-1])
    if problem.free == "angle":
        return with_angle(problem, points, np.clip(unknowns[-1], 0.0, 0.5 * np.pi))
    return points
