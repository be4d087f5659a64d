"""From pedal and cam to the throttle, and who holds the speed meanwhile."""

from fuelcircuits.errors import between
from fuelcircuits.physics.motion.hinge import cam_step
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["linked", "pedalled"]

FASTEST = 1000.0
"""Speed beyond which no stand turns an engine [rad/s]."""


def pedalled(car: Car, pedal: float) -> float:
    """Return how far a pedal [1] alone opens the throttle beyond its stop [rad]."""
    return (OPEN - car.stop) * between("pedal", pedal, 0.0, 1.0)


def linked(car: Car, now: Motion, controls: Controls, duration: float) -> Motion:
    """Return everything with throttle and speed as they are during the step."""
    lifted, crank = pedalled(car, controls.pedal), car.rig.hot_soak.crank_speed
    cam, speed = now.cam, now.speed
    if car.rig.choke is not None:
        cam = cam_step(car.rig.choke, cam, lifted, now.choke)
    if controls.speed is not None:
        speed = between("speed", controls.speed, 0.0, FASTEST, "rad/s")
    elif controls.starter:
        speed = max(speed, crank)
    return now._replace(
        time=now.time + duration,
        pedal=controls.pedal,
        cam=cam,
        throttle=min(car.stop + max(lifted, cam), OPEN),
        speed=speed,
    )
