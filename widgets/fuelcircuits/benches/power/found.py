"""What the power bench works out at one setting: where the rod stands, and the mixture it makes."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.mixture_curve import at_places, held, held_point
from fuelcircuits.physics.circuits.power import Power, jet_area, rod_diameter, rod_lift
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = ["DEEPEST", "Curves", "Found", "Line", "point", "whole"]

DEEPEST = 80e3
"""Manifold vacuum as far as it is shown [Pa]."""
SHOWN = linspace(0.0, DEEPEST, 81)
STEPS = 12
"""Points by which the rod's outline is drawn."""
STUCK: Mapping[str, Mapping[str, float]] = {
    "free": {},
    "down": {"most_lift": 0.0},
    "up": {"least_lift": 1.0},
}
"""What each state of the rod changes on the card."""


class Line(NamedTuple):
    """Something at each manifold vacuum [Pa]."""

    vacuum: list[float] | None = None
    value: list[float] | None = None


class Curves(NamedTuple):
    """Lambda with the rod as it is, kept down, and kept up."""

    own: Line = Line()
    down: Line = Line()
    up: Line = Line()


class Found(NamedTuple):
    """One setting of the bench."""

    piston: float  # m, bore of the cylinder
    travel: float  # m
    jet: float  # m
    rods: list[float]  # m, diameter at even steps of the way from the lowest place up
    rod: float  # m, diameter in the jet
    area: float  # m2 of the ring that stays open
    areas: Line  # the same at every vacuum
    lift: float  # share of the travel [1]
    pull: float  # N
    push: float  # N
    vacuum: float  # Pa in the manifold
    mixture: float  # lambda [1]
    added: float  # share of the fuel that the rod adds [1]
    main: float  # kg/s by one main jet
    curves: Curves = Curves()


class _Rods(NamedTuple):
    """A rig with its rod as it is, and the same with it kept down and kept up."""

    own: Rig
    down: Rig
    up: Rig


def point(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return where the rod stands, and the mixture."""
    rig = _rig(card, values, values["rod"])
    state = held_point(card, rig, *(values[name] for name in ("speed", "throttle", "altitude")))
    power, jet, vacuum = rig.power, rig.high_speed.jet_bore, state.manifold_vacuum
    lift = rod_lift(power, vacuum)
    return Found(
        piston=power.piston_bore,
        travel=power.travel,
        jet=jet,
        rods=[rod_diameter(power, step / STEPS) for step in range(STEPS + 1)],
        rod=rod_diameter(power, lift),
        area=_area(power, jet, vacuum),
        areas=Line(SHOWN, [_area(power, jet, each) for each in SHOWN]),
        lift=lift,
        pull=bore_area(power.piston_bore) * vacuum,
        push=power.spring_force - power.spring_rate * power.travel * lift,
        vacuum=vacuum,
        mixture=state.mixture,
        added=state.power_fuel / state.fuel_flow,
        main=state.flows.main_jet[0],
    )


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return where the rod stands, with the mixture at every vacuum."""
    stuck = {**values, "spring": card.power.spring_force}
    down, up = (_rig(card, stuck, rod) for rod in ("down", "up"))
    rods = _Rods(_rig(card, values, values["rod"]), down, up)
    curves = _curves(card, rods, values["speed"], values["altitude"])
    return point(card, values)._replace(curves=curves)


@lru_cache(maxsize=64)
def _curves(card: Rig, rods: _Rods, speed: float, altitude: float) -> Curves:
    """Return the curves of the rigs with each rod."""
    low, high = (held(card, each, speed, altitude) for each in (rods.down, rods.up))
    return Curves(*map(_line, (_free(rods.own, low, high, altitude), low, high)))


def _free(rig: Rig, down: list[State], up: list[State], altitude: float) -> list[State]:
    """Return the states with the rod as it is, from those with one that is kept down or up.

    Where the vacuum lays it down, or the spring lifts it all the way, it makes no difference
    that it is free.
    """
    ends = [_at_end(rig.power, *pair) for pair in zip(down, up, strict=True)]
    near = [low for low, end in zip(down, ends, strict=True) if end is None]
    floating = iter(at_places(rig, near, altitude))
    return [end or next(floating) for end in ends]


def _at_end(power: Power, down: State, up: State) -> State | None:
    """Return which of two states a free rod is in, None if it floats between them."""
    if rod_lift(power, down.manifold_vacuum) == 0.0:
        return down
    return up if rod_lift(power, up.manifold_vacuum) == 1.0 else None


def _rig(card: Rig, values: Mapping[str, Any], rod: str) -> Rig:
    """Return the rig with this spring and rod."""
    lean, rich = values["lean_step"], values["rich_step"]
    power = replace(
        card.power,
        spring_force=values["spring"],
        lean_step=lean,
        middle_step=min(max(card.power.middle_step, rich), lean),
        rich_step=rich,
        **STUCK[rod],
    )
    return replace(card, power=power)


def _area(power: Power, jet: float, vacuum: float) -> float:
    """Return the ring that the rod leaves open at a manifold vacuum [m2]."""
    return jet_area(jet, rod_diameter(power, rod_lift(power, vacuum)))


def _line(states: list[State]) -> Line:
    return Line([each.manifold_vacuum for each in states], [each.mixture for each in states])
