"""What the float bench works out at one setting: where the bowl settles, and all it could do."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from math import ceil, nan
from typing import Any, NamedTuple

from fuelcircuits.physics.circuits.float_balance import WARM
from fuelcircuits.physics.circuits.float_bowl import (
    FloatBowl,
    FloatState,
    at_drop,
    starvation_demand,
    steady,
)
from fuelcircuits.physics.matter.fuel import Fuel, density
from fuelcircuits.physics.numerics.interpolation import linspace

__all__ = ["Along", "Found", "Parts", "point", "whole"]

COUNT = 41
STEP = 5e-3
"""The plot of flows ends at a whole multiple of this [kg/s], a fifth above what starves."""


class Parts(NamedTuple):
    """Dimensions that place the drawing."""

    depth: float  # m, of the bowl
    specified_level: float  # m, of the fuel under the gasket face, on the card
    shut_height: float  # m, of the fulcrum above the floor, on the card
    drop_stop: float  # m
    float_arm: float  # m
    float_length: float  # m
    float_height: float  # m
    float_setting: float  # m
    bend: float  # m, by which the setting is more than the card's
    soaked: float  # 1
    needle_arm: float  # m
    needle_taper: float  # rad
    seat_bore: float  # m


class Along(NamedTuple):
    """What the bowl could do, float drop by float drop."""

    drop: list[float] | None = None  # m
    flow: list[float] | None = None  # kg/s
    high: list[float] | None = None  # m above the card's, NaN where no level holds the float


class Found(NamedTuple):
    """One setting of the bench."""

    parts: Parts
    demand: float  # kg/s
    settled: FloatState
    below: float  # m, fuel under the gasket face
    high: float  # m, level above the card's
    most: float  # kg/s, that the inlet passes
    density: float  # kg/m3
    ends: tuple[float, float]  # m and kg/s, where the plot ends
    along: Along = Along()


def whole(card: FloatBowl, values: Mapping[str, Any]) -> Found:
    """Return where the bowl settles, with the curves over all drops."""
    bowl, fuel = _bowl(card, values)
    return point(card, values)._replace(along=_along(bowl, fuel, values["fuel_pressure"]))


def point(card: FloatBowl, values: Mapping[str, Any]) -> Found:
    """Return where the bowl settles."""
    bowl, fuel = _bowl(card, values)
    supply, demand = values["fuel_pressure"], values["demand"]
    settled = steady(bowl, fuel, demand, supply)
    below = bowl.depth - settled.level
    return Found(
        parts=_parts(bowl, card),
        demand=demand,
        settled=settled,
        below=below,
        high=bowl.specified_level - below,
        most=starvation_demand(bowl, fuel, supply),
        density=density(fuel, WARM),
        ends=(1.04 * card.drop_stop, STEP * ceil(1.2 / STEP * starvation_demand(card, Fuel()))),
    )


def _bowl(card: FloatBowl, values: Mapping[str, Any]) -> tuple[FloatBowl, Fuel]:
    """Return the bowl and the fuel as they are set."""
    changed = {name: values[name] for name in ("seat_bore", "float_setting", "soaked")}
    return replace(card, **changed), Fuel(ethanol=values["ethanol"])


def _parts(bowl: FloatBowl, card: FloatBowl) -> Parts:
    own = {name: getattr(bowl, name) for name in Parts._fields if name != "bend"}
    bend = bowl.float_setting - card.float_setting
    return Parts(**own | {"shut_height": card.shut_height}, bend=bend)


@lru_cache(maxsize=64)
def _along(bowl: FloatBowl, fuel: Fuel, supply: float) -> Along:
    """Return the states from the shut needle to the drop stop."""
    drops = linspace(0.0, bowl.drop_stop, COUNT)
    states = [at_drop(bowl, fuel, drop, supply) for drop in drops]
    card = bowl.depth - bowl.specified_level
    high = [nan if each.flooded else each.level - card for each in states]
    return Along(drops, [each.inlet_flow for each in states], high)
