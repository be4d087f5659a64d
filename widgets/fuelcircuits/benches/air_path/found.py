"""What the air-path bench works out at one setting, and the engine's draught that gives it."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, NamedTuple

from fuelcircuits.physics.engine.air_path import AirPath
from fuelcircuits.physics.engine.breathing import AirState, pressures, solve
from fuelcircuits.physics.engine.venturi import (
    booster_gain,
    depression,
    throat_velocity,
    venturi_area,
)
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["Bores", "Curves", "Found", "Losses", "whole"]

DAY = 288.15
"""Temperature of the air at every height [K], so that height changes the pressure alone."""
COUNT = 61


class Bores(NamedTuple):
    """Widths of the bore's parts [m], and the angle at which the plate fills it [rad]."""

    throttle: float
    shaft: float
    venturi: float
    booster_outside: float
    booster_throat: float
    booster_exit: float
    closed_angle: float


class Losses(NamedTuple):
    """How far the pressure lies below that outside, along the way of the air [Pa]."""

    horn: float
    choke: float
    venturi: float
    booster: float
    above: float
    manifold: float


class Curves(NamedTuple):
    """Depressions [Pa] and the booster's air speed [m/s] at each air flow [kg/s]."""

    flow: list[float]
    booster: list[float]
    venturi: list[float]
    plain: list[float]
    velocity: list[float]


class Found(NamedTuple):
    """One setting of the bench."""

    throttle: float  # rad
    choke: float  # rad
    blocked: float  # share of the cleaner [1]
    bores: Bores
    density: float  # kg/m3, of the air outside
    flow: float  # kg/s through the carburettor
    losses: Losses
    booster: float  # Pa, pressure below the choke less that in the booster's throat
    venturi: float  # Pa, the same for the main venturi's throat
    plain: float  # Pa, the booster's were air incompressible
    astray: float  # how far that is from the booster's [1]
    velocity: float  # m/s in the booster's throat
    ends: tuple[float, float]  # kg/s and Pa, where the plot ends
    curves: Curves


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return the balance of engine and air path, with the curves over all air flows."""
    path, weather = _path(card, values), Weather.at(values["altitude"], temperature=DAY)
    throttle, choke = values["throttle"], values["choke_angle"]
    state = solve(card.engine, path, weather, values["speed"], throttle, choke_angle=choke)
    booster = state.choke_pressure - state.booster_pressure
    plain, ends = _plain(path, weather, state.carburettor_flow), _ends(card)
    return Found(
        throttle=throttle,
        choke=choke,
        blocked=values["cleaner_blocked"],
        bores=_bores(path),
        density=weather.density,
        flow=state.carburettor_flow,
        losses=_losses(state),
        booster=booster,
        venturi=state.choke_pressure - state.venturi_pressure,
        plain=plain,
        astray=plain / booster - 1,
        velocity=throat_velocity(state.booster_pressure / state.choke_pressure, DAY),
        ends=ends,
        curves=_curves(path, values["altitude"], choke, ends[0]),
    )


def _path(card: Rig, values: Mapping[str, Any]) -> AirPath:
    """Return the card's air path as it has been changed."""
    clear = (1 - values["cleaner_blocked"]) * card.air_path.cleaner_area
    return replace(card.air_path, venturi_bore=values["venturi_bore"], cleaner_area=clear)


def _bores(path: AirPath) -> Bores:
    return Bores(
        path.throttle_bore,
        path.throttle_shaft,
        path.venturi_bore,
        path.booster_outside,
        path.booster_throat,
        path.booster_exit,
        path.throttle_closed_angle,
    )


def _losses(state: AirState) -> Losses:
    along = (
        state.horn_pressure,
        state.choke_pressure,
        state.venturi_pressure,
        state.booster_pressure,
        state.throttle_pressure,
        state.manifold_pressure,
    )
    return Losses(*(state.ambient_pressure - each for each in along))


def _plain(path: AirPath, weather: Weather, flow: float) -> float:
    """Return the booster's depression were air incompressible [Pa]: its gain on the venturi's."""
    return booster_gain(path) * depression(flow, venturi_area(path), weather.density)


@lru_cache(maxsize=16)
def _ends(card: Rig) -> tuple[float, float]:
    """Return the air flow [kg/s] and the depression [Pa] at which the plot ends."""
    air = Weather.at(temperature=DAY)
    wide = solve(card.engine, card.air_path, air, card.engine.highest_speed, OPEN)
    return 1.1 * wide.carburettor_flow, 1.4 * (wide.choke_pressure - wide.booster_pressure)


@lru_cache(maxsize=64)
def _curves(path: AirPath, altitude: float, choke: float, most: float) -> Curves:
    """Return what is plotted over all air flows."""
    weather, flow = Weather.at(altitude, temperature=DAY), linspace(0.0, most, COUNT)
    along = [pressures(path, weather, each, choke) for each in flow]
    return Curves(
        flow,
        [each.choke - each.booster for each in along],
        [each.choke - each.venturi for each in along],
        [_plain(path, weather, each) for each in flow],
        [throat_velocity(each.booster / each.choke, DAY) for each in along],
    )
