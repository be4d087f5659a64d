"""What is driven, what the driver does, and everything that moves at one instant."""

from typing import NamedTuple

from fuelcircuits.physics.circuits.pump import Pump, effective_area
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.bowl import Bowl
from fuelcircuits.physics.motion.burning import Burning
from fuelcircuits.physics.motion.crank import NEUTRAL, Road
from fuelcircuits.physics.motion.manifold import Breath
from fuelcircuits.physics.motion.pump_shot import Plunger
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State

__all__ = ["Books", "Car", "Controls", "Motion", "chamber_fuel"]


class Car(NamedTuple):
    """What is driven."""

    rig: Rig  # choke, canister and cold_start may be missing
    weather: Weather
    fuel: Fuel
    stop: float  # rad, throttle on its idle stop
    other: Rig | None = None  # the circuits of a second barrel that differs

    @property
    def card_level(self) -> float:
        """Level that the card asks for, above the bowl's floor [m]."""
        return self.rig.float_bowl.depth - self.rig.float_bowl.specified_level


class Controls(NamedTuple):
    """What the driver does, and what road or test stand do."""

    pedal: float = 0.0  # share of the way from the idle stop to wide open [1]
    speed: float | None = None  # rad/s at which a stand holds the crankshaft; None: it is free
    road: Road = NEUTRAL
    starter: bool = False
    ignition: bool = True


class Books(NamedTuple):
    """What has passed since the beginning [kg]."""

    air_in: float = 0.0  # into the manifold, by carburettor, leak and purge
    air_taken: float = 0.0  # by the engine
    bowl_in: float = 0.0  # fuel past the needle
    jets: float = 0.0  # fuel out of the bowl by the main jets
    pumped: float = 0.0  # fuel out of the bowl by the pump, less what came back
    boiled: float = 0.0  # fuel out of the bowl as vapour
    spilled: float = 0.0  # fuel run over
    metered: float = 0.0  # fuel into the air by circuits and pump
    purged: float = 0.0  # fuel out of the canister's bed
    drawn: float = 0.0  # fuel by the engine

    def after(self, duration: float, **flows: float) -> "Books":
        """Return the books after a step [s] with some flows [kg/s]."""
        grown = {name: getattr(self, name) + duration * flow for name, flow in flows.items()}
        return self._replace(**grown)


class Motion(NamedTuple):
    """Everything that moves, at one instant, and the flows of the step that led there."""

    time: float  # s
    speed: float  # rad/s
    ran: float  # s since the engine caught; -1 while it does not run by itself
    pedal: float  # share [1]
    throttle: float  # rad, the plate's
    air: Breath
    film: float  # kg on the wall
    charge: float  # kg of fuel in the manifold's air
    wells: tuple[float, ...]  # m that the fuel stands below the set level, one for each barrel
    pump: Plunger
    bowl: Bowl
    coolant: float  # K
    coil: float  # K
    choke: float  # rad
    cam: float  # rad by which it holds the throttle off its stop
    enrichment: float  # share of the idle air that the start timer has shut [1]
    load: float  # kg of fuel in the canister's bed
    shot: float  # kg/s by the pump
    metered: float  # kg/s by all circuits and the pump
    burning: Burning
    puddle: float = 0.0  # kg of fuel that a hot soak has left in bore and manifold
    books: Books = Books()

    @property
    def running(self) -> bool:
        """Whether the engine runs by itself."""
        return self.ran >= 0.0

    @property
    def network(self) -> State:
        """The network's flows and pressures; of an engine that stands, the last."""
        return self.air.state

    @property
    def vacuum(self) -> float:
        """Manifold vacuum [Pa]."""
        return self.network.ambient_pressure - self.air.pressure

    @property
    def delivered(self) -> float:
        """Lambda of what the carburettor meters in the air that the engine takes [1]."""
        needed = self.burning.air / self.network.stoichiometric
        return min(needed / max(self.metered, 1e-9), 9.999)


def chamber_fuel(pump: Pump, at: Plunger) -> float:
    """Return the fuel in a pump's chamber [m3]."""
    return effective_area(pump) * (pump.stroke - at.travel) - at.air
