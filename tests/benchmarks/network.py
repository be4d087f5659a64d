"""How long the whole carburettor takes to balance, beside a general solver on the same equations.

The other solver is `scipy.optimize.root`. Each of its starts is a neighbouring answer: the
pressure drops of the balanced point, half a per cent larger.
"""

import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import count
from statistics import median
from typing import Any

import numpy as np
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.balance import Balance
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import WARM
from fuelcircuits.physics.network.state import State
from scipy.optimize import root

from tests.flow_stand import on_flow_stand
from tests.places import RIGS

RIG = read_rig(RIGS / "plover.toml")
AIR, PETROL = Weather.at(temperature=293.15), Fuel()


def measures() -> Iterator[dict[str, Any]]:
    """Yield the times of states, curves and an idle, and the other solver's over ours."""
    curve = on_flow_stand(RIG, AIR, PETROL, count=50)
    places = [(state.speed, state.throttle_angle) for state in curve]
    rigs, near = _rigs(), curve[20]
    at = near.speed, near.throttle_angle
    timed: dict[str, Callable[[], object]] = {
        "one state": lambda: [network.solve(RIG, AIR, PETROL, *each) for each in places],
        "one state of a rig changed a little": lambda: [
            network.solve(next(rigs), AIR, PETROL, *at, start=near) for _ in places
        ],
        "one state of a curve": lambda: network.path(RIG, AIR, PETROL, places),
        "one state of a changed rig's curve": lambda: network.along(next(rigs), AIR, PETROL, curve),
    }
    for name, work in timed.items():
        yield _measure(f"network, {name}", 1e3 * _seconds(work) / len(places), "ms")
    idle = _seconds(lambda: network.curb_idle(RIG, AIR, PETROL))
    yield _measure("network, a curb idle", 1e3 * idle, "ms")
    ours = _seconds(lambda: network.path(RIG, AIR, PETROL, places))
    theirs, missed = _one_by_one(curve)
    yield _measure("scipy.optimize.root, one state", 1e3 * theirs / len(curve), "ms")
    yield _measure("scipy.optimize.root over network", theirs / ours, "1")
    yield _measure("points that scipy.optimize.root missed", missed, "1")


def _rigs() -> Iterator[Rig]:
    """Yield rigs as a slider makes them, each new to the network."""
    low = RIG.low_speed
    for step in count(1):
        yield replace(RIG, low_speed=replace(low, slot_width=low.slot_width + 1e-7 * step))


def _one_by_one(curve: list[State]) -> tuple[float, int]:
    """Return how long the other solver takes, and at how many points it ends elsewhere."""
    spent, missed, of = 0.0, 0, pose(RIG, AIR, PETROL, WARM)
    for state in curve:
        balance = Balance(of, place(of, state.speed, state.throttle_angle))
        measure = np.array(balance.left(state.unknowns).measure)
        drops = of.pressure - np.array(state.unknowns)
        left = _imbalance(balance, measure)
        start = time.perf_counter()
        found = root(left, 1.005 * drops, tol=1e-10)
        spent += time.perf_counter() - start
        missed += not np.allclose(found.x, drops, rtol=1e-6, atol=1e-4)
    return spent, missed


def _imbalance(balance: Balance, measure: Any) -> Callable[[Any], Any]:
    """Return the equations of one point over their measure, as a function of pressure drops."""

    def left(drops: Any) -> Any:
        return np.array(balance.left((balance.of.pressure - drops).tolist()).level) / measure

    return left


def _seconds(work: Callable[[], object]) -> float:
    """Return the median wall time of seven runs."""
    times = []
    for _ in range(7):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return median(times)


def _measure(name: str, value: float, unit: str) -> dict[str, Any]:
    return {"name": name, "value": value, "unit": unit}
