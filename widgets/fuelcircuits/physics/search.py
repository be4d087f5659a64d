"""How the network's unknowns are found: a first guess, Newton's method, and what follows it."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics import breathing
from fuelcircuits.physics.atmosphere import Weather
from fuelcircuits.physics.balance import freed, names, residuals
from fuelcircuits.physics.high_speed import GRAVITY
from fuelcircuits.physics.newton import Found, Residual, newton
from fuelcircuits.physics.problem import Points, Problem
from fuelcircuits.physics.settings import Settings
from fuelcircuits.physics.state import State, state_of
from fuelcircuits.physics.torque import brake_torque
from fuelcircuits.physics.two_phase import mass_flux
from fuelcircuits.rig import Rig

__all__ = ["angle_guess", "bare_torque", "solved"]

Floats = NDArray[np.float64]
Numbers = float | Floats

_SHIFT = {"manifold pressure": 1e-2, "venturi pressure": 1e-3, "angle": 1e-7, "speed": 1e-4}
_REACH = {"manifold pressure": 2e4, "angle": 0.15, "speed": 40.0}
_SCALE = {
    "horn pressure": 1e-2,
    "pressure below the choke": 1e-2,
    "manifold pressure": 1e-2,
    "venturi pressure": 5e-3,
    "tube pressure": 3e-5,
}
_LADDER = (
    ("still", 0.0, 0),
    ("guess", 3.0, 40),
    ("still", 3.0, 40),
    ("guess", 30.0, 80),
    ("still", 30.0, 80),
    ("guess", 300.0, 200),
)
_FREE = ("angle", "speed")
_CLOSING = {"air flow": 1e-2, "manifold pressure": 1e4, "torque": 1e2}
_GOOD = 1e-9  # [1], imbalance over traffic that an answer may have


def bare_torque(
    rig: Rig, weather: Weather, speed: Numbers, angle: Numbers, settings: Settings
) -> Floats:
    """Return the brake torque with the best mixture and the air path alone [N m]."""
    air = breathing.solve(
        rig.engine, rig.air_path, weather, speed, angle, choke_angle=settings.choke_angle
    )
    return brake_torque(
        rig.engine, speed, air.engine_flow, air.manifold_pressure, np.asarray(weather.pressure)
    )


def angle_guess(
    rig: Rig,
    weather: Weather,
    speed: Numbers,
    settings: Settings,
    *,
    wanted: str,
    target: Numbers,
) -> Floats:
    """Return the angle of a few tried at which the air path alone comes nearest to `target`."""
    path = rig.air_path
    shape = np.broadcast_shapes(np.shape(speed), np.shape(target), np.shape(weather.pressure))
    closed, stage = path.throttle_closed_angle, np.linspace(0.01, 1.0, 30) ** 1.5
    tried = (closed + (1.3 - closed) * stage).reshape(-1, *(1,) * len(shape))
    if wanted == "torque":
        shown = bare_torque(rig, weather, speed, tried, settings)
    else:
        air = breathing.solve(
            rig.engine, path, weather, speed, tried, choke_angle=settings.choke_angle
        )
        shown = air.engine_flow if wanted == "air flow" else air.manifold_pressure
    off = np.abs(np.broadcast_to(shown - np.asarray(target), (tried.shape[0], *shape)))
    return np.asarray(tried.reshape(-1)[np.argmin(off, axis=0)])


def solved(
    problem: Problem,
    points: Points,
    shape: tuple[int, ...],
    weather: Weather,
    settings: Settings,
    *,
    wanted: str = "",
    start: Floats | None = None,
) -> State:
    """Return the state of a posed problem."""
    guess = _guess(problem, points, shape, weather, settings) if start is None else start

    def residual(unknowns: Floats, index: NDArray[np.intp]) -> tuple[Floats, Floats]:
        return residuals(problem, wanted, unknowns, points.take(index))

    unknown = names(problem)
    found = _searched(residual, guess, unknown, _CLOSING.get(wanted, 1.0))
    _check(found, unknown, points)
    return state_of(problem, found.unknowns, freed(problem, found.unknowns, points), shape)


def _searched(residual: Residual, guess: Floats, unknown: list[str], closing: float) -> Found:
    """Return Newton's answer, and where it has none that of the slower damped steps."""
    shift = np.array([_SHIFT.get(name, 1e-4) for name in unknown])
    reach = np.array([_REACH.get(name, 5e3) for name in unknown])
    scale = np.array([_SCALE.get(name, closing if name in _FREE else 2e-4) for name in unknown])
    found = newton(residual, guess, shift, reach, scale, most_steps=25)
    starts = {"guess": guess, "still": _still(guess, unknown)}
    for start, damping, steps in _LADDER:
        left = np.flatnonzero(~(found.error <= _GOOD))
        if not left.size:
            break

        def some(unknowns: Floats, index: NDArray[np.intp], left: Any = left) -> Any:
            return residual(unknowns, left[index])

        again = starts[start][:, left]
        if damping > 0.0:
            slow = newton(
                some, again, shift, reach, scale, damping=damping, most_steps=steps, tolerance=1e-4
            )
            again = slow.unknowns
        end = newton(some, again, shift, reach, scale, most_steps=40)
        for old, new in zip(found[:3], end[:3], strict=True):
            old[..., left] = new
    return found


def _still(guess: Floats, unknown: list[str]) -> Floats:
    """Return another guess: nothing flows in the circuits."""
    other = guess.copy()
    row = {name: np.flatnonzero([each == name for each in unknown]) for name in unknown}
    choke = guess[row["pressure below the choke"]]
    other[row["well pressure"]] = guess[row["bowl pressure"]] - 5.0
    other[row["tube pressure"]] = guess[row["horn pressure"]] - 1.0
    other[row["mix pressure"]] = choke - 30.0
    other[row["chamber pressure"]] = choke - 60.0
    return other


def _check(found: Found, unknown: list[str], points: Points) -> None:
    """Raise unless every point balances."""
    bad = np.flatnonzero(~(found.error <= _GOOD))
    if bad.size:
        first = bad[0]
        raise ConvergenceError(
            f"{unknown[found.worst[first]]} must balance, got {found.error[first]:.1e} of its "
            f"traffic left over at {points.speed[first]:.4g} rad/s and "
            f"{points.angle[first]:.4g} rad ({bad.size} of {found.error.size} points)"
        )


def _guess(
    problem: Problem,
    points: Points,
    shape: tuple[int, ...],
    weather: Weather,
    settings: Settings,
) -> Floats:
    """Return a first guess of the unknowns, from the air path alone."""
    speed, angle = points.speed.reshape(shape), points.angle.reshape(shape)
    air = breathing.solve(
        problem.engine, problem.air_path, weather, speed, angle, choke_angle=settings.choke_angle
    )

    def flat(value: Floats) -> Floats:
        return np.asarray(np.broadcast_to(value, shape)).reshape(-1)

    horn, choke, manifold = (
        flat(each) for each in (air.horn_pressure, air.choke_pressure, air.manifold_pressure)
    )
    venturi, booster = flat(air.venturi_pressure), flat(air.booster_pressure)
    bowl = np.where(np.isnan(points.bowl_pressure), horn, points.bowl_pressure)
    weight = GRAVITY * points.fuel_density
    above = choke - (1.0 - problem.air_path.venturi_recovery) * (choke - venturi)
    leaving = mass_flux(0.0, above, np.maximum(above - manifold, 0.0), points.temperature, 1.0)
    leaving = 1.5 * leaving * np.mean(points.below + points.port, axis=(0, 1))
    entering = np.mean(points.above + 1.5 * problem.parts.economizer, axis=(0, 1))
    density = above / (points.gas_constant * points.temperature)
    drawn = (leaving / entering) ** 2 / (2.0 * density)
    chamber = above - np.minimum(np.minimum(drawn, 3000.0), 0.7 * (above - manifold))
    mix = above - np.minimum(0.4 * (above - chamber), 1000.0)
    nozzle = booster + weight * np.mean(problem.high.lip)
    well = np.minimum(bowl - 0.08 * (choke - mix) - 10.0, nozzle + 0.3 * (bowl - booster))
    tube = np.minimum(horn - 1.0, well + 1.5 * weight * np.mean(problem.high.first_hole))
    each = [np.repeat(one[None], problem.barrels, 0) for one in (venturi, well, tube, mix, chamber)]
    last = {"": [], "angle": [points.angle], "speed": [points.speed]}[problem.free]
    return np.concatenate(
        [np.stack([horn, choke, manifold, bowl]), *each, *(x[None] for x in last)]
    )
