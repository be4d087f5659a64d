"""What the engine draws in: the air, and the fuel with its detour over the wall."""

from fuelcircuits.physics.circuits.canister import sorption
from fuelcircuits.physics.motion.charge import charge_step
from fuelcircuits.physics.motion.crank import REST
from fuelcircuits.physics.motion.film import film_step, wetting
from fuelcircuits.physics.motion.manifold import Breath, breathed, purge_flow, standing
from fuelcircuits.physics.motion.moving import Car, Motion
from fuelcircuits.physics.motion.puddle import puddle_step
from fuelcircuits.physics.motion.settings import settings_of
from fuelcircuits.physics.network.posing import place, pose

__all__ = ["carried", "inhaled"]


def inhaled(car: Car, now: Motion, duration: float, *, ignition: bool) -> Breath:
    """Return what the air does."""
    settings = settings_of(car, now, ignition=ignition)
    of = pose(car.rig, car.weather, car.fuel, settings, car.other)
    if now.speed < REST:
        return standing(of, now.network, now.air.held, duration)
    purge = purge_flow(car.rig.canister, car.weather, now.air.pressure)
    at = place(of, now.speed, now.throttle)
    return breathed(of, at, now.air.held, duration, purge=purge, start=now.network)


def carried(car: Car, now: Motion, duration: float) -> Motion:
    """Return everything with the fuel a step further on its way to the cylinders."""
    rig, breath = car.rig, now.air
    wall = wetting(
        rig.wall_film, rig.engine.displacement, breath.pressure, breath.taken, now.coolant
    )
    film = film_step(wall, now.film, now.metered, duration)
    purged, load = 0.0, now.load
    if rig.canister is not None:
        purged = sorption(rig.canister, load, 0.0, breath.purge).purged
        load -= duration * purged
    puddle = puddle_step(rig.hot_soak, now.puddle, now.speed, duration)
    arrived = now.metered - (film - now.film + puddle - now.puddle) / duration + purged
    charge = charge_step(now.charge, arrived, breath.taken, breath.held, duration)
    books = now.books.after(
        duration,
        air_in=breath.inflow,
        air_taken=breath.taken,
        purged=purged,
        drawn=charge * breath.taken / breath.held,
    )
    return now._replace(film=film, puddle=puddle, charge=charge, load=load, books=books)
