"""A car on a drive, one fixed step after another: the same feet give the same numbers.

`clutch` says how engine and wheels turn together; the rest is `physics.motion`.
"""

from typing import NamedTuple

from fuelcircuits.benches.drive.clutch import Coupled, Shafts, coupled, road_of, rolled
from fuelcircuits.benches.drive.foot import Foot, turns
from fuelcircuits.benches.drive.outing import Outing, wrong_with
from fuelcircuits.errors import RangeError
from fuelcircuits.faults import find
from fuelcircuits.physics.matter.atmosphere import Weather
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
    name, severity = wrong_with(outing, rig)
    weather = Weather.at(outing.altitude, outing.outside)
    whole = set_up(rig, weather)
    held = find(name).settings(rig, NOWHERE, severity) if name else NOWHERE
    driven = Driven(outing, _with_fault(whole, name, severity), name, held)
    foot = Foot(outing.pedal, outing.gear)
    motion = _afflicted(driven, begun(driven.car, _start(driven), _kept(outing)))
    turning = turns(foot.gear)
    return driven, Moment(motion, foot, motion.speed / turning if turning else 0.0)


def _with_fault(whole: Car, name: str, severity: float) -> Car:
    """Return a car with what a fault makes of its rig and of its fuel."""
    if not name:
        return whole
    fault = find(name)
    return whole._replace(
        rig=fault.apply(whole.rig, severity), fuel=fault.fuel(whole.fuel, severity)
    )


def _start(driven: Driven) -> Start:
    """Return how warm and how wet everything is."""
    rig, weather, fuel = driven.car.rig, driven.car.weather, driven.car.fuel
    if driven.outing.engine == "cold":
        return Start.cold(weather)
    if driven.outing.engine == "warm":
        return Start.warm(rig, weather)
    return Start.after(rig, soak_run(rig, weather, fuel, [0.0, SOAK]))


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
    weather, turning = driven.car.weather, turns(foot.gear)
    into = _coupled(driven, now, foot)
    controls = Controls(
        pedal=foot.pedal, road=into.way, starter=foot.starter and foot.key, ignition=foot.key
    )
    motion = stepped(driven.car, now.motion._replace(speed=into.engine), controls, STEP)
    motion = _afflicted(driven, motion)
    if into.push is None:
        return Moment(motion, foot, motion.speed / turning)
    return Moment(motion, foot, rolled(now.road_speed, foot, weather, into.push, STEP))


def _coupled(driven: Driven, now: Moment, foot: Foot) -> Coupled:
    """Return how engine and wheels go into a step."""
    shafts = Shafts(
        engine=now.motion.speed,
        wheels=turns(foot.gear) * now.road_speed,
        inertia=driven.car.rig.engine.inertia,
        torque=now.motion.burning.torque,
        way=road_of(foot, driven.car.weather),
    )
    return coupled(now.foot, foot, shafts, STEP)


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
