"""How warm and how wet everything is when a drive begins."""

from typing import NamedTuple

from fuelcircuits.physics.circuits.choke import coil_step
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.motion.soak_run import SoakRun
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Start"]


class Start(NamedTuple):
    """How warm and how wet everything is when a journey begins."""

    coolant: float  # K
    coil: float  # K, of the choke
    bowl: float  # K
    lost_share: float = 0.0  # share of the bowl's fuel that has boiled off [1]
    film: float | None = None  # kg of fuel on the intake wall; the steady film if None
    level: float | None = None  # m above the bowl's floor; the steady level if None
    load: float = 0.0  # kg of fuel in the canister's bed

    @classmethod
    def cold(cls, weather: Weather) -> "Start":
        """Return a start with all at the temperature outside and a dry intake."""
        air = weather.temperature
        return cls(air, air, air, film=0.0)

    @classmethod
    def warm(cls, rig: Rig, weather: Weather) -> "Start":
        """Return a start that follows on a long run."""
        air = weather.temperature
        soak, choke = rig.hot_soak, rig.choke
        return cls(soak.block_temperature, air + choke.heat_rise, air + soak.bowl_rise)

    @classmethod
    def after(cls, rig: Rig, weather: Weather, run: SoakRun, index: int = -1) -> "Start":
        """Return a start after the part of a hot soak up to one of its times."""
        air, choke, bowl = weather.temperature, rig.choke, rig.float_bowl
        coil = coil_step(choke, air + choke.heat_rise, air, run.times[index], heated=False)
        left, gone = run.fuel_left[index], run.boiled[index]
        return cls(
            coolant=run.block[index],
            coil=coil,
            bowl=run.bowl[index],
            lost_share=gone / (gone + left),
            film=run.intake[index],
            level=(bowl.depth - bowl.specified_level) * left / run.fuel_left[0],
        )
