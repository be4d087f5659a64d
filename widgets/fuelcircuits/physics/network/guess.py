"""First guesses of the network's unknowns, from the air path alone."""

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.circuits.high_speed import GRAVITY
from fuelcircuits.physics.engine import breathing
from fuelcircuits.physics.engine.torque import brake_torque
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.network.problem import Points, Problem
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.openings.two_phase import mass_flux

__all__ = ["angle_guess", "bare_torque", "first_guess", "still_guess"]

Floats = NDArray[np.float64]
Numbers = float | Floats

_ROUGH = 1e-3  # [1], how closely a guess needs the manifold pressure


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


def first_guess(problem: Problem, points: Points, choke_angle: Floats) -> Floats:
    """Return a first guess of the unknowns [Pa], shape (unknowns, points).

    Parameters
    ----------
    problem, points
        The network and its points.
    choke_angle
        Angle of the choke plate at each point [rad].

    Notes
    -----
    The air path is solved without the circuits; the pressures in those are then rough shares
    of the depressions it has. What they are does not change an answer.
    """
    air = breathing.solve(
        problem.engine,
        problem.air_path,
        Weather(points.pressure, points.temperature),
        points.speed,
        points.angle,
        choke_angle=choke_angle,
        tolerance=_ROUGH,
    )
    horn, choke, manifold = air.horn_pressure, air.choke_pressure, air.manifold_pressure
    venturi, booster = air.venturi_pressure, air.booster_pressure
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


def still_guess(guess: Floats, unknown: list[str]) -> Floats:
    """Return another guess: nothing flows in the circuits.

    Parameters
    ----------
    guess
        Unknowns as `first_guess` gives them.
    unknown
        The name of each.
    """
    other = guess.copy()
    row = {name: np.flatnonzero([each == name for each in unknown]) for name in unknown}
    choke = guess[row["pressure below the choke"]]
    other[row["well pressure"]] = guess[row["bowl pressure"]] - 5.0
    other[row["tube pressure"]] = guess[row["horn pressure"]] - 1.0
    other[row["mix pressure"]] = choke - 30.0
    other[row["chamber pressure"]] = choke - 60.0
    return other
