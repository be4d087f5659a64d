"""Fire, and the crankshaft that it turns."""

from fuelcircuits.physics.motion.burning import NOTHING, burning
from fuelcircuits.physics.motion.crank import REST, STALL, speed_step
from fuelcircuits.physics.motion.moving import Car, Controls, Motion

__all__ = ["driven"]


def driven(car: Car, now: Motion, controls: Controls, duration: float) -> Motion:
    """Return everything with the fire of this step, and the speed after it."""
    breath = now.air
    if now.speed < REST:
        return now._replace(speed=0.0, ran=-1.0, burning=NOTHING)
    sparks = controls.ignition and (controls.starter or now.speed >= STALL)
    burnt = burning(
        car.rig,
        car.weather,
        car.fuel,
        breath.state,
        now.charge * breath.taken / breath.held,
        speed=now.speed,
        coolant=now.coolant,
        ignition=sparks,
    )
    speed, road = now.speed, controls.road
    if controls.speed is None:
        falls = burnt.falls * breath.answered + 2.0 * road.square * speed
        left = burnt.torque - road.torque(speed)
        speed = speed_step(speed, left, falls, car.rig.engine.inertia + road.inertia, duration)
        if controls.starter:
            speed = max(speed, car.rig.hot_soak.crank_speed)
    runs = sparks and speed >= STALL
    ran = (now.ran + duration if now.running else 0.0) if runs else -1.0
    return now._replace(speed=speed, ran=ran, burning=burnt)
