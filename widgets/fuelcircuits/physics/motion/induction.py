"""What the engine draws in: the air, and the fuel with its detour over the wall."""

from math import ceil

from fuelcircuits.physics.circuits.canister import sorption
from fuelcircuits.physics.motion.charge import charge_step
from fuelcircuits.physics.motion.crank import REST
from fuelcircuits.physics.motion.film import film_step, wetting
from fuelcircuits.physics.motion.manifold import Breath, breathed, purge_flow, standing
from fuelcircuits.physics.motion.moving import Car, Motion
from fuelcircuits.physics.motion.puddle import puddle_step
from fuelcircuits.physics.motion.settings import settings_of
from fuelcircuits.physics.motion.stillness import ROUGH, again, unmoved
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.numerics.newton import GOOD

__all__ = ["carried", "inhaled"]

SHORT, MOST = 0.025, 8
"""Longest step of wall and charge [s], and into how many a step is cut at most [1]."""


def inhaled(
    car: Car, now: Motion, duration: float, *, ignition: bool, drawn: bool = False
) -> Breath:
    """Return what the air does."""
    last, settings = now.air, settings_of(car, now, ignition=ignition)
    purge = purge_flow(car.rig.canister, car.weather, last.pressure)
    if drawn and unmoved(last, settings, now.speed, now.throttle, purge):
        return again(last)
    of = pose(car.rig, car.weather, car.fuel, settings, car.other)
    if now.speed < REST:
        return standing(of, last.state, last.held, duration)
    at, good = place(of, now.speed, now.throttle), ROUGH if drawn else GOOD
    found = breathed(of, at, last.held, duration, purge=purge, start=last.state, good=good)
    return found._replace(settings=settings)


def carried(car: Car, now: Motion, duration: float) -> Motion:
    """Return everything with the fuel a step further on its way to the cylinders.

    Wall and charge answer within a tenth of a second: a long step is cut for them.
    """
    rig, breath = car.rig, now.air
    wall = wetting(
        rig.wall_film, rig.engine.displacement, breath.pressure, breath.taken, now.coolant
    )
    purged = 0.0
    if rig.canister is not None:
        purged = sorption(rig.canister, now.load, 0.0, breath.purge).purged
    count = min(ceil(duration / SHORT), MOST)
    part, drawn = duration / count, 0.0
    film, puddle, charge = now.film, now.puddle, now.charge
    for _ in range(count):
        wet, left = film, puddle
        film = film_step(wall, film, now.metered, part)
        puddle = puddle_step(rig.hot_soak, puddle, now.speed, part)
        arrived = now.metered - (film - wet + puddle - left) / part + purged
        charge = charge_step(charge, arrived, breath.taken, breath.held, part)
        drawn += charge * breath.taken / breath.held / count
    books = now.books.after(
        duration, air_in=breath.inflow, air_taken=breath.taken, purged=purged, drawn=drawn
    )
    load = now.load - duration * purged
    return now._replace(film=film, puddle=puddle, charge=charge, load=load, books=books)
