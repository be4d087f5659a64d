"""What the hot-soak bench works out at one setting: the hour, with the start at each moment."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, NamedTuple

from fuelcircuits.physics.circuits.bowl_vents import Openings, Vents
from fuelcircuits.physics.circuits.canister import Canister
from fuelcircuits.physics.circuits.hot_soak import outlets
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.soak_run import restart, soak_run
from fuelcircuits.physics.network.rig import ABSENT, Rig
from fuelcircuits.physics.numerics.interpolation import linspace

__all__ = ["COUNT", "END", "Found", "whole"]

END, COUNT = 3600.0, 61
"""Length of the run [s], and its points [1]."""
BOILS = 2e-6
"""Vapour made above which the bowl is said to boil [kg/s]; spreading alone makes less."""
FITTED = Vents(inside_bore=5e-3, outside_bore=8e-3, canister_bore=6e-3)
BED = Canister(capacity=60e-3)
"""What the bench fits where the card has no such opening and no canister (sizes invented)."""


class Found(NamedTuple):
    """A soak in time, a list of each with one value for every time."""

    kind: str  # of vents
    ways: Openings  # share of the vapour by each opening [1]
    times: list[float]  # s since the engine stopped
    bowl: list[float]  # K
    block: list[float]  # K
    left: list[float]  # kg of fuel in the bowl
    intake: list[float]  # kg in bore and manifold
    stored: list[float]  # kg in the canister
    full: list[float]  # share of what the canister can hold [1]
    gone: list[float]  # kg gone outside, by vents and through the canister
    vapour: list[float]  # kg/s made
    boils: list[bool]
    cranking: list[float]  # s until a start at that moment fires
    equivalence: list[float]  # fuel over the fuel that just burns, at its first turn [1]


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return the run, with the start that would follow at each moment."""
    kind, rig = values["vents"], _rig(card, values)
    return _soak(rig, kind, values["outside"], values["reid"], values["canister_load"])


def _rig(card: Rig, values: Mapping[str, Any]) -> Rig:
    """Return the rig with the vents that have been fitted, and its insulation."""
    own, kind = card.vents, values["vents"]
    vents = replace(
        own,
        outside_bore=own.outside_bore or FITTED.outside_bore,
        outside_setting=values["outside_setting"] if kind == "outside" else 0.0,
        canister_bore=(own.canister_bore or FITTED.canister_bore) * (kind == "canister"),
        switched_share=float(kind == "canister"),
    )
    heat = card.hot_soak
    soak = replace(heat, block_to_bowl=heat.block_to_bowl * values["flange_heat"])
    bed = (card.canister or BED) if kind == "canister" else ABSENT
    return replace(card, vents=vents, hot_soak=soak, canister=bed)


@lru_cache(maxsize=256)
def _soak(rig: Rig, kind: str, outside: float, reid: float, load: float) -> Found:
    """Return the soak of this rig on a day and a fuel; `load` is the canister's share."""
    weather, fuel = Weather.at(temperature=outside), Fuel(reid_vapour_pressure=reid)
    capacity = (rig.canister or BED).capacity
    times = linspace(0.0, END, COUNT)
    run = soak_run(rig, weather, fuel, times, load=load * capacity)
    start = restart(rig, weather, fuel, run)
    return Found(
        kind=kind,
        ways=outlets(rig.vents),
        times=times,
        bowl=run.bowl,
        block=run.block,
        left=run.fuel_left,
        intake=run.intake,
        stored=run.stored,
        full=[each / capacity for each in run.stored],
        gone=[out + lost for out, lost in zip(run.outside, run.lost, strict=True)],
        vapour=run.vapour,
        boils=[each > BOILS for each in run.vapour],
        cranking=start.cranking,
        equivalence=start.equivalence,
    )
