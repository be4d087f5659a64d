"""The mixture screw's kinds, and the idle's state over all the turns of the screw."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache

from fuelcircuits.benches.carburettor.running import card_state, running
from fuelcircuits.physics.circuits.low_speed import LowSpeed, turn
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import linspace

__all__ = ["FEWEST", "KINDS", "MOST", "TURNS_SHOWN", "at_turns", "fitted", "held", "over_turns"]

FEWEST, MOST = 1.0, 5.0
"""Turns off the seat between which the bench works [1]."""
TURNS_SHOWN = linspace(FEWEST, MOST, 17)
"""Turns off the seat at the points of the curve [1]."""
KINDS: Mapping[str, str] = {
    "plain": "plain",
    "limited": "with limiter cap",
    "restricted": "with restrictor",
    "sealed": "sealed by a plug",
    "air": "air-adjusting, left-hand",
}
CAP = 0.5
"""Turns that a cap allows each way where the card has none [1] (invented)."""
RESTRICTOR, AIR_BLEED = 0.95, 1.7
"""Bore of a restrictor over the seat's, and of an air screw's bleed over the card's (invented)."""
WARM = Settings()


def fitted(low: LowSpeed, kind: str) -> LowSpeed:
    """Return the circuit with another kind of mixture screw.

    A cap's stops are the card's, or half a turn each way where the card has none.
    """
    free = replace(low, fewest_turns=0.0, most_turns=12.0)
    narrow, set_at = low.seat_bore * RESTRICTOR, low.screw_turns
    if kind == "limited":
        capped = low.fewest_turns > 0
        ends = (low.fewest_turns, low.most_turns) if capped else (set_at - CAP, set_at + CAP)
        return replace(free, fewest_turns=ends[0], most_turns=ends[1])
    if kind == "restricted":
        return replace(free, restrictor_bore=narrow)
    if kind == "sealed":
        return replace(free, fewest_turns=set_at, most_turns=set_at)
    if kind == "air":
        bleed = AIR_BLEED * low.air_bleed_bore
        return replace(free, restrictor_bore=narrow, air_bleed_bore=bleed, screw_meters_air=1.0)
    return free


def held(low: LowSpeed, wanted: float) -> tuple[float, float]:
    """Return the turns off the seat at which the screw stops, and the turns made clockwise."""
    set_at = low.screw_turns
    way = -1.0 if turn(replace(low, most_turns=12.0), set_at, -1.0) > set_at else 1.0
    reached = turn(low, set_at, way * (wanted - set_at))
    return reached, way * (reached - set_at)


def at_turns(
    card: Rig, low: LowSpeed, turns: float, altitude: float = 0.0, *, start: State | None = None
) -> State:
    """Return the state at the card's idle stop and speed with the screw at these turns."""
    free = replace(low, fewest_turns=0.0, most_turns=12.0, screw_turns=turns)
    rig = replace(card, low_speed=free)
    return running(card, rig, "idle", WARM, altitude=altitude, start=start)


@lru_cache(maxsize=16)
def over_turns(card: Rig, low: LowSpeed, altitude: float = 0.0) -> list[State]:
    """Return the states at all the turns shown, stops taken off."""
    return [
        at_turns(card, low, turns, altitude, start=near)
        for turns, near in zip(TURNS_SHOWN, _home(card, altitude), strict=True)
    ]


@lru_cache(maxsize=16)
def _home(card: Rig, altitude: float) -> list[State]:
    """Return the states of the card's own circuit at all the turns shown."""
    states = [card_state(card, "idle", altitude)]
    for turns in TURNS_SHOWN:
        states.append(at_turns(card, card.low_speed, turns, altitude, start=states[-1]))
    return states[1:]
