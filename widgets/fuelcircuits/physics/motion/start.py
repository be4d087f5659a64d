"""How warm and how wet everything is when a drive begins, and everything then."""

from typing import NamedTuple

from fuelcircuits.physics.circuits.canister import sorption
from fuelcircuits.physics.circuits.choke import fast_idle
from fuelcircuits.physics.circuits.choke_plate import plate_angle
from fuelcircuits.physics.circuits.float_bowl import steady
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.bowl import Bowl, bowl_vapour
from fuelcircuits.physics.motion.burning import NOTHING, burning
from fuelcircuits.physics.motion.film import steady_film, wetting
from fuelcircuits.physics.motion.linkage import pedalled
from fuelcircuits.physics.motion.manifold import Breath, breathed, holds, purge_flow
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.motion.pump_shot import pump_rest
from fuelcircuits.physics.motion.settings import boiler_of, settings_of
from fuelcircuits.physics.motion.soak_run import SoakRun
from fuelcircuits.physics.motion.well import well_depths
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import curb_idle, solve
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["Start", "begun", "set_up"]

LONG = 3600.0
"""Time for which a running engine is taken to have run [s]."""
ROUNDS = 3
"""Rounds in which the flow of a running engine and the level in its bowl settle together [1]."""


class Start(NamedTuple):
    """How warm and how wet everything is when a drive begins."""

    coolant: float  # K
    coil: float  # K, of the choke
    bowl: float  # K
    running: bool = False  # whether it has run for long
    lost_share: float = 0.0  # share of the bowl's fuel that has boiled off [1]
    puddle: float = 0.0  # kg of fuel in bore and manifold of an engine that stands
    level: float | None = None  # m above the bowl's floor; the steady level if None
    load: float = 0.0  # kg of fuel in the canister's bed
    near: State | None = None  # a network like that at the beginning, if one is known

    @classmethod
    def cold(cls, weather: Weather) -> "Start":
        """Return a start with all at the temperature outside and a dry intake."""
        air = weather.temperature
        return cls(air, air, air)

    @classmethod
    def warm(cls, rig: Rig, weather: Weather) -> "Start":
        """Return a start in the middle of a long run."""
        air, soak = weather.temperature, rig.hot_soak
        rise = 0.0 if rig.choke is None else rig.choke.heat_rise
        return cls(soak.block_temperature, air + rise, air + soak.bowl_rise, True)

    @classmethod
    def after(cls, rig: Rig, run: SoakRun, index: int = -1) -> "Start":
        """Return a start after the part of a hot soak up to one of its times."""
        bowl = rig.float_bowl
        left, gone = run.fuel_left[index], run.boiled[index]
        return cls(
            coolant=run.block[index],
            coil=run.coil[index],
            bowl=run.bowl[index],
            lost_share=gone / (gone + left),
            puddle=run.intake[index],
            level=(bowl.depth - bowl.specified_level) * left / run.fuel_left[0],
            load=run.stored[index],
        )


def set_up(rig: Rig, weather: Weather, fuel: Fuel | None = None) -> Car:
    """Return a car whose idle stop has been set on a standard day, warm.

    Parameters
    ----------
    rig, weather, fuel
        The carburettor on its engine, the air it meets, and what it burns.
    """
    petrol = fuel or Fuel()
    return Car(rig, weather, petrol, curb_idle(rig, Weather.at(), petrol).throttle_angle)


def begun(car: Car, start: Start, controls: Controls | None = None) -> Motion:
    """Return everything at the beginning.

    Parameters
    ----------
    car
        What is driven.
    start
        How warm and wet it is. An engine that stands has had its pedal pressed once, which lets
        the choke shut and sets the cam.
    controls
        Pedal and speed that a running engine has been kept at for long; idle if not given.

    Raises
    ------
    ConvergenceError
        If the network has no balance.
    """
    held = controls or Controls()
    speed = car.rig.engine.idle_speed if held.speed is None else held.speed
    if not start.running:
        speed = car.rig.hot_soak.crank_speed
    still = _still(car, start, held, speed)
    if not start.running:
        return still._replace(puddle=start.puddle)
    return _running(car, still, speed)


def _still(car: Car, start: Start, controls: Controls, speed: float) -> Motion:
    """Return a car whose engine stands, with a network from which to go on."""
    rig, weather, choke, cam = car.rig, car.weather, OPEN, 0.0
    if rig.choke is not None:
        choke = plate_angle(rig.choke, rig.air_path, weather, start.coil)
        cam = fast_idle(rig.choke, choke)
    throttle = min(car.stop + max(pedalled(car, controls.pedal), cam), OPEN)
    vented, where = Settings(choke_angle=choke), (rig, weather, car.fuel, speed, throttle)
    network = start.near or solve(*where, settings=vented, other=car.other)
    of = pose(rig, weather, car.fuel, vented, car.other)
    full = holds(of) * weather.pressure
    filled = Breath(network, weather.pressure, full, 0.0, 0.0, 0.0, 0.0, 0.0)
    level = start.level
    if level is None:
        level = steady(rig.float_bowl, car.fuel, 0.0, temperature=weather.temperature).level
    return Motion(
        time=0.0,
        speed=0.0,
        ran=-1.0,
        pedal=controls.pedal,
        throttle=throttle,
        air=filled,
        film=0.0,
        charge=0.0,
        wells=(0.0,) * len(network.pressures.well),
        pump=pump_rest(rig.pump, throttle),
        bowl=Bowl(level, start.bowl, start.lost_share),
        coolant=start.coolant,
        coil=start.coil,
        choke=choke,
        cam=cam,
        enrichment=0.0,
        load=start.load,
        shot=0.0,
        metered=0.0,
        burning=NOTHING,
    )


def _running(car: Car, still: Motion, speed: float) -> Motion:
    """Return a car that has run at one speed and pedal for long."""
    rig, weather, fuel = car.rig, car.weather, car.fuel
    vapour = bowl_vapour(boiler_of(car, still), still.bowl)
    now = still._replace(ran=LONG, speed=speed, bowl=still.bowl._replace(vapour=vapour))
    for _ in range(ROUNDS):
        now = now._replace(air=_settled(car, now))
        level = steady(rig.float_bowl, fuel, now.air.asked, temperature=weather.temperature).level
        now = now._replace(bowl=now.bowl._replace(level=level))
    air, flow = now.air, now.air.asked
    wall = wetting(rig.wall_film, rig.engine.displacement, air.pressure, air.taken, now.coolant)
    bed = rig.canister
    drawn = flow + (0.0 if bed is None else sorption(bed, now.load, 0.0, air.purge).purged)
    density = liquid.density(fuel, now.bowl.temperature)
    rigs = [rig, car.other] if car.other else [rig]
    circuits = [each.high_speed or rig.high_speed for each in rigs]
    burnt = burning(
        rig, weather, fuel, now.network, drawn, speed=speed, coolant=now.coolant, ignition=True
    )
    return now._replace(
        film=steady_film(wall, flow),
        charge=drawn * air.held / air.taken,
        wells=well_depths(circuits, now.network, density),
        metered=flow,
        burning=burnt,
    )


def _settled(car: Car, now: Motion) -> Breath:
    """Return what the air does once it has done so for long."""
    of = pose(car.rig, car.weather, car.fuel, settings_of(car, now), car.other)
    purge = purge_flow(car.rig.canister, car.weather, now.air.pressure)
    at = place(of, now.speed, now.throttle)
    return breathed(of, at, now.air.held, LONG, purge=purge, start=now.network)
