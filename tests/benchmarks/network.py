"""How long the whole carburettor takes to balance, beside a general solver on the same equations.

The other solver is `scipy.optimize.root`, one point after another. Each of its starts is a
neighbouring answer: the pressure drops of the balanced point, half a per cent larger.
"""

import time
from collections.abc import Callable, Iterator
from statistics import median
from typing import Any

import numpy as np
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.balance import residuals
from fuelcircuits.physics.network.posing import pose
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from scipy.optimize import root

from tests.places import RIGS

RIG = read_rig(RIGS / "plover.toml")
AIR, PETROL = Weather.at(temperature=293.15), Fuel()


def measures() -> Iterator[dict[str, Any]]:
    """Yield the times of one state and of a sweep, and the other solver's over ours."""
    curve = network.sweep(RIG, AIR, PETROL)
    speed, angle = curve.speed, curve.throttle_angle
    near = network.solve(RIG, AIR, PETROL, 200.0, 0.4)
    cold = _seconds(lambda: network.solve(RIG, AIR, PETROL, 203.0, 0.41))
    warm = _seconds(lambda: network.solve(RIG, AIR, PETROL, 203.0, 0.41, start=near))
    ours = _seconds(lambda: network.solve(RIG, AIR, PETROL, speed, angle))
    theirs, missed = _one_by_one(curve)
    yield _measure("network, one state", 1e3 * cold, "ms")
    yield _measure("network, one state from a neighbour", 1e3 * warm, "ms")
    yield _measure("network, 300 points", ours, "s")
    yield _measure("scipy.optimize.root, 300 points", theirs, "s")
    yield _measure("scipy.optimize.root over network", theirs / ours, "1")
    yield _measure("points that scipy.optimize.root missed", missed, "1")


def _one_by_one(curve: State) -> tuple[float, int]:
    """Return how long the other solver takes, and at how many points it ends elsewhere."""
    spent, missed, outside = 0.0, 0, float(np.asarray(AIR.pressure))
    for column, speed, angle in zip(
        curve.unknowns.T, curve.speed, curve.throttle_angle, strict=True
    ):
        left = _imbalance(column, float(speed), float(angle))
        start = time.perf_counter()
        found = root(left, outside - 1.005 * (outside - column), tol=1e-10)
        spent += time.perf_counter() - start
        missed += not np.allclose(outside - found.x, outside - column, rtol=1e-6, atol=1e-4)
    return spent, missed


def _imbalance(column: Any, speed: float, angle: float) -> Callable[[Any], Any]:
    """Return the equations of one point, each over its measure at the answer."""
    problem, points, _ = pose(RIG, AIR, PETROL, Settings(), speed=speed, angle=angle)
    measure = residuals(problem, "", column[:, None, None], points)[1][:, 0]

    def left(unknowns: Any) -> Any:
        return residuals(problem, "", unknowns[:, None, None], points)[0][:, 0, 0] / measure

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
