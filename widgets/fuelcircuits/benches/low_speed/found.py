"""What the low-speed bench works out at one setting, and the idle that gives it."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import PETROL, lambda_shown
from fuelcircuits.benches.low_speed.screw_turns import (
    TURNS_SHOWN,
    at_turns,
    fitted,
    held,
    over_turns,
)
from fuelcircuits.physics.circuits.low_speed import LowSpeed
from fuelcircuits.physics.engine.torque import brake_torque, torque_factor
from fuelcircuits.physics.matter.exhaust import dry, products
from fuelcircuits.physics.matter.stoichiometry import composition
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State

__all__ = ["Curves", "Found", "Sizes", "Streams", "monoxide", "point", "whole"]


class Sizes(NamedTuple):
    """The circuit as it has been changed [m], with its kind of screw."""

    jet: float
    bypass: float
    bleed: float
    economizer: float
    seat: float
    needle_angle: float  # rad
    screwed_out: float  # by the screw's turns off its seat


class Streams(NamedTuple):
    """What flows in one barrel's circuit, and the engine's air [kg/s]."""

    engine: float
    jet_fuel: float
    bypass_air: float
    bleed_air: float
    froth_air: float
    froth_fuel: float
    slot_air: float
    screw_fuel: float
    screw_air: float


class Curves(NamedTuple):
    """Lambda and carbon monoxide [1] over the screw's turns."""

    turns: list[float] | None = None
    mixture: list[float] | None = None
    monoxide: list[float] | None = None


class Found(NamedTuple):
    """One setting of the bench."""

    kind: str  # of screw
    sizes: Sizes
    stops: tuple[float, float]  # turns off the seat
    turns: float  # where the screw stands
    clockwise: float  # turns made from the card's setting
    throttle: float  # rad
    mixture: float  # lambda [1]
    monoxide: float  # by volume of the dried exhaust [1]
    chamber_vacuum: float  # Pa
    manifold_vacuum: float  # Pa
    fuel: float  # kg/s
    spare: float  # N m of torque
    streams: Streams
    curves: Curves = Curves()


def point(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return the idle with this circuit."""
    low = _circuit(card, values)
    turns, clockwise = held(low, values["screw_turns"])
    state = at_turns(card, low, turns, values["altitude"])
    mixture = lambda_shown(state)
    return Found(
        kind=values["kind"],
        sizes=_sizes(low, turns),
        stops=(low.fewest_turns, low.most_turns),
        turns=turns,
        clockwise=clockwise,
        throttle=state.throttle_angle,
        mixture=mixture,
        monoxide=monoxide(mixture),
        chamber_vacuum=state.chamber_vacuum[0],
        manifold_vacuum=state.manifold_vacuum,
        fuel=state.fuel_flow,
        spare=_spare(card, state),
        streams=_streams(state),
    )


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return the idle, with the curves over the screw's turns."""
    states = over_turns(card, _circuit(card, values), values["altitude"])
    mixture = [each.mixture for each in states]
    curves = Curves(TURNS_SHOWN, mixture, [monoxide(each) for each in mixture])
    return point(card, values)._replace(curves=curves)


def _circuit(card: Rig, values: Mapping[str, Any]) -> LowSpeed:
    """Return the circuit as it has been changed."""
    names = ("jet_bore", "bypass_bore", "air_bleed_bore", "economizer_bore")
    changed = replace(card.low_speed, **{name: values[name] for name in names})
    return fitted(changed, values["kind"])


def _sizes(low: LowSpeed, turns: float) -> Sizes:
    return Sizes(
        low.jet_bore,
        low.bypass_bore,
        low.air_bleed_bore,
        low.economizer_bore,
        low.seat_bore,
        low.needle_angle,
        low.screw_pitch * turns,
    )


def _spare(card: Rig, state: State) -> float:
    """Return the torque that the engine has to spare at this idle [N m]."""
    return brake_torque(
        card.engine,
        state.speed,
        state.air_flow,
        state.pressures.manifold,
        state.ambient_pressure,
        mixture_factor=torque_factor(min(state.mixture, 3.0)),
    )


def _streams(state: State) -> Streams:
    flows = state.flows
    return Streams(
        engine=state.air_flow,
        jet_fuel=flows.idle_jet.fuel[0],
        bypass_air=flows.bypass.air[0],
        bleed_air=flows.idle_air.air[0],
        froth_air=flows.economizer.air[0],
        froth_fuel=flows.economizer.fuel[0],
        slot_air=flows.slot_above.air[0],
        screw_fuel=flows.screw.fuel[0],
        screw_air=flows.screw.air[0],
    )


def monoxide(mixture: float) -> float:
    """Return carbon monoxide by volume of the dried exhaust [1]; the model takes 0.4 to 20."""
    fuel = composition(PETROL)
    gas = products(min(max(mixture, 0.4), 20.0), fuel.hydrogen_per_carbon, fuel.oxygen_per_carbon)
    return dry(gas).co
