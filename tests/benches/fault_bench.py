"""A test bench for faults: rigs that have every part, and what a practitioner reads on them."""

from collections.abc import Callable
from dataclasses import replace
from functools import cache

from fuelcircuits.cards import read_rig
from fuelcircuits.faults import FAULTS
from fuelcircuits.physics.circuits import bowl_vents as vents
from fuelcircuits.physics.circuits import choke, float_bowl
from fuelcircuits.physics.circuits.canister import purge_air
from fuelcircuits.physics.circuits.choke_plate import plate_angle
from fuelcircuits.physics.circuits.cold_start import idle_air_open
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion import pump_shot
from fuelcircuits.physics.motion.restart import restart
from fuelcircuits.physics.motion.soak_run import SoakRun, soak_run
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace
from fuelcircuits.physics.openings.plate import OPEN

from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
EQUIPPED = replace(
    PLOVER, vents=DUNLIN.vents, canister=DUNLIN.canister, cold_start=DUNLIN.cold_start
)
"""The plover carburettor with the dunlin's two-way vent, canister and cold-start timer."""
AIR, PETROL, WARM = Weather.at(), Fuel(), Settings()
IDLE = network.curb_idle(PLOVER, AIR, PETROL)
STOP = IDLE.throttle_angle
IDLING = (PLOVER.engine.idle_speed, STOP)
OFF_IDLE, CRUISE, FULL = (150.0, 0.33), (220.0, 0.45), (320.0, OPEN)
COLD_DAY = Weather.at(temperature=268.15)

Reading = Callable[[Rig, Settings], float]


def stand_in(name: str) -> Rig:
    """Return a rig that has the part."""
    return PLOVER if FAULTS[name].fits(PLOVER) else EQUIPPED


def run(rig: Rig, point: tuple[float, float], now: Settings = WARM) -> State:
    return network.solve(rig, AIR, PETROL, *point, settings=now)


def ratio_at(point: tuple[float, float]) -> Reading:
    """Air-fuel ratio by a wide-band instrument."""
    return lambda rig, now: run(rig, point, now).ratio


def vacuum_at(point: tuple[float, float]) -> Reading:
    """Manifold vacuum by a gauge [Pa]."""
    return lambda rig, now: run(rig, point, now).manifold_vacuum


def chamber_at(point: tuple[float, float]) -> Reading:
    """Vacuum behind the idle ports by a water gauge [Pa]."""
    return lambda rig, now: run(rig, point, now).chamber_vacuum[0]


def bowl_at(point: tuple[float, float]) -> Reading:
    """Bowl pressure against the air outside by a water gauge [Pa]."""
    return lambda rig, now: run(rig, point, now).pressures.bowl - AIR.pressure


def hot(reading: Reading) -> Reading:
    """The reading with vapour made in the bowl."""
    return lambda rig, now: reading(rig, replace(now, vapour=2e-5))


def level(rig: Rig, now: Settings) -> float:
    """Fuel level at the demand of idle [m]."""
    return float_bowl.steady(rig.float_bowl, PETROL, IDLE.fuel_flow).level


def full_load_level(rig: Rig, now: Settings) -> float:
    """Fuel level at the demand of full load [m]."""
    return float_bowl.steady(rig.float_bowl, PETROL, 5.5e-3).level


def capacity(rig: Rig, now: Settings) -> float:
    """Most that the inlet passes, by a measuring glass [kg/s]."""
    return float_bowl.inlet_capacity(rig.float_bowl, PETROL)


def with_level(reading: Reading) -> Reading:
    """The reading with the fuel where the float puts it."""

    def leveled(rig: Rig, now: Settings) -> float:
        bowl = rig.float_bowl
        above = level(rig, now) - (bowl.depth - bowl.specified_level)
        return reading(rig, replace(now, bowl_level=above))

    return leveled


def key_off_vent(rig: Rig, now: Settings) -> float:
    """Area through which a stopped engine's bowl breathes into the canister [m2]."""
    return vents.openings(rig.vents, STOP, ignition=0.0).canister


@cache
def soaked(rig: Rig) -> SoakRun:
    """Return half an hour of hot soak."""
    return soak_run(rig, AIR, PETROL, linspace(0.0, 1800.0, 13))


def soak_heat(rig: Rig, now: Settings) -> float:
    """Hottest the bowl gets after the engine stops, by a thermocouple [K]."""
    return max(soaked(rig).bowl)


def soak_stored(rig: Rig, now: Settings) -> float:
    """What the canister has gained in a hot soak, by weight [kg]."""
    return soaked(rig).stored[-1]


def cranking(rig: Rig, now: Settings) -> float:
    """Longest cranking time of a restart in a hot soak, by a watch [s]."""
    return max(restart(rig, AIR, PETROL, soaked(rig)).cranking)


def purge(rig: Rig, now: Settings) -> float:
    """Air that purges the canister at idle vacuum [kg/s]."""
    return purge_air(rig.canister, IDLE.pressures.manifold, AIR.pressure)


@cache
def shot(rig: Rig, now: Settings) -> float:
    """Fuel that the pump has given 1.5 s after a stamp, into a measuring glass [m3]."""
    times = linspace(0.0, 1.5, 16)
    angles = [interpolate(now, [0.2, 0.3], [STOP, 1.4]) for now in times]
    return pump_shot.pump_run(rig.pump, times, angles).delivered[-1]


@cache
def second_shot(rig: Rig, now: Settings) -> float:
    """Fuel of a stamp after the throttle was let go, into a measuring glass [m3]."""
    times, moves = linspace(0.0, 3.0, 61), [0.1, 0.2, 1.0, 1.1, 2.0, 2.1]
    angles = [interpolate(now, moves, [STOP, 1.4, 1.4, STOP, STOP, 1.4]) for now in times]
    delivered = pump_shot.pump_run(rig.pump, times, angles).delivered
    return delivered[-1] - delivered[40]


def cold_plate(rig: Rig, coil: float, vacuum: float) -> float:
    """Choke plate angle on a cold day [rad]."""
    return plate_angle(rig.choke, rig.air_path, COLD_DAY, coil, 0.004, vacuum=vacuum)


def start_plate(rig: Rig, now: Settings) -> float:
    return cold_plate(rig, 285.0, 0.0)


def running_plate(rig: Rig, now: Settings) -> float:
    return cold_plate(rig, 268.15, 55e3)


def warmed_plate(rig: Rig, now: Settings) -> float:
    """Choke plate angle after five minutes [rad]."""
    return cold_plate(rig, choke.coil_step(rig.choke, 268.15, 268.15, 300.0), 55e3)


def choked_ratio(rig: Rig, now: Settings) -> float:
    """Air-fuel ratio just after a cold start, the choke where its coil and pull-off put it."""
    return ratio_at(OFF_IDLE)(rig, replace(now, choke_angle=running_plate(rig, now)))


def enriched(coolant: float, time: float) -> Reading:
    """Air-fuel ratio at idle with the cold-start system at work."""

    def reading(rig: Rig, now: Settings) -> float:
        shut = 1.0 - idle_air_open(rig.cold_start, coolant, time)
        return ratio_at(IDLING)(rig, replace(now, idle_enrichment=shut))

    return reading


COLD_SOON, COLD_LATE, HOT_SOON = (
    enriched(268.15, 12.0),
    enriched(268.15, 100.0),
    enriched(330.0, 12.0),
)
