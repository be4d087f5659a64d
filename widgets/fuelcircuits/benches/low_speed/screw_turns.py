"""The mixture screw's kinds, and the idle's state over all the turns of the screw at once."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.benches.carburettor.running import AIR, PETROL, card_state, running
from fuelcircuits.physics.circuits.low_speed import LowSpeed, idle_air_area, port_area, turn
from fuelcircuits.physics.network.posing import pose, with_angle
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.search import solved
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State

__all__ = ["FEWEST", "KINDS", "MOST", "at_turns", "fitted", "held", "over_turns"]

FEWEST, MOST, COUNT = 1.0, 5.0, 17
"""Turns off the seat between which the bench works, and points of the curve [1]."""
KINDS: Mapping[str, str] = {
    "plain": "plain",
    "limited": "with limiter cap",
    "restricted": "with restrictor",
    "sealed": "sealed by a plug",
    "air": "air-adjusting, left-hand",
}
CAP = 0.5
"""Turns that a cap allows each way where the card has none [1] (invented)."""
RESTRICTOR, AIR_BLEED = 0.8, 1.3
"""Bore of a restrictor over the seat's, and of an air screw's bleed over the card's (invented)."""
WARM = Settings()


def fitted(low: LowSpeed, kind: str) -> LowSpeed:
    """Return the circuit with another kind of mixture screw.

    A cap's stops are the card's, or half a turn each way where the card has none.
    """
    free = replace(low, fewest_turns=0.0, most_turns=12.0)
    narrow = float(np.asarray(low.seat_bore)) * RESTRICTOR
    set_at = float(np.asarray(low.screw_turns))
    if kind == "limited":
        capped = float(np.asarray(low.fewest_turns)) > 0
        ends = (low.fewest_turns, low.most_turns) if capped else (set_at - CAP, set_at + CAP)
        return replace(free, fewest_turns=ends[0], most_turns=ends[1])
    if kind == "restricted":
        return replace(free, restrictor_bore=narrow)
    if kind == "sealed":
        return replace(free, fewest_turns=set_at, most_turns=set_at)
    if kind == "air":
        bleed = AIR_BLEED * float(np.asarray(low.air_bleed_bore))
        return replace(free, restrictor_bore=narrow, air_bleed_bore=bleed, screw_meters_air=1.0)
    return free


def held(low: LowSpeed, wanted: float) -> tuple[float, float]:
    """Return the turns off the seat at which the screw stops, and the turns made clockwise."""
    set_at = float(np.asarray(low.screw_turns))
    way = -1.0 if float(turn(replace(low, most_turns=12.0), set_at, -1.0)) > set_at else 1.0
    clockwise = way * (wanted - set_at)
    reached = float(turn(low, set_at, clockwise))
    return reached, way * (reached - set_at)


def at_turns(card: Rig, low: LowSpeed, turns: float) -> State:
    """Return the state at the card's idle stop and speed with the screw at these turns."""
    free = replace(low, fewest_turns=0.0, most_turns=12.0, screw_turns=turns)
    return running(card, replace(card, low_speed=free), "idle", WARM)


@lru_cache(maxsize=64)
def over_turns(card: Rig, low: LowSpeed) -> tuple[NDArray[np.float64], State]:
    """Return turns and states over all the turns of the screw, stops taken off.

    Only the two areas that the screw sets differ from point to point.
    """
    turns = np.linspace(FEWEST, MOST, COUNT)
    free = replace(low, fewest_turns=0.0, most_turns=12.0)
    home, row = card_state(card, "idle"), np.ones(COUNT)
    problem, points, shape = pose(
        replace(card, low_speed=free),
        AIR,
        PETROL,
        WARM,
        speed=home.speed * row,
        angle=home.throttle_angle * row,
    )
    port, air = (
        np.asarray(area(free, turns) / area(free, free.screw_turns))
        for area in (port_area, idle_air_area)
    )
    points = points._replace(port=points.port * port, idle_air=points.idle_air * air)
    points = with_angle(problem, points, points.angle)
    start = _start(card) if low != card.low_speed else None
    near = np.repeat(home.unknowns, COUNT, axis=1) if start is None else start
    return turns, solved(problem, points, shape, WARM, start=near)


def _start(card: Rig) -> NDArray[np.float64]:
    """Return the unknowns over all turns of the card's own circuit."""
    return over_turns(card, card.low_speed)[1].unknowns
