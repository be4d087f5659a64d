"""The wall film's entries on a card; how it grows and dries: `fuelcircuits.physics.motion.film`."""

from dataclasses import dataclass

from fuelcircuits.physics.entry import Section, entry

__all__ = ["WallFilm"]


@dataclass(frozen=True)
class WallFilm(Section):
    """How much of the fuel wets the wall of the manifold, and for how long.

    Share and time are those at a manifold pressure of 1 bar, with 10 kg/s of air for each cubic
    metre of displacement and the coolant at 90 degC. The powers say how they move from there;
    the defaults were fitted to what a driver feels and to no measurement.
    """

    wetting_share: float = entry("1", 0, 0.95, "share of the metered fuel that lands on the wall")
    warm_time: float = entry("s", 0.02, 10, "time constant of the film")
    cold_doubling: float = entry(
        "K", 5, 200, "fall in coolant temperature that doubles the time constant", 30.0
    )
    share_by_pressure: float = entry("1", 0, 4, "power of the pressure in the share", 3.5)
    share_by_air: float = entry("1", 0, 2, "power of the air flow under the share", 0.08)
    time_by_pressure: float = entry("1", 0, 4, "power of the pressure in the time", 0.65)
    time_by_air: float = entry("1", 0, 2, "power of the air flow under the time", 1.08)
