"""What a moment is for the steady parts: the network's settings, the fuel's warmth, the vents."""

from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.motion.boiling import Boiler, boiler
from fuelcircuits.physics.motion.moving import Car, Motion
from fuelcircuits.physics.motion.pump_shot import Liquid
from fuelcircuits.physics.network.settings import Settings

__all__ = ["boiler_of", "fuel_density", "fuel_inside", "settings_of"]

LOWEST, HIGHEST = -40e-3, 20e-3
"""Levels above the specified one that the network takes [m]."""
COLDEST, HOTTEST = 233.0, 363.0
"""Temperatures of the fuel that the network takes [K]."""
MOST_VAPOUR = 1e-3
"""Vapour in the bowl that the network takes [kg/s]."""


def settings_of(car: Car, now: Motion, *, ignition: bool = True) -> Settings:
    """Return what choke, bowl and timer are for the network."""
    level = now.bowl.level - car.card_level
    return Settings(
        choke_angle=now.choke,
        bowl_level=min(max(level, LOWEST), HIGHEST),
        vapour=min(now.bowl.vapour, MOST_VAPOUR),
        idle_enrichment=now.enrichment,
        ignition=float(ignition),
        fuel_temperature=_fuel_warmth(now),
    )


def boiler_of(car: Car, now: Motion, *, ignition: bool = True) -> Boiler:
    """Return the bowl with its vents as throttle and ignition have them."""
    return boiler(
        car.rig.hot_soak,
        car.rig.vents,
        car.fuel,
        car.weather.pressure,
        throttle=now.throttle,
        ignition=float(ignition),
    )


def _fuel_warmth(now: Motion) -> float:
    """Return the fuel's temperature [K]."""
    return min(max(now.bowl.temperature, COLDEST), HOTTEST)


def fuel_density(car: Car, now: Motion) -> float:
    """Return the density of the fuel in the bowl [kg/m3]."""
    return liquid.density(car.fuel, _fuel_warmth(now))


def fuel_inside(car: Car, now: Motion) -> Liquid:
    """Return what the pump is filled with."""
    return Liquid(fuel_density(car, now), liquid.viscosity(car.fuel, _fuel_warmth(now)))
