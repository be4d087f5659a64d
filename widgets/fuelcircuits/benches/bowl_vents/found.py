"""What the vents bench works out at one setting, and the balance of bowl and engine behind it."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from math import sqrt
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import (
    PETROL,
    air,
    card_state,
    lambda_shown,
    running,
)
from fuelcircuits.physics.circuits.bowl_vents import (
    Openings,
    Surroundings,
    Vents,
    net_flow,
    outside_lift,
    vent_flows,
)
from fuelcircuits.physics.motion.boiling import vapour_flow
from fuelcircuits.physics.motion.restart import LEANEST, RICHEST
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import linspace

__all__ = ["SPANS", "Curves", "Found", "point", "whole"]

FITTED = Vents(inside_bore=5e-3, outside_bore=8e-3, canister_bore=6e-3, switched_share=1.0)
"""What the bench fits, shut, where the card has no such opening (sizes invented)."""
SPANS: Mapping[str, tuple[float, float]] = {
    "idle": (-220.0, 260.0),
    "cruise": (-700.0, 300.0),
    "full": (-3900.0, 900.0),
}
"""Bowl pressure less that outside [Pa], as far as the plot shows it."""
COUNT, FINE = 23, 161


class Curves(NamedTuple):
    """Lambda [1] and gas won by the bowl [kg/s], each over its own bowl pressures [Pa]."""

    gauge: list[float] | None = None
    mixture: list[float] | None = None
    fine: list[float] | None = None
    won: list[float] | None = None


class Found(NamedTuple):
    """One setting of the bench; pressures less that outside [Pa]."""

    way: str
    dirty: float  # share of the air cleaner that is blocked [1]
    plugged: float  # share of the inside vent that is blocked [1]
    pull: float  # share of its travel that the solenoid is pulled in [1]
    gasket: float  # m2
    outside_bore: float  # m
    lift: float  # m, of the outside vent's cap
    throttle: float  # rad
    span: tuple[float, float]  # the bowl's pressure as far as it is shown
    horn: float
    bowl: float
    vapour: float  # kg/s
    inward: Openings  # kg/s by each opening
    air: float  # kg/s
    fuel: float  # kg/s
    mixture: float  # lambda [1]
    ratio: float  # air-fuel ratio [1]
    fires: bool  # if a cranked engine would with this mixture
    card: float  # lambda that the card's own vents give [1]
    richer: float  # share by which the mixture is richer than that [1]
    curves: Curves = Curves()


def point(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return the balance of the bowl and of the whole carburettor."""
    way, vents, dirty = values["way"], _vents(card, values), values["cleaner_blocked"]
    height, outside = values["altitude"], _outside(values)
    vapour = _vapour(card, vents, values["fuel_temperature"], outside)
    state = _state(card, vents, vapour, values)
    horn, bowl = (each - outside for each in (state.pressures.horn, state.pressures.bowl))
    around = _around(horn, state.throttle_angle, vapour, values)
    mixture, own = lambda_shown(state), card_state(card, way, height).mixture
    return Found(
        way=way,
        dirty=dirty,
        plugged=values["inside_blocked"],
        pull=vents.solenoid_pull,
        gasket=vents.gasket_leak,
        outside_bore=vents.outside_bore,
        lift=outside_lift(vents, state.throttle_angle),
        throttle=state.throttle_angle,
        span=SPANS[way],
        horn=horn,
        bowl=bowl,
        vapour=vapour,
        inward=vent_flows(vents, state.pressures.bowl, around)[0],
        air=state.air_flow,
        fuel=state.fuel_flow,
        mixture=mixture,
        ratio=state.ratio,
        fires=LEANEST <= 1 / mixture <= RICHEST,
        card=own,
        richer=own / mixture - 1,
    )


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return the balance, with the curves over all bowl pressures."""
    found, vents = point(card, values), _vents(card, values)
    names = ("way", "cleaner_blocked", "fuel_temperature", "altitude")
    gauge, mixture = _mixtures(card, *(values[name] for name in names))
    around = _around(found.horn, found.throttle, found.vapour, values)
    low, high = found.span
    fine = sorted([*linspace(low, high, FINE), min(max(found.bowl, low), high)])
    won = [net_flow(vents, _outside(values) + each, around)[0] for each in fine]
    return found._replace(curves=Curves(gauge, mixture, fine, won))


def _outside(values: Mapping[str, Any]) -> float:
    """Return the pressure outside [Pa]."""
    return air(values["altitude"]).pressure


def _state(card: Rig, vents: Vents, vapour: float, values: Mapping[str, Any]) -> State:
    settings = Settings(
        fuel_temperature=values["fuel_temperature"],
        vapour=vapour,
        canister_pressure=_outside(values) - values["canister_suction"],
    )
    rig = replace(_dirty(card, values["cleaner_blocked"]), vents=vents)
    return running(card, rig, values["way"], settings, altitude=values["altitude"])


def _around(horn: float, throttle: float, vapour: float, values: Mapping[str, Any]) -> Surroundings:
    """Return what the bowl breathes against."""
    outside = _outside(values)
    return Surroundings(
        horn=outside + horn,
        ambient=outside,
        throttle_angle=throttle,
        vapour=vapour,
        canister=outside - values["canister_suction"],
    )


def _vents(card: Rig, values: Mapping[str, Any]) -> Vents:
    """Return the card's vents as they have been changed, with what the bench fits."""
    own = card.vents
    return replace(
        own,
        inside_bore=sqrt(1 - values["inside_blocked"]) * own.inside_bore,
        outside_bore=own.outside_bore or FITTED.outside_bore,
        canister_bore=own.canister_bore or FITTED.canister_bore,
        switched_share=own.switched_share or FITTED.switched_share,
        outside_setting=values["outside_setting"],
        outside_hang=values["outside_hang"],
        solenoid_pull=values["solenoid_pull"],
        gasket_leak=values["gasket_leak"],
    )


def _vapour(card: Rig, vents: Vents, temperature: float, outside: float) -> float:
    """Return the vapour made in the bowl [kg/s], the solenoid standing as it does now."""
    held = replace(vents, solenoid_stick=vents.solenoid_pull)
    return vapour_flow(card.hot_soak, held, PETROL, temperature, 0.0, ambient=outside)[0]


def _dirty(card: Rig, blocked: float) -> Rig:
    path = card.air_path
    return replace(card, air_path=replace(path, cleaner_area=(1 - blocked) * path.cleaner_area))


@lru_cache(maxsize=64)
def _mixtures(
    card: Rig, way: str, blocked: float, temperature: float, altitude: float
) -> tuple[list[float], list[float]]:
    """Return bowl pressures less that outside [Pa], and lambda were the bowl held at each."""
    gauge, outside = linspace(*SPANS[way], COUNT), air(altitude).pressure
    rig, states = _dirty(card, blocked), [card_state(card, way, altitude)]
    for each in gauge:
        settings = Settings(bowl_pressure=outside + each, fuel_temperature=temperature)
        states.append(running(card, rig, way, settings, altitude=altitude, start=states[-1]))
    return gauge, [each.mixture for each in states[1:]]
