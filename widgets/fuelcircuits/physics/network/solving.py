"""The whole carburettor on its engine, in steady running: at one point, or along a row of them.

A point that has no balance raises `ConvergenceError` with the name of the quantity that will
not balance.
"""

from fuelcircuits.errors import RangeError, between, positive
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.balance import Balance, Closing
from fuelcircuits.physics.network.curves import along, path
from fuelcircuits.physics.network.guess import angle_guess, speed_guess
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.network.problem import Problem
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.search import balanced
from fuelcircuits.physics.network.settings import WARM, Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["along", "curb_idle", "path", "solve", "solve_for_angle", "solve_for_speed"]


def solve(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    speed: float,
    throttle_angle: float,
    *,
    settings: Settings = WARM,
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
        The rig whose air path and circuits the second barrel has, where they differ; that of the
        rig's own `second` if not given.
    start
        A state nearby, whose pressures and slopes are then the first guess.

    Raises
    ------
    RangeError
        If an input is out of range, or the start has other barrels.
    ConvergenceError
        If there is no balance; the message names the quantity.

    References
    ----------
    Conservation of mass at every part: `fuelcircuits.physics.network.balance`.
    """
    positive("speed", speed, "rad/s")
    between("throttle angle", throttle_angle, 0.0, OPEN, "rad")
    of = pose(rig, weather, fuel, settings, other)
    return balanced(Balance(of, place(of, speed, throttle_angle)), start)


def solve_for_angle(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    speed: float,
    *,
    settings: Settings = WARM,
    air_flow: float | None = None,
    manifold_vacuum: float | None = None,
    torque: float | None = None,
    other: Rig | None = None,
    start: State | None = None,
) -> State:
    """Return the steady state at the throttle angle that gives one of three readings.

    Parameters
    ----------
    rig, weather, fuel, speed, settings, other
        As in `solve`.
    air_flow, manifold_vacuum, torque
        Give one: air into the engine [kg/s], ambient less manifold pressure [Pa], or brake
        torque [N m], with the mixture that the carburettor then delivers.
    start
        A state nearby, whose angle and pressures are then the first guess.

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
    below = None if manifold_vacuum is None else weather.pressure - manifold_vacuum
    given = {"air flow": air_flow, "manifold pressure": below, "torque": torque}
    chosen = [(name, value) for name, value in given.items() if value is not None]
    if len(chosen) != 1:
        raise RangeError(f"reading must be just one of three, got {len(chosen)} of them")
    of, closing = pose(rig, weather, fuel, settings, other), Closing("angle", *chosen[0])
    angle = start.throttle_angle if start else angle_guess(of, speed, *chosen[0])
    return balanced(Balance(of, place(of, speed, angle), closing), start)


def solve_for_speed(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    throttle_angle: float,
    *,
    settings: Settings = WARM,
    torque: float = 0.0,
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
        A state nearby, whose speed and pressures are then the first guess.

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
    of, closing = pose(rig, weather, fuel, settings, other), Closing("speed", "torque", torque)
    speed = start.speed if start else speed_guess(of, throttle_angle, torque)
    return balanced(Balance(of, place(of, speed, throttle_angle), closing), start)


def curb_idle(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    *,
    settings: Settings = WARM,
    speed: float | None = None,
    other: Rig | None = None,
    start: State | None = None,
) -> State:
    """Return the state at curb idle: the throttle stop set so that nothing is left to drive.

    Parameters
    ----------
    rig, weather, fuel, settings, other, start
        As in `solve_for_angle`.
    speed
        Idle speed [rad/s]; the engine's own if not given.

    Returns
    -------
    State
        Its `throttle_angle` is that of the stop; where an engine idles at several, the search
        begins near the least, or at the start if one is given.

    Raises
    ------
    ConvergenceError
        If no throttle angle idles the engine.
    """
    turning = rig.engine.idle_speed if speed is None else speed
    start = start or _near_idle(pose(rig, weather, fuel, settings, other), turning)
    return solve_for_angle(
        rig, weather, fuel, turning, settings=settings, torque=0.0, other=other, start=start
    )


def _near_idle(of: Problem, speed: float) -> State:
    """Return the state at the angle that the air path alone gives for an idle.

    A carburettor that leans out as its throttle opens can idle an engine at more than one angle.
    A stop is set from below; started from pressures that are right at its angle, a search does not
    leap to an idle further on.
    """
    return balanced(Balance(of, place(of, speed, angle_guess(of, speed, "torque", 0.0))))
