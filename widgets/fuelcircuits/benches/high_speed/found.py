"""What the high-speed bench works out at one setting, and the air-bled well behind it."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.mixture_curve import curve, fuel_density, shares
from fuelcircuits.benches.carburettor.mixture_curve import point as on_path
from fuelcircuits.physics.circuits.high_speed import hole_depths, level_drop
from fuelcircuits.physics.circuits.nozzle_slope import drip_angle, run_out, starting_depression
from fuelcircuits.physics.circuits.power import rod_diameter, rod_lift
from fuelcircuits.physics.engine.air_path import AirPath
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State

__all__ = ["BLEED", "Barrel", "Curves", "Ends", "Found", "Streams", "Well", "point", "whole"]

BLEED = 1.0e-3
"""Main air bleed of a rig that has none, once one is fitted [m]."""
JOINS = 0.01
"""Share of the fuel from which on the nozzle is said to join in [1]."""


class Barrel(NamedTuple):
    """Widths of the barrel's parts [m], and the angle at which the plate fills it [rad]."""

    throttle: float
    venturi: float
    booster_outside: float
    booster_throat: float
    booster_exit: float
    closed_angle: float


class Well(NamedTuple):
    """Well, tube, jet and nozzle [m]; levels are depths below the one in the bowl."""

    depth: float
    jet: float
    rod: float  # diameter in the jet
    nozzle: float
    lip: float  # height
    bleed: float
    hole: float
    holes: list[float]  # depths
    take_off: float  # depth of the idle tube
    nozzle_level: float  # where fuel would stand below the nozzle; negative is above
    tube_level: float


class Streams(NamedTuple):
    """What flows: all the air, the rest in one barrel [kg/s]."""

    air: float
    main: float
    spray: float
    idle: float
    bleed: float


class Curves(NamedTuple):
    """Lambda [1] and fuel [kg/s] over air flow [kg/s]; the same of a nozzle without a bleed."""

    air: list[float] | None = None
    mixture: list[float] | None = None
    main: list[float] | None = None
    idle: list[float] | None = None
    transfer: list[float] | None = None
    power: list[float] | None = None
    plain_air: list[float] | None = None
    plain_mixture: list[float] | None = None


class Ends(NamedTuple):
    """What is told of the curves."""

    mixture: float  # lambda with the throttle wide open [1]
    plain: float  # the same of a nozzle without a bleed [1]
    joins: float  # kg/s of air, at which the main nozzle joins in


class Found(NamedTuple):
    """One setting of the bench."""

    bled: bool
    slope: str
    barrel: Barrel
    well: Well
    clear: int  # holes that stand clear of the fuel
    throttle: float  # rad
    streams: Streams
    fuel: float  # kg/s, all barrels
    mixture: float  # lambda [1]
    shares: dict[str, float]  # of the fuel, by circuit [1]
    booster: float  # Pa of depression
    start: float  # Pa of depression, from which on fuel passes the lip
    drip: float  # rad, at which a parked car loses fuel over the lip
    left: float  # kg past the lip after the stop
    most: float  # kg/s of air with the throttle wide open
    curves: Curves = Curves()
    ends: Ends | None = None


def point(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return where the engine runs."""
    bled, slope, height = values["nozzle"] == "bled", values["slope"], values["altitude"]
    rig, density = _rig(card, values, bled=bled), fuel_density()
    state, high = on_path(card, rig, height, values["throttle"]), rig.high_speed
    well = _well(rig, state, density)
    return Found(
        bled=bled,
        slope=slope,
        barrel=_barrel(rig.air_path),
        well=well,
        clear=sum(each < well.tube_level for each in well.holes) if bled else 0,
        throttle=state.throttle_angle,
        streams=_streams(state),
        fuel=state.fuel_flow,
        mixture=state.mixture,
        shares={name: each / state.fuel_flow for name, each in shares(state).items()},
        booster=state.booster_depression[0],
        start=starting_depression(high, density),
        drip=drip_angle(high, slope),
        left=run_out(high, slope, density),
        most=on_path(card, rig, height, 1.0).air_flow,
    )


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return where the engine runs, with the curves from the idle stop to wide open."""
    found = point(card, values)
    states, bare = (_curve(card, values, bled=bled) for bled in (found.bled, False))
    air, parts = [each.air_flow for each in states], [shares(each) for each in states]
    curves = Curves(
        air=air,
        mixture=[each.mixture for each in states],
        main=[each["main"] for each in parts],
        idle=[each["idle"] for each in parts],
        transfer=[each["transfer"] for each in parts],
        power=[each["power"] for each in parts],
        plain_air=[each.air_flow for each in bare],
        plain_mixture=[each.mixture for each in bare],
    )
    fuel = zip(air, parts, states, strict=True)
    joined = [flow for flow, part, each in fuel if part["main"] > JOINS * each.fuel_flow]
    ends = Ends(states[-1].mixture, bare[-1].mixture, min(joined, default=air[0]))
    return found._replace(curves=curves, ends=ends)


def _curve(card: Rig, values: Mapping[str, Any], *, bled: bool) -> list[State]:
    """Return the states from the idle stop to wide open, with a main air bleed or without."""
    rig, high = _rig(card, values, bled=bled), card.high_speed
    bleed = BLEED if bled else 0.0
    other = replace(card, high_speed=replace(high, air_bleed_bore=bleed))
    own = bled == (high.air_bleed_bore > 0)
    return curve(card, rig, values["altitude"], like=None if own else other)


def _rig(card: Rig, values: Mapping[str, Any], *, bled: bool) -> Rig:
    """Return the rig with this jet, lip and bleed."""
    high = replace(
        card.high_speed,
        jet_bore=values["jet_bore"],
        lip=values["lip"],
        air_bleed_bore=values["air_bleed"] if bled else 0.0,
    )
    return replace(card, high_speed=high)


def _barrel(path: AirPath) -> Barrel:
    return Barrel(
        path.throttle_bore,
        path.venturi_bore,
        path.booster_outside,
        path.booster_throat,
        path.booster_exit,
        path.throttle_closed_angle,
    )


def _well(rig: Rig, state: State, density: float) -> Well:
    high, p = rig.high_speed, state.pressures
    rod = 0.0
    if rig.power is not None:
        rod = rod_diameter(rig.power, rod_lift(rig.power, state.manifold_vacuum))
    return Well(
        depth=high.well_depth,
        jet=high.jet_bore,
        rod=rod,
        nozzle=high.nozzle_bore,
        lip=high.lip,
        bleed=high.air_bleed_bore,
        hole=high.hole_bore,
        holes=hole_depths(high),
        take_off=rig.low_speed.tube_depth,
        nozzle_level=level_drop(p.booster[0], p.well[0], density),
        tube_level=level_drop(p.tube[0], p.well[0], density),
    )


def _streams(state: State) -> Streams:
    flows = state.flows
    return Streams(
        air=state.air_flow,
        main=flows.main_jet[0],
        spray=flows.nozzle.fuel[0],
        idle=flows.idle_jet.fuel[0],
        bleed=flows.holes[0],
    )
