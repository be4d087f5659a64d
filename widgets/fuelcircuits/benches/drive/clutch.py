"""How engine and wheels turn together during one step: gear, clutch and brake.

With the clutch let alone a gear goes in as if by itself: a car that rolls turns the engine at the
speed that goes with it, and one that stands rolls off as the engine turns. Pressed, the clutch
carries a torque that falls to nothing at the end of its pedal's way. Where engine and wheels need
no more than that to turn as one they do; else it slips, and carries all it can. Out of gear the
car rolls on and slows down. It never rolls back.
"""

from typing import NamedTuple

from fuelcircuits.benches.drive.foot import GEARS, WHEEL, Foot, turns
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.motion.crank import NEUTRAL, STALL, Road, road

__all__ = ["Coupled", "Shafts", "coupled", "road_of", "rolled"]

MASS, FRONT = 1500.0, 2.0
"""Mass [kg] and frontal area [m2] of the car that rolls."""
HOLDS = 300.0
"""Torque that the clutch carries when it is let go [N m], half as much again as the engine gives at
its best (common practice, no source)."""
BRAKES = 0.6
"""Slowing by the brake at its most, over free fall [1]: a dry road (common practice, no source)."""
GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]; ISO 80000-3."""
SAME = 1e-9
"""Share of their speed by which engine and wheels may differ and still turn as one [1]."""


class Shafts(NamedTuple):
    """Engine, and wheels as the gear shows them to it, at the start of a step."""

    engine: float  # rad/s
    wheels: float  # rad/s
    inertia: float  # kg m2, the engine's
    torque: float  # N m that it gives
    way: Road  # the car's


class Coupled(NamedTuple):
    """What a step begins with, and what hangs on the engine meanwhile."""

    engine: float  # rad/s
    way: Road
    push: float | None  # N on the car; None where engine and wheels turn as one


def coupled(before: Foot, foot: Foot, shafts: Shafts, duration: float) -> Coupled:
    """Return how engine and wheels go into a step of a foot, after that of the one before."""
    alone = not (foot.clutch or before.clutch)
    if not GEARS[foot.gear] or foot.clutch == 1.0:
        return Coupled(shafts.engine, NEUTRAL, 0.0)
    if alone and foot.gear != before.gear:
        return Coupled(_shifted(shafts), shafts.way, None)
    if not foot.clutch and abs(shafts.engine - shafts.wheels) <= SAME * shafts.engine:
        return Coupled(shafts.engine, shafts.way, None)
    return _slipping(foot, shafts, duration)


def _shifted(shafts: Shafts) -> float:
    """Return the engine's speed once a gear has gone in by itself [rad/s]."""
    return shafts.wheels if shafts.wheels >= STALL else shafts.engine


def _slipping(foot: Foot, shafts: Shafts, duration: float) -> Coupled:
    """Return what a clutch that is pressed in part, or has slipped, makes of a step."""
    most, needed = HOLDS * (1.0 - foot.clutch), _needed(shafts, duration)
    if abs(needed) <= most:
        return Coupled(_met(shafts), shafts.way, None)
    carried = most if needed > 0.0 else -most
    engine = max(shafts.engine - carried * duration / shafts.inertia, 0.0)
    return Coupled(engine, NEUTRAL, carried * turns(foot.gear))


def _needed(shafts: Shafts, duration: float) -> float:
    """Return the torque at which both turn as one when the step ends [N m]."""
    engine, wheels, ours, torque, way = shafts
    apart = (engine - wheels) / duration + torque / ours + way.torque(wheels) / way.inertia
    return apart / (1.0 / ours + 1.0 / way.inertia)


def _met(shafts: Shafts) -> float:
    """Return the speed at which both turn when they meet: what they carry of spin stays [rad/s]."""
    engine, wheels, ours, _, way = shafts
    return (ours * engine + way.inertia * wheels) / (ours + way.inertia)


def road_of(foot: Foot, weather: Weather) -> Road:
    """Return what hangs on the crankshaft: the car in gear with its brake, or nothing."""
    gear = GEARS[foot.gear]
    if not gear:
        return NEUTRAL
    way = road(gear, wheel=WHEEL, slope=foot.slope, density=weather.density)
    return way._replace(steady=way.steady + _braking(foot) * WHEEL / gear)


def rolled(speed: float, foot: Foot, weather: Weather, push: float, duration: float) -> float:
    """Return the speed of a car after a step by itself [m/s], with a push by the clutch [N]."""
    way = road(1.0, wheel=1.0, mass=MASS, front=FRONT, slope=foot.slope, density=weather.density)
    slowing = (way.steady + way.square * speed**2 + _braking(foot) - push) / MASS
    return max(speed - duration * slowing, 0.0)


def _braking(foot: Foot) -> float:
    """Return what the brake takes [N]."""
    return foot.brake * BRAKES * GRAVITY * MASS
