"""A warm engine at idle as somebody has set it, and the card that it should answer to."""

from collections.abc import Mapping
from functools import lru_cache
from math import pi
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import PETROL, card_state
from fuelcircuits.benches.setting_up.stops import TURN, Stood, stood
from fuelcircuits.physics.circuits.bowl_vents import outside_lift
from fuelcircuits.physics.matter.analyser import reading
from fuelcircuits.physics.matter.fuel import composition
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State

__all__ = [
    "LIMITS",
    "RPM",
    "TURN",
    "TURNS",
    "Adjusted",
    "Curves",
    "Found",
    "Idle",
    "Work",
    "card_settings",
    "point",
    "whole",
]

RPM = pi / 30
TURNS = [-0.5, 0.0, 0.25, 0.5, 0.75, 1.0, 1.25, 1.5, 2.0, 2.75, 3.75, 5.0]
"""Turns of the idle speed screw at which the curve is solved [1]."""
SPREAD = 0.06
"""Spread of the mixture from cylinder to cylinder [1]; see `analyser.reading`."""
STALLED = 0.55
"""Speed over the card's idle speed below which the engine stops [1] (common practice)."""
WARM = 363.15
"""Temperature of a warm engine whose card does not give it [K]."""
LIMITS: Mapping[str, float] = {
    "level": 0.8e-3,
    "vent": 0.2e-3,
    "idle": 30 * RPM,
    "mixture": 0.5e-2,
    "fast idle": 75 * RPM,
}
"""How far each may be off the card; widths that are common practice, no source."""


class Adjusted(NamedTuple):
    """What can be set, in SI; screws in turns from where the card has them."""

    float_setting: float
    vent_setting: float
    idle_screw: float
    mixture_screw: float  # turns off its seat
    fast_screw: float


class Idle(NamedTuple):
    """The warm engine idling on one throttle stop."""

    throttle: float  # rad
    speed: float  # rad/s, nought if it stalls
    co: float  # share of the dry exhaust
    vacuum: float  # Pa, manifold
    port: float  # Pa, vacuum of the idle-port chamber


class Work(NamedTuple):
    """A carburettor as it has been set."""

    level: float  # m above the card's
    below: float  # m under the gasket face
    lift: float  # m of the outside vent at idle
    stop: Idle  # on the idle speed screw
    fast: Idle  # on the second step of the cam


class Curves(NamedTuple):
    """Speed [rad/s] and CO [1] at each of `TURNS`, as it is set and by the card."""

    speed: list[float]
    co: list[float]
    card_speed: list[float]
    card_co: list[float]


class Found(NamedTuple):
    """One setting of the bench."""

    setting: Adjusted
    on_cam: bool
    depth: float  # m, of the bowl
    float_height: float  # m
    specified_level: float  # m
    fuel_pressure: float  # Pa
    warmth: float  # K, of the engine
    now: Work
    card: Work
    right: dict[str, bool]  # of each setting whether it is within the card
    curves: Curves | None = None

    @property
    def resting(self) -> Idle:
        """The engine on the stop that the throttle rests on."""
        return self.now.fast if self.on_cam else self.now.stop

    @property
    def stalls(self) -> bool:
        """Whether it stops there."""
        return self.resting.speed == 0


def card_settings(card: Rig) -> Adjusted:
    """Return the settings of the card."""
    low, bowl, vents = card.low_speed, card.float_bowl, card.vents
    return Adjusted(bowl.float_setting, vents.outside_setting, 0.0, low.screw_turns, 0.0)


def point(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return what the engine does as it is set, and by the card."""
    setting = Adjusted(*(values[name] for name in Adjusted._fields))
    now, own, bowl = _work(card, setting), _work(card, card_settings(card)), card.float_bowl
    return Found(
        setting=setting,
        on_cam=values["cam"] == "cam",
        depth=bowl.depth,
        float_height=bowl.float_height,
        specified_level=bowl.specified_level,
        fuel_pressure=bowl.fuel_pressure,
        warmth=card.hot_soak.block_temperature if card.hot_soak else WARM,
        now=now,
        card=own,
        right=_right(card, now, own),
    )


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return the same, with the curves over the turns of the idle speed screw."""
    found, own = point(card, values), _turned(card, card_settings(card))
    now = _turned(card, found.setting._replace(idle_screw=0.0, fast_screw=0.0))
    rows = ([row.speed for row in now], [row.co for row in now])
    return found._replace(curves=Curves(*rows, [row.speed for row in own], [row.co for row in own]))


def _right(card: Rig, now: Work, own: Work) -> dict[str, bool]:
    """Return for each setting whether it is within the card, by what is truly there."""
    off = {
        "level": now.level - own.level,
        "vent": now.lift - own.lift,
        "idle": now.stop.speed - own.stop.speed,
        "mixture": now.stop.co - own.stop.co,
        "fast idle": now.fast.speed - own.fast.speed,
    }
    if card.vents.outside_bore == 0:
        del off["vent"]
    return {name: abs(far) <= LIMITS[name] for name, far in off.items()}


@lru_cache(maxsize=256)
def _work(card: Rig, setting: Adjusted) -> Work:
    """Return a carburettor as it has been set."""
    bench = _set(card, setting)
    stop = card_state(card, "idle").throttle_angle + TURN * setting.idle_screw
    fast = stop + card.choke.cam_openings[1] + TURN * setting.fast_screw
    return Work(
        level=bench.level,
        below=card.float_bowl.specified_level - bench.level,
        lift=outside_lift(bench.rig.vents, stop),
        stop=_idle(card, bench.at(stop)),
        fast=_idle(card, bench.at(fast)),
    )


@lru_cache(maxsize=64)
def _turned(card: Rig, setting: Adjusted) -> list[Idle]:
    """Return the engine at each of `TURNS`; the setting's own turns do not count."""
    bench, stop = _set(card, setting), card_state(card, "idle").throttle_angle
    states = bench.row([stop + TURN * turns for turns in TURNS])
    return [_idle(card, state) for state in states]


def _set(card: Rig, setting: Adjusted) -> Stood:
    """Return the card's rig with its float, vent and mixture screw as they have been set."""
    low = {"screw_turns": setting.mixture_screw, "fewest_turns": 0.0, "most_turns": 12.0}
    return stood(
        card,
        float_bowl={"float_setting": setting.float_setting},
        low_speed=low,
        vents={"outside_setting": setting.vent_setting},
    )


def _idle(card: Rig, state: State) -> Idle:
    """Return what is read of a state; below some speed the engine stalls."""
    runs = state.speed > STALLED * card.engine.idle_speed
    mixture = min(max(state.mixture, 0.5), 5.0)
    gas = reading(mixture, composition(PETROL).hydrogen_per_carbon, spread=SPREAD)
    return Idle(
        throttle=state.throttle_angle,
        speed=state.speed if runs else 0.0,
        co=gas.co if runs else 0.0,
        vacuum=state.manifold_vacuum,
        port=state.chamber_vacuum[0],
    )
