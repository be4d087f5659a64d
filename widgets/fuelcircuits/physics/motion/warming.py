"""What warms up as an engine runs: coolant and coil, and the choke and start timer they work."""

from fuelcircuits.physics.circuits.choke import coil_step
from fuelcircuits.physics.motion.coolant import coolant_step
from fuelcircuits.physics.motion.crank import STALL
from fuelcircuits.physics.motion.hinge import enriched, plate_step
from fuelcircuits.physics.motion.moving import Car, Motion

__all__ = ["warmed"]


def warmed(car: Car, now: Motion, duration: float, *, ignition: bool) -> Motion:
    """Return everything with coolant, choke and start timer a step on."""
    rig, outside, running = car.rig, car.weather.temperature, ignition and now.speed >= STALL
    warm = coolant_step(rig.hot_soak, now.coolant, outside, duration, running=running)
    ran = now.ran + duration if now.running else now.ran
    timed = enriched(rig.cold_start, warm, ran, vacuum=now.vacuum)
    now = now._replace(coolant=warm, enrichment=timed)
    return now if rig.choke is None else _choked(car, now, duration, heated=running)


def _choked(car: Car, now: Motion, duration: float, *, heated: bool) -> Motion:
    """Return everything with coil and choke plate a step on."""
    choke, outside = car.rig.choke, car.weather.temperature
    coil = coil_step(choke, now.coil, outside, duration, heated=heated)
    plate = plate_step(
        choke,
        car.rig.air_path,
        car.weather,
        now.choke,
        coil=coil,
        air_flow=now.network.flows.choke if now.speed else 0.0,
        vacuum=now.vacuum,
        throttle=now.throttle,
        duration=duration,
    )
    return now._replace(coil=coil, choke=plate)
