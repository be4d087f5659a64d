"""The whole carburettor on its engine, in steady running: solved for any number of points.

`balance` lists the unknowns and the equations. Here they are solved: Newton's method from a
guess that the air path alone gives; where that fails, damped; where that fails too, from the
answers of neighbouring points. A point that still has no answer raises `ConvergenceError` with
the name of the quantity that will not balance.
"""

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.errors import RangeError, between, positive
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.balance import names
from fuelcircuits.physics.network.guess import angle_guess, bare_torque
from fuelcircuits.physics.network.nearby import nearby
from fuelcircuits.physics.network.posing import pose
from fuelcircuits.physics.network.problem import Points, Problem
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.search import solved
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["curb_idle", "solve", "solve_for_angle", "solve_for_speed", "sweep"]

Floats = NDArray[np.float64]
Numbers = float | Floats

_WARM = Settings()


def solve(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    speed: Numbers,
    throttle_angle: Numbers,
    *,
    settings: Settings = _WARM,
    other: Rig | None = None,
    start: State | None = None,
) -> State:
    """Return the steady state at given speed and throttle angle.

    Parameters
    ----------
    rig
        Engine, air path, vents (if none: a wide inside vent), circuits of every barrel.
    weather
        The air outside.
    fuel
        The fuel.
    speed
        Crankshaft speed [rad/s], positive.
    throttle_angle
        Angle of the throttle plates from the plane across their bores [rad], 0 to pi/2.
    settings
        Choke, bowl, ignition; a warm engine with the choke open unless given.
    other
        The rig whose circuits the second barrel has, where a fault makes them differ.
    start
        A state of the same shape nearby, whose pressures are then the first guess.

    Returns
    -------
    State
        Inputs may be numbers or arrays; they broadcast, and the state has that shape.

    Raises
    ------
    RangeError
        If an input is out of range, or the start has another number of points.
    ConvergenceError
        If a point has no balance; the message names the quantity.

    References
    ----------
    Conservation of mass at every part: `fuelcircuits.physics.network.balance`.
    """
    positive("speed", speed, "rad/s")
    between("throttle angle", throttle_angle, 0.0, OPEN, "rad")
    problem, points, shape = pose(
        rig, weather, fuel, settings, speed=speed, angle=throttle_angle, other=other
    )
    if start is None:
        return solved(problem, points, shape, settings)
    near = _fitted(start, problem, points)
    if points.speed.size == 1 and problem.barrels == 1:
        found = nearby(problem, points, shape, near)
        if found is not None:
            return found
    return solved(problem, points, shape, settings, start=near.unknowns)


def solve_for_angle(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    speed: Numbers,
    *,
    settings: Settings = _WARM,
    air_flow: Numbers | None = None,
    manifold_vacuum: Numbers | None = None,
    torque: Numbers | None = None,
    other: Rig | None = None,
) -> State:
    """Return the steady state at the throttle angle that gives one of three readings.

    Parameters
    ----------
    rig, weather, fuel, speed, settings, other
        As in `solve`.
    air_flow, manifold_vacuum, torque
        Give one: air into the engine [kg/s], ambient less manifold pressure [Pa], or brake
        torque [N m], with the mixture that the carburettor then delivers.

    Returns
    -------
    State
        Its `throttle_angle` is what was asked for.

    Raises
    ------
    RangeError
        If not just one reading is given, or an input is out of range.
    ConvergenceError
        If no throttle angle gives it.
    """
    positive("speed", speed, "rad/s")
    given = {"air flow": air_flow, "manifold pressure": manifold_vacuum, "torque": torque}
    chosen = {name: value for name, value in given.items() if value is not None}
    if len(chosen) != 1:
        raise RangeError(f"reading must be just one of three, got {len(chosen)} of them")
    ((wanted, target),) = chosen.items()
    if wanted == "manifold pressure":
        target = np.asarray(weather.pressure) - np.asarray(target)
    angle = angle_guess(rig, weather, speed, settings, wanted=wanted, target=target)
    problem, points, shape = pose(
        rig,
        weather,
        fuel,
        settings,
        speed=speed,
        angle=angle,
        other=other,
        target=target,
        free="angle",
    )
    return solved(problem, points, shape, settings, wanted=wanted)


def solve_for_speed(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    throttle_angle: Numbers,
    *,
    settings: Settings = _WARM,
    torque: Numbers = 0.0,
    other: Rig | None = None,
    start: State | None = None,
) -> State:
    """Return the steady state at the speed at which the engine makes a given brake torque.

    With no torque asked for this is the speed at which it idles, with the mixture that the
    carburettor delivers: what a tachometer shows while the mixture screw is turned.

    Parameters
    ----------
    rig, weather, fuel, throttle_angle, settings, other
        As in `solve`.
    torque
        Brake torque [N m].
    start
        A state of the same shape nearby, found for a torque too, whose speed and pressures are
        then the first guess.

    Returns
    -------
    State
        Its `speed` is what was asked for.

    Raises
    ------
    RangeError
        If an input is out of range.
    ConvergenceError
        If no speed gives it: the engine stalls or runs away.
    """
    between("throttle angle", throttle_angle, 0.0, OPEN, "rad")
    guess = (
        _turning(rig, weather, throttle_angle, settings, torque) if start is None else start.speed
    )
    problem, points, shape = pose(
        rig,
        weather,
        fuel,
        settings,
        speed=guess,
        angle=throttle_angle,
        other=other,
        target=torque,
        free="speed",
    )
    near = None if start is None else _fitted(start, problem, points).unknowns
    return solved(problem, points, shape, settings, wanted="torque", start=near)


def _fitted(start: State, problem: Problem, points: Points) -> State:
    """Return a start without the unknown that nobody asks for now; refuse one of another shape."""
    needed = len(names(problem)), points.speed.size
    rows, count = start.unknowns.shape
    if rows < needed[0] or count != needed[1]:
        raise RangeError(
            f"start must have {needed[0]} unknowns at {needed[1]} points, got {rows} at {count}"
        )
    return start._replace(unknowns=start.unknowns[: needed[0]])


def _turning(
    rig: Rig, weather: Weather, throttle_angle: Numbers, settings: Settings, torque: Numbers
) -> Floats:
    """Return the speed of a few tried at which the air path alone comes nearest to a torque."""
    shape = np.broadcast_shapes(np.shape(throttle_angle), np.shape(torque))
    least, most = 0.5 * rig.engine.idle_speed, 1.2 * rig.engine.highest_speed
    tried = np.linspace(least, most, 25).reshape(-1, *(1,) * len(shape))
    made = bare_torque(rig, weather, tried, np.asarray(throttle_angle), settings)
    last = np.argmin(np.abs(made - np.asarray(torque)), axis=0)
    return np.asarray(np.take_along_axis(np.broadcast_to(tried, made.shape), last[None], axis=0)[0])


def curb_idle(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    *,
    settings: Settings = _WARM,
    speed: Numbers | None = None,
    other: Rig | None = None,
) -> State:
    """Return the state at curb idle: the throttle stop set so that nothing is left to drive.

    Parameters
    ----------
    rig, weather, fuel, settings, other
        As in `solve`.
    speed
        Idle speed [rad/s]; the engine's own if not given.

    Returns
    -------
    State
        Its `throttle_angle` is that of the stop.

    Raises
    ------
    ConvergenceError
        If no throttle angle idles the engine.
    """
    turning = rig.engine.idle_speed if speed is None else speed
    return solve_for_angle(
        rig,
        weather,
        fuel,
        turning,
        settings=settings,
        torque=np.zeros(np.shape(turning)),
        other=other,
    )


def sweep(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    *,
    settings: Settings = _WARM,
    count: int = 300,
    other: Rig | None = None,
) -> State:
    r"""Return the mixture curve: `count` steady states from curb idle to wide open.

    The throttle opens in even steps of the sine of half the way; the speed rises with the air
    that the throttle lets in, from idle to 0.85 of the highest speed, as

    .. math:: \omega = \omega_i + (0.85\,\omega_{max} - \omega_i)\, s, \qquad
              \theta = \theta_i + \left(\tfrac\pi2 - \theta_i\right) s^2

    so that the first half is light running on the road and the last few steps full load.

    Parameters
    ----------
    rig, weather, fuel, settings, other
        As in `solve`; one number each, no arrays.
    count
        Number of points, 2 or more.

    Returns
    -------
    State
        Points in order of throttle angle.

    Notes
    -----
    The path is this package's own choice, of the kind that a flow stand runs.
    """
    between("count", count, 2, 100_000)
    idle = curb_idle(rig, weather, fuel, settings=settings, other=other)
    stage, low = np.linspace(0.0, 1.0, count), float(idle.throttle_angle)
    speed = rig.engine.idle_speed + stage * (
        0.85 * rig.engine.highest_speed - rig.engine.idle_speed
    )
    angle = np.minimum(low + (OPEN - low) * stage**2, OPEN)
    return solve(rig, weather, fuel, speed, angle, settings=settings, other=other)
