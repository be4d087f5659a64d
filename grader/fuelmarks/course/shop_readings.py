"""What a healthy carburettor shows on a gauge, worked out from its card and never typed.

A sheet's limits are set about these. Sea level, 15 °C, petrol, a warm engine, unless it is said.
"""

from collections.abc import Callable, Mapping
from functools import lru_cache, partial
from math import cos, log, pi
from types import MappingProxyType
from typing import NamedTuple

from fuelcircuits.diagnosis.subject import shown_lambda
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits import pump as pumps
from fuelcircuits.physics.circuits.bimetal import coil_rotation
from fuelcircuits.physics.circuits.float_bowl import inlet_capacity, steady
from fuelcircuits.physics.circuits.float_lever import float_volume
from fuelcircuits.physics.circuits.off_idle import slot_areas
from fuelcircuits.physics.matter.analyser import reading as exhaust_reading
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.exhaust import Exhaust
from fuelcircuits.physics.matter.fuel import Fuel, composition
from fuelcircuits.physics.motion.pump_shot import pump_run
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import curb_idle, solve_for_speed
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import interpolate
from fuelcircuits.physics.openings.plate import OPEN
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = ["READINGS", "ShopReading"]

AIR, PETROL = Weather.at(), Fuel()
SPREAD = 0.06
"""Spread of the mixture from cylinder to cylinder [1], as on the benches of units 10 and 11."""
REVVED = 2500 * pi / 30
"""Speed without load at which exhaust and cleaner are read [rad/s]."""
SNAP = 0.1
"""Time in which a hand opens the throttle [s]."""
ENDS = (0.01, 0.99)
"""Shares of the shot at which an eye sees it begin and end [1] (common practice, no source)."""
ENGINE = ("engine", "air_path", "float_bowl", "low_speed", "high_speed")
SHOP = 293.15
"""Temperature of a shop, at which a choke is timed [K]."""
STROKES = 10


class ShopReading(NamedTuple):
    """One reading: the sections of the card it needs whole, and how it follows from them, in SI."""

    needs: tuple[str, ...]
    unit: str
    read: Callable[[Rig], float]


@lru_cache(maxsize=32)
def _unloaded(rig: Rig, speed: float | None = None) -> State:
    """Return the warm engine without load, at its idle or at a speed [rad/s]."""
    return curb_idle(rig, AIR, PETROL, speed=speed)


@lru_cache(maxsize=32)
def _exhaust(rig: Rig) -> Exhaust:
    hydrogen = composition(PETROL).hydrogen_per_carbon
    return exhaust_reading(_unloaded(rig).mixture, hydrogen, spread=SPREAD)


def _gas(name: str, rig: Rig) -> float:
    return float(getattr(_exhaust(rig), name))


def _cleaner_loss(rig: Rig) -> float:
    """Return what the cleaner takes at 2500 turns a minute without load [Pa]."""
    return AIR.pressure - _unloaded(rig, REVVED).pressures.horn


def _throttle_travel(rig: Rig) -> float:
    """Return what the throttle's lever turns from the idle stop to the floor [rad]."""
    return OPEN - _unloaded(rig).throttle_angle


def _slot_under_edge(rig: Rig) -> float:
    """Return how much of the slot lies under the plate's edge at the idle stop [m]."""
    air, low, stop = rig.air_path, rig.low_speed, _unloaded(rig).throttle_angle
    below = slot_areas(low, stop, air.throttle_bore, air.throttle_closed_angle).below
    return below / low.slot_width if low.slot_width else 0.0


def _fast_idle(rig: Rig) -> float:
    """Return the warm engine's speed on the second step of the cam [rad/s]."""
    if len(rig.choke.cam_openings) < 2:
        raise RangeError(f"cam must have a second step, got {len(rig.choke.cam_openings)} steps")
    home = _unloaded(rig)
    throttle = home.throttle_angle + rig.choke.cam_openings[1]
    return solve_for_speed(rig, AIR, PETROL, throttle, start=home).speed


def _strokes(rig: Rig) -> float:
    """Return what ten whole strokes give [m3]."""
    return STROKES * pumps.shot_volume(rig.pump, 0.0, OPEN)


@lru_cache(maxsize=32)
def _shot_lasts(rig: Rig) -> float:
    """Return how long one quick stroke squirts [s], on the hand, without an engine."""
    times = [step / 50 for step in range(201)]
    throttle = [interpolate(now, (0.0, SNAP), (0.0, OPEN)) for now in times]
    given = pump_run(rig.pump, times, throttle).delivered
    begun, over = (
        next(at for at, so in zip(times, given, strict=True) if so >= end * given[-1])
        for end in ENDS
    )
    return over - begun


def _rod_at(lift: float, rig: Rig) -> float:
    """Return the vacuum at which the rod has made a share of its travel [Pa]."""
    power = rig.power
    force = power.spring_force - lift * power.spring_rate * power.travel
    return force / bore_area(power.piston_bore)


def _vent_shut(rig: Rig) -> float:
    """Return the throttle angle at which the outside vent sits down [rad]."""
    vents = rig.vents
    return vents.outside_idle_angle + vents.outside_setting / vents.outside_rate


def _pulled_off(rig: Rig) -> float:
    """Return the vacuum that takes the pull-off to its stop [Pa]."""
    choke = rig.choke
    force = choke.pull_off_force + choke.pull_off_rate * choke.pull_off_stroke
    return force / bore_area(choke.pull_off_bore)


def _gap(angle: float, rig: Rig) -> float:
    """Return the pin that fits between the choke plate's lower edge and the horn [m].

    The longer wing, whose edge goes down, reaches the wall when the plate is shut.
    """
    reach = 0.5 * rig.air_path.horn_bore + rig.choke.plate_offset
    return reach * (1.0 - cos(angle) / cos(rig.air_path.choke_closed_angle))


def _pull_off_gap(rig: Rig) -> float:
    return _gap(rig.choke.pull_off_angle, rig)


def _unloader_angle(rig: Rig) -> float:
    """Return the choke plate's angle with the pedal on the floor [rad]."""
    past = max(OPEN - rig.choke.unloader_start, 0.0)
    return rig.air_path.choke_closed_angle + rig.choke.unloader_ratio * past


def _unloader_gap(rig: Rig) -> float:
    return _gap(_unloader_angle(rig), rig)


def _choke_open(rig: Rig) -> float:
    """Return how long a choke at 20 °C takes under heat until its plate is upright [s]."""
    choke, closed = rig.choke, rig.air_path.choke_closed_angle
    turned = coil_rotation(choke.flexivity, choke.coil_length, choke.coil_thickness, 1.0)
    upright = choke.set_temperature + (OPEN - closed) / turned
    still, missing = choke.heat_rise, SHOP + choke.heat_rise - upright
    if not missing > 0:
        raise RangeError(f"heat rise must open the choke from 20 °C, got {choke.heat_rise:g} K")
    return choke.heat_time * log(still / missing)


def _level_below(rig: Rig) -> float:
    """Return how far the fuel stands below the cover's face at warm idle [m]."""
    drawn = _unloaded(rig).fuel_flow
    return rig.float_bowl.depth - steady(rig.float_bowl, PETROL, drawn).level


def _seat_flow(rig: Rig) -> float:
    return inlet_capacity(rig.float_bowl, PETROL)


READINGS: Mapping[str, ShopReading] = MappingProxyType(
    {
        "idle_speed": ShopReading(("engine",), "rad/s", lambda rig: rig.engine.idle_speed),
        "idle_vacuum": ShopReading(ENGINE, "Pa", lambda rig: _unloaded(rig).manifold_vacuum),
        "idle_lambda": ShopReading(ENGINE, "1", lambda rig: shown_lambda(_unloaded(rig))),
        "port_vacuum": ShopReading(ENGINE, "Pa", lambda rig: _unloaded(rig).chamber_vacuum[0]),
        "idle_co": ShopReading(ENGINE, "1", partial(_gas, "co")),
        "idle_co2": ShopReading(ENGINE, "1", partial(_gas, "co2")),
        "idle_o2": ShopReading(ENGINE, "1", partial(_gas, "o2")),
        "revved_lambda": ShopReading(ENGINE, "1", lambda rig: shown_lambda(_unloaded(rig, REVVED))),
        "cleaner_loss": ShopReading(ENGINE, "Pa", _cleaner_loss),
        "throttle_travel": ShopReading(ENGINE, "rad", _throttle_travel),
        "slot_under_edge": ShopReading(ENGINE, "m", _slot_under_edge),
        "fast_idle": ShopReading((*ENGINE, "choke"), "rad/s", _fast_idle),
        "level_below_face": ShopReading(ENGINE, "m", _level_below),
        "inlet_flow": ShopReading(("float_bowl",), "kg/s", _seat_flow),
        "float_volume": ShopReading(
            ("float_bowl",), "m**3", lambda rig: float_volume(rig.float_bowl)
        ),
        "ten_strokes": ShopReading(("pump",), "m**3", _strokes),
        "shot_lasts": ShopReading(("pump",), "s", _shot_lasts),
        "rod_begins": ShopReading(("power",), "Pa", partial(_rod_at, 0.0)),
        "rod_up": ShopReading(("power",), "Pa", partial(_rod_at, 1.0)),
        "vent_shut": ShopReading(("vents",), "rad", _vent_shut),
        "pull_off_vacuum": ShopReading(("choke",), "Pa", _pulled_off),
        "pull_off_gap": ShopReading(("choke", "air_path"), "m", _pull_off_gap),
        "unloader_gap": ShopReading(("choke", "air_path"), "m", _unloader_gap),
        "choke_open": ShopReading(("choke", "air_path"), "s", _choke_open),
    }
)
"""Every reading by the name that a sheet calls it."""
