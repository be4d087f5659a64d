"""A carburettor as it has been set, idling on one throttle stop or another."""

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from math import radians
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import AIR, PETROL, card_state
from fuelcircuits.physics.circuits.float_bowl import steady
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import solve_for_speed
from fuelcircuits.physics.network.starts import afresh, moved, through
from fuelcircuits.physics.network.state import State

__all__ = ["TURN", "Stood", "stood"]

TURN = radians(0.6)
"""Throttle angle for one turn of the idle speed screw or the fast-idle screw [rad]."""
DRAWN = 0.4e-3
"""Fuel that a warm engine draws at idle [kg/s], at which the float is set."""
RUNGS = [-0.5, 0.0, 0.5, 1.0, 1.75, 2.75, 3.75, 5.0, 6.5, 8.0, 10.0, 12.0, 14.0, 16.5]
"""Turns of the stop at which the card's own states are kept [1]."""
THROUGH = 3
"""Rungs through which a start is laid."""


class Stood(NamedTuple):
    """A card, the rig as it has been set, and its fuel level."""

    card: Rig
    rig: Rig
    level: float  # m above the card's

    def at(self, throttle: float) -> State:
        """Return the state at which it idles at a throttle angle [rad]."""
        return self.running(throttle, _near(self.card, throttle))

    def row(self, throttles: Sequence[float]) -> list[State]:
        """Return the same at one angle after another.

        Each starts as far off the card's as the one before it lies, with its slopes.
        """
        home, states = [_near(self.card, each) for each in throttles], list[State]()
        for k, throttle in enumerate(throttles):
            near = moved(home[k], home[k - 1], states[-1]) if states else home[k]
            states.append(self.running(throttle, near))
        return states

    def running(self, throttle: float, near: State) -> State:
        """Return the same, found from a state nearby."""
        settings = Settings(bowl_level=min(max(self.level, -40e-3), 20e-3))
        return solve_for_speed(self.rig, AIR, PETROL, throttle, settings=settings, start=near)


def stood(card: Rig, **changed: dict[str, Any]) -> Stood:
    """Return the card's rig with entries of its sections changed."""
    sections = {name: replace(getattr(card, name), **to) for name, to in changed.items()}
    rig = replace(card, **sections)
    bowl = rig.float_bowl
    level = steady(bowl, PETROL, DRAWN).level - (bowl.depth - bowl.specified_level)
    return Stood(card, rig, level)


@lru_cache(maxsize=256)
def _rung(card: Rig, rung: int) -> State:
    """Return the card's own state at one of `RUNGS`, from which others are started.

    Each is found from the one before it, so that it is the same whatever was asked for before.
    """
    home, sound = card_state(card, "idle"), stood(card)
    throttle = home.throttle_angle + TURN * RUNGS[rung]
    near = sound.running(throttle, _rung(card, rung - 1) if rung else home)
    return sound.running(throttle, afresh(near))


def _near(card: Rig, throttle: float) -> State:
    """Return a start at a throttle angle [rad], through the states at the nearest rungs."""
    turns = (throttle - card_state(card, "idle").throttle_angle) / TURN
    by_distance = sorted(range(len(RUNGS)), key=lambda rung: abs(turns - RUNGS[rung]))[:THROUGH]
    places = [RUNGS[rung] for rung in by_distance]
    return through([_rung(card, rung) for rung in by_distance], places, turns)
