"""How the carburettor is set and what state it is in: everything that is not on the spec card."""

from dataclasses import dataclass

from fuelcircuits.errors import between
from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["WARM", "Settings"]


@dataclass(frozen=True)
class Settings(Section):
    """State of choke, bowl and ignition."""

    choke_angle: float = entry(
        "rad", 0, OPEN, "choke plate's angle from the plane across the horn", OPEN
    )
    bowl_level: float = entry(
        "m", -40e-3, 20e-3, "fuel level in the bowl above the specified one", 0.0
    )
    ignition: float = entry("1", 0, 1, "1 with the ignition on, 0 with it off", 1.0)
    vapour: float = entry("kg/s", 0, 1e-3, "fuel vapour made in the bowl", 0.0)
    idle_enrichment: float = entry(
        "1", 0, 1, "how far cold-start enrichment shuts the idle air it can shut", 0.0
    )
    bowl_pressure: float | None = None
    """Bowl pressure [Pa], absolute, if it is imposed; otherwise the vents' balance gives it."""
    fuel_temperature: float | None = None
    """Temperature of the fuel in the bowl [K]; that of the air outside if not given."""
    canister_pressure: float | None = None
    """Pressure at the far end of the canister line [Pa]; ambient if not given."""

    def __post_init__(self) -> None:
        """Check every entry, and what may be left out."""
        super().__post_init__()
        if self.bowl_pressure is not None:
            between("bowl pressure", self.bowl_pressure, 30e3, 130e3, "Pa")
        if self.fuel_temperature is not None:
            between("fuel temperature", self.fuel_temperature, 233.0, 363.0, "K")
        if self.canister_pressure is not None:
            between("canister pressure", self.canister_pressure, 30e3, 130e3, "Pa")


WARM = Settings()
"""A warm engine with the choke open."""
