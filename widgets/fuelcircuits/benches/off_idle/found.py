"""What the off-idle bench works out at one setting, and the idle port behind it."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from math import nan
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.mixture_curve import speed_at
from fuelcircuits.benches.carburettor.running import AIR, PETROL, card_state, lambda_shown
from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.circuits.low_speed import LowSpeed
from fuelcircuits.physics.circuits.off_idle import slot_areas
from fuelcircuits.physics.engine.air_path import AirPath
from fuelcircuits.physics.network.curves import DRAWN, along, path
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import WARM, Settings
from fuelcircuits.physics.network.solving import solve
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import linspace, nearest

__all__ = [
    "NARROWEST",
    "WIDEST",
    "Curves",
    "Found",
    "Port",
    "Streams",
    "point",
    "tip_height",
    "whole",
]

NARROWEST, WIDEST = 0.21, 0.5
"""Throttle angles between which the bench works [rad]: below the stop, and past the slot."""
ANGLES = linspace(NARROWEST, WIDEST, 64)
AFRESH = 6
"""Angles from one whose state is found from idle to the next [1]."""
CHOKES: Mapping[str, Settings] = {"open": WARM, "shut": Settings(choke_angle=0.35)}
"""Choke plate open, and nearly shut [rad]."""
AJAR = 0.2
"""Share of its lift at which a ball that is stuck ajar stands [1]."""


class Port(NamedTuple):
    """Bore, plate, slot and screw as they have been changed [m]."""

    bore: float
    shaft: float
    closed_angle: float  # rad, at which the plate fills the bore
    edge: float  # thickness of the plate at its edge
    tip: float  # height of the plate's tip above the shaft's plane
    foot: float  # height of the slot's foot above that plane
    height: float
    seat: float
    needle_angle: float  # rad
    screwed_out: float  # by the screw's turns off its seat


class Streams(NamedTuple):
    """What flows in one barrel's circuit, and the engine's air [kg/s]."""

    engine: float
    above_air: float
    below_air: float
    below_fuel: float
    screw_air: float
    screw_fuel: float
    valve_air: float
    feed_air: float
    feed_fuel: float


class Curves(NamedTuple):
    """What is plotted at each throttle angle, NaN where there is no balance; as in `Found`."""

    angle: list[float] | None = None
    below: list[float] | None = None
    above: list[float] | None = None
    slot: list[float] | None = None
    screw: list[float] | None = None
    nozzle: list[float] | None = None
    mixture: list[float] | None = None


class Found(NamedTuple):
    """One setting of the bench."""

    throttle: float  # rad
    shut: bool  # beyond its stop
    speed: float  # rad/s
    port: Port
    below: float  # m2 of one slot, below the edge of the plate
    above: float  # m2
    slot: float  # kg/s of fuel by all slots
    screw: float  # kg/s, by the screws
    nozzle: float  # kg/s, by the nozzles
    mixture: float  # lambda [1]
    chamber_vacuum: float  # Pa
    manifold_vacuum: float  # Pa
    most: float  # m2, half more than the card's slot
    lift: float  # of the bleed valve's ball, as a share of its way [1]
    streams: Streams
    curves: Curves = Curves()


def point(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return what the slot passes at this throttle angle."""
    rig, throttle = _rig(card, values), values["throttle"]
    state = _at(card, rig, throttle, CHOKES[values["choke"]])
    below, above, slot, screw, nozzle, _ = _shown(state)
    return Found(
        throttle=throttle,
        shut=throttle < card_state(card, "idle").throttle_angle - 1e-3,
        speed=state.speed,
        port=_port(rig.low_speed, rig.air_path, throttle),
        below=below,
        above=above,
        slot=slot,
        screw=screw,
        nozzle=nozzle,
        mixture=lambda_shown(state),
        chamber_vacuum=state.chamber_vacuum[0],
        manifold_vacuum=state.manifold_vacuum,
        most=1.5 * card.low_speed.slot_width * card.low_speed.slot_height,
        lift=state.valve_lift[0],
        streams=_streams(state),
    )


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return what the slot passes, with the curves over all throttle angles."""
    curves = _curves(card, _rig(card, values), CHOKES[values["choke"]])
    return point(card, values)._replace(curves=curves)


def _rig(card: Rig, values: Mapping[str, Any]) -> Rig:
    """Return the rig as it has been changed; a limiter's stops are off on the bench."""
    names = ("slot_width", "slot_height", "slot_start", "screw_turns", "valve_opening")
    ball = {"shut": {"valve_most": 0.0}, "ajar": {"valve_least": AJAR}}.get(values["ball"], {})
    stops = {"fewest_turns": 0.0, "most_turns": 12.0}
    changed = {name: values[name] for name in names} | stops | ball
    return replace(card, low_speed=replace(card.low_speed, **changed))


def _port(low: LowSpeed, bore: AirPath, throttle: float) -> Port:
    return Port(
        bore.throttle_bore,
        bore.throttle_shaft,
        bore.throttle_closed_angle,
        low.plate_edge,
        tip_height(low, bore, throttle),
        low.slot_start,
        low.slot_height,
        low.seat_bore,
        low.needle_angle,
        low.screw_pitch * low.screw_turns,
    )


def tip_height(low: LowSpeed, bore: AirPath, angle: float) -> float:
    """Return how high the plate's tip stands above the shaft's plane [m].

    A slot of unit width that starts at the shaft measures it: what lies below the edge.
    """
    rule = replace(low, slot_start=0.0, slot_height=10e-3, slot_width=1e-3)
    below = slot_areas(rule, angle, bore.throttle_bore, bore.throttle_closed_angle).below
    return below / 1e-3 + low.plate_edge / 2


@lru_cache(maxsize=128)
def _there(card: Rig, place: int) -> State:
    """Return the card's own state at one of the angles plotted, found from the one before.

    Every sixth is found from idle, so that none has to wait for all.
    """
    start = _there(card, place - 1) if place % AFRESH else card_state(card, "idle")
    angle = ANGLES[place]
    return solve(card, AIR, PETROL, speed_at(card, angle), angle, start=start)


@lru_cache(maxsize=64)
def _at(card: Rig, rig: Rig, angle: float, choke: Settings) -> State:
    """Return the state at one angle, found from that of the card next to it."""
    near = _there(card, nearest(angle, ANGLES))
    return solve(rig, AIR, PETROL, speed_at(card, angle), angle, settings=choke, start=near)


@lru_cache(maxsize=128)
def _curves(card: Rig, rig: Rig, choke: Settings) -> Curves:
    """Return what is plotted at all angles."""
    states = _states(card, rig, choke)
    rows = [[nan] * 6 if each is None else _shown(each) for each in states]
    return Curves(ANGLES, *map(list, zip(*rows, strict=True)))


def _states(card: Rig, rig: Rig, choke: Settings) -> Sequence[State | None]:
    """Return the states at all angles; from the card's, where one of them has no balance."""
    places, idle = [(speed_at(card, angle), angle) for angle in ANGLES], card_state(card, "idle")
    try:
        return path(rig, AIR, PETROL, places, settings=choke, start=idle, good=DRAWN)
    except ConvergenceError:
        home = [_there(card, place) for place in range(len(ANGLES))]
        return along(rig, AIR, PETROL, home, settings=choke, good=DRAWN)


def _shown(state: State) -> list[float]:
    """Return areas, fuel and lambda in the order of `Curves`."""
    by = state.fuel_by_circuit
    areas = state.slot_below[0], state.slot_above[0]
    return [*areas, by["slot"], by["screw"], by["nozzle"], state.mixture]


def _streams(state: State) -> Streams:
    flows = state.flows
    return Streams(
        engine=state.air_flow,
        above_air=flows.slot_above.air[0],
        below_air=flows.slot_below.air[0],
        below_fuel=flows.slot_below.fuel[0],
        screw_air=flows.screw.air[0],
        screw_fuel=flows.screw.fuel[0],
        valve_air=flows.valve.air[0],
        feed_air=flows.economizer.air[0],
        feed_fuel=flows.economizer.fuel[0],
    )
