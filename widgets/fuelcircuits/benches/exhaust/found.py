"""What the exhaust bench works out at one setting: the mixture, its gases, and what it does."""

from collections.abc import Mapping
from functools import lru_cache
from typing import Any, NamedTuple

from fuelcircuits.physics.engine.torque import BEST_TORQUE, consumption_factor, torque_factor
from fuelcircuits.physics.matter.analyser import lambda_brettschneider, reading
from fuelcircuits.physics.matter.exhaust import Exhaust
from fuelcircuits.physics.matter.fuel import Composition, Fuel, composition, stoichiometric_ratio
from fuelcircuits.physics.numerics.interpolation import linspace

__all__ = [
    "BEST_TORQUE",
    "MISFIRE",
    "THRIFTY",
    "Found",
    "Gases",
    "Work",
    "point",
    "whole",
    "work",
]

LAMBDAS = linspace(0.65, 1.5, 86)
MISFIRE = 1.35
"""Lambda beyond which a cylinder fires now and then only; see `torque_factor`."""
THRIFTY = min(linspace(0.9, 1.4, 501), key=consumption_factor)
"""Lambda at which the same work takes least fuel [1]."""
THRIFTIEST = consumption_factor(THRIFTY)


class Gases(NamedTuple):
    """Shares of the dry gas by volume [1], lambda by lambda."""

    mixture: list[float]
    co: list[float]
    o2: list[float]
    co2: list[float]


class Work(NamedTuple):
    """Torque, of the most, and fuel for the work, of the least [1], lambda by lambda."""

    mixture: list[float]
    torque: list[float]
    consumption: list[float]


class Found(NamedTuple):
    """One setting of the bench."""

    mixture: float  # true lambda
    ratio: float  # air-fuel ratio by mass
    need: float  # air-fuel ratio that just burns
    gas: Exhaust  # what the probe draws in
    false_air: float  # one part to one of gas
    shown: float  # lambda that the analyser works out
    torque: float  # of the most
    consumption: float  # of the least
    gases: Gases | None  # None: still to be worked out


def point(values: Mapping[str, Any]) -> Found:
    """Return the mixture alone: the carburettor holds it by mass, whatever the fuel."""
    fuel = Fuel(ethanol=values["ethanol"])
    need, made = stoichiometric_ratio(fuel), composition(fuel)
    ratio = values["petrol_lambda"] * stoichiometric_ratio(Fuel())
    mixture = ratio / need
    gas = _gas(mixture, made, values["spread"], values["false_air"])
    hydrogen, oxygen = made.hydrogen_per_carbon, made.oxygen_per_carbon
    return Found(
        mixture=mixture,
        ratio=ratio,
        need=need,
        gas=gas,
        false_air=values["false_air"],
        shown=lambda_brettschneider(gas.co2, gas.co, gas.o2, gas.hc, hydrogen, oxygen=oxygen),
        torque=torque_factor(mixture),
        consumption=consumption_factor(mixture) / THRIFTIEST,
        gases=None,
    )


def whole(values: Mapping[str, Any]) -> Found:
    """Return the mixture, with the gases over every lambda."""
    gases = _gases(values["ethanol"], values["spread"], values["false_air"])
    return point(values)._replace(gases=gases)


@lru_cache(maxsize=32)
def _gases(ethanol: float, spread: float, false_air: float) -> Gases:
    made = composition(Fuel(ethanol=ethanol))
    along = [_gas(each, made, spread, false_air) for each in LAMBDAS]
    return Gases(LAMBDAS, *([getattr(gas, name) for gas in along] for name in Gases._fields[1:]))


def _gas(mixture: float, made: Composition, spread: float, false_air: float) -> Exhaust:
    return reading(
        mixture,
        made.hydrogen_per_carbon,
        made.oxygen_per_carbon,
        spread=spread,
        false_air=false_air,
    )


@lru_cache(maxsize=1)
def work() -> Work:
    """Return torque and consumption over every lambda."""
    torque = [torque_factor(each) for each in LAMBDAS]
    return Work(LAMBDAS, torque, [consumption_factor(each) / THRIFTIEST for each in LAMBDAS])
