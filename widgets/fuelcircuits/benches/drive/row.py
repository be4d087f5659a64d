"""What a drive comes to at one moment: a row of plain numbers, in SI."""

from typing import NamedTuple

from fuelcircuits.benches.drive.driven import Driven, Moment
from fuelcircuits.physics.circuits.bowl_filling import COVER
from fuelcircuits.physics.circuits.canister import Canister, sorption
from fuelcircuits.physics.circuits.power import rod_lift
from fuelcircuits.physics.motion.moving import Motion

__all__ = ["BREATH", "Row", "row_of"]

BREATH = 1e-6
"""Air from which on there is a mixture [kg/s]."""


class Row(NamedTuple):
    """One moment of a drive."""

    time: float  # s
    pedal: float  # share of its way [1]
    speed: float  # rad/s, the crankshaft's
    road_speed: float  # m/s
    vacuum: float  # Pa, in the manifold
    port: float  # Pa, vacuum behind the idle ports
    mixture: float  # lambda of what the cylinders take [1]
    burnt: float  # lambda of what burns of it [1]
    fires: float  # share of the cycles that fire [1]
    torque: float  # N m
    air: float  # kg/s that the engine takes
    screw: float  # kg/s of fuel past the mixture screws
    slot: float  # kg/s by the slots at the throttles' edges
    main: float  # kg/s by the main nozzles, without what the rods add and with what wells lend
    power: float  # kg/s that the metering rods add
    pump: float  # kg/s by the accelerator pump
    spill: float  # kg/s that spits out of air bleeds
    film: float  # kg on the wall
    throttle: float  # rad
    choke: float  # rad
    lift: float  # of the metering rods, share of their travel [1]
    level: float  # m of fuel in the bowl above the card's level
    coolant: float  # K
    bowl: float  # K, the fuel in the bowl
    enrichment: float  # share of the idle air that the start timer has shut [1]
    running: float  # 1 while the engine runs by itself
    bed: float = -1.0  # fuel in the canister, share of what it can hold [1]; -1 without a canister
    purged: float = 0.0  # kg/s of fuel that the engine draws from it

    @property
    def fuel(self) -> float:
        """Fuel into the air by all circuits [kg/s]."""
        return self.screw + self.slot + self.main + self.power + self.pump + self.spill


def row_of(driven: Driven, now: Moment) -> Row:
    """Return what a drive comes to at a moment."""
    motion, flows = now.motion, _flows(now.motion)
    burning, ports = motion.burning, motion.network.chamber_vacuum
    turning = motion.speed > 0.0
    return Row(
        time=motion.time,
        pedal=now.foot.pedal,
        speed=motion.speed,
        road_speed=now.road_speed,
        vacuum=motion.vacuum,
        port=sum(ports) / len(ports) if turning else 0.0,
        mixture=burning.mixture,
        burnt=burning.burnt,
        fires=burning.fires,
        torque=burning.torque,
        air=burning.air,
        **flows,
        film=motion.film,
        throttle=motion.throttle,
        choke=motion.choke,
        lift=rod_lift(driven.car.rig.power, motion.vacuum) if driven.car.rig.power else 0.0,
        level=motion.bowl.level - driven.car.card_level,
        coolant=motion.coolant,
        bowl=motion.bowl.temperature,
        enrichment=motion.enrichment,
        running=float(motion.running),
        **_canister(motion, driven.car.rig.canister),
    )


def _canister(motion: Motion, canister: Canister | None) -> dict[str, float]:
    """Return what the canister holds, and what is drawn from it."""
    if canister is None:
        return {"bed": -1.0, "purged": 0.0}
    drawn = sorption(canister, motion.load, 0.0, motion.air.purge).purged
    return {"bed": motion.load / canister.capacity, "purged": drawn}


def _flows(motion: Motion) -> dict[str, float]:
    """Return the fuel by circuit; together it is what has been metered."""
    if not motion.air.asked:
        idle = dict.fromkeys(("screw", "slot", "power", "spill"), 0.0)
        return idle | {"main": motion.metered - motion.shot, "pump": motion.shot}
    covered = min(motion.bowl.level / COVER, 1.0)
    ways = {name: covered * flow for name, flow in motion.network.fuel_by_circuit.items()}
    ways |= {"power": covered * motion.network.power_fuel, "pump": motion.shot}
    del ways["nozzle"]
    return ways | {"main": motion.metered - sum(ways.values())}
