"""A car on a drive, one fixed step after another: the same feet give the same numbers.

There is no clutch in the model. In gear the wheels turn with the engine; when a gear goes in, a
car that rolls turns the engine at the speed that goes with it, and one that stands rolls off as
the engine turns. Out of gear the car rolls on and slows down.
"""

from typing import NamedTuple

from fuelcircuits.benches.drive.foot import Foot, road_of, turns
from fuelcircuits.benches.drive.outing import Outing, wrong_with
from fuelcircuits.errors import RangeError
from fuelcircuits.faults import FAULTS
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.crank import STALL, road
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.motion.soak_run import soak_run
from fuelcircuits.physics.motion.start import Start, begun, set_up
from fuelcircuits.physics.motion.step import stepped
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["SOAK", "STEP", "Driven", "Moment", "away", "onward"]

STEP = 0.02
"""Length of every step [s]."""
SOAK = 900.0
"""For how long a hot engine has stood [s]."""
MASS, FRONT = 1500.0, 2.0
"""Mass [kg] and frontal area [m2] of the car that rolls."""
NOWHERE = Settings()


class Driven(NamedTuple):
    """A car on an outing."""

    outing: Outing
    car: Car
    fault: str  # its name; nothing if all is in order
    held: Settings  # what a fault of condition makes of choke plate and bowl


class Moment(NamedTuple):
    """Everything at the end of a step."""

    motion: Motion
    foot: Foot
    road_speed: float  # m/s


def away(outing: Outing, rig: Rig) -> tuple[Driven, Moment]:
    """Return a car, and everything when the drive begins.

    The idle stop has been set warm, on a standard day, before anything went wrong.

    Parameters
    ----------
    outing
        What is settled before.
    rig
        The healthy rig, of the name that the outing says.

    Raises
    ------
    RangeError
        If the rig is another, or cannot have the fault.
    ConvergenceError
        If nothing balances under these conditions.
    """
    if rig.name != outing.rig:
        raise RangeError(f"rig must be {outing.rig}, which was driven, got {rig.name}")
    weather, name = Weather.at(outing.altitude, outing.outside), wrong_with(outing, rig)
    whole = set_up(rig, weather)
    faulty, held = rig, NOWHERE
    if name:
        faulty = FAULTS[name].apply(rig, outing.severity)
        held = FAULTS[name].settings(rig, NOWHERE, outing.severity)
    driven = Driven(outing, whole._replace(rig=faulty), name, held)
    foot = Foot(outing.pedal, outing.gear)
    motion = _afflicted(driven, begun(driven.car, _start(driven), _kept(outing)))
    turning = turns(foot.gear)
    return driven, Moment(motion, foot, motion.speed / turning if turning else 0.0)


def _start(driven: Driven) -> Start:
    """Return how warm and how wet everything is."""
    rig, weather = driven.car.rig, driven.car.weather
    if driven.outing.engine == "cold":
        return Start.cold(weather)
    if driven.outing.engine == "warm":
        return Start.warm(rig, weather)
    return Start.after(rig, soak_run(rig, weather, Fuel(), [0.0, SOAK]))


def _kept(outing: Outing) -> Controls:
    """Return the pedal and speed at which a warm engine has run."""
    return Controls(pedal=outing.pedal, speed=outing.speed or None)


def onward(driven: Driven, now: Moment, foot: Foot) -> Moment:
    """Return everything one step later.

    Parameters
    ----------
    driven, now
        The car, and everything at the start of the step.
    foot
        What the driver does during it.

    Raises
    ------
    ConvergenceError
        If the network has no balance.
    """
    way = road_of(foot, driven.car.weather)
    controls = Controls(
        pedal=foot.pedal, road=way, starter=foot.starter and foot.key, ignition=foot.key
    )
    motion = now.motion
    if foot.gear != now.foot.gear:
        motion = motion._replace(speed=_shifted(now, foot))
    motion = _afflicted(driven, stepped(driven.car, motion, controls, STEP))
    turning = turns(foot.gear)
    speed = motion.speed / turning if turning else _rolled(driven, now, foot)
    return Moment(motion, foot, speed)


def _shifted(now: Moment, foot: Foot) -> float:
    """Return the crankshaft's speed once another gear is in [rad/s]."""
    wanted = turns(foot.gear) * now.road_speed
    return wanted if wanted >= STALL else now.motion.speed


def _rolled(driven: Driven, now: Moment, foot: Foot) -> float:
    """Return the speed of a car out of gear after a step [m/s]; it does not roll back."""
    way = road(
        1.0, wheel=1.0, mass=MASS, front=FRONT, slope=foot.slope, density=driven.car.weather.density
    )
    slowing = (way.steady + way.square * now.road_speed**2) / MASS
    return max(now.road_speed - STEP * slowing, 0.0)


def _afflicted(driven: Driven, motion: Motion) -> Motion:
    """Return everything with what a fault of condition holds fast."""
    held = driven.held
    if held == NOWHERE:
        return motion
    if held.choke_angle < OPEN:
        motion = motion._replace(choke=held.choke_angle)
    if held.fuel_temperature is not None:
        bowl = motion.bowl
        warm = max(bowl.temperature, held.fuel_temperature)
        motion = motion._replace(
            bowl=bowl._replace(temperature=warm, vapour=max(bowl.vapour, held.vapour))
        )
    return motion
