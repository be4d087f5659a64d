"""A rig: every dimension of one carburettor and its engine, in SI.

To add a section: write its frozen dataclass ``X(Section)`` in the physics module of the
circuit, import it here, and add one line ``x: X = ABSENT`` to `Rig`. `fuelcircuits.cards`,
which reads spec cards, needs nothing else.
"""

from dataclasses import dataclass
from typing import Any

from fuelcircuits.physics.circuits.bowl_vents import Vents
from fuelcircuits.physics.circuits.canister import Canister
from fuelcircuits.physics.circuits.choke import Choke
from fuelcircuits.physics.circuits.cold_start import ColdStart
from fuelcircuits.physics.circuits.float_bowl import FloatBowl
from fuelcircuits.physics.circuits.high_speed import HighSpeed
from fuelcircuits.physics.circuits.hot_soak import HotSoak
from fuelcircuits.physics.circuits.low_speed import LowSpeed
from fuelcircuits.physics.circuits.power import Power
from fuelcircuits.physics.circuits.pump import Pump
from fuelcircuits.physics.circuits.wall_film import WallFilm
from fuelcircuits.physics.engine.air_path import AirPath
from fuelcircuits.physics.engine.engine import Engine

__all__ = ["ABSENT", "Rig"]

ABSENT: Any = None
"""A section that the card leaves out."""


@dataclass(frozen=True)
class Rig:
    """One carburettor on one engine: a name and a section for each circuit."""

    name: str
    note: str = ""
    engine: Engine = ABSENT
    air_path: AirPath = ABSENT
    float_bowl: FloatBowl = ABSENT
    vents: Vents = ABSENT
    low_speed: LowSpeed = ABSENT
    high_speed: HighSpeed = ABSENT
    power: Power = ABSENT
    pump: Pump = ABSENT
    choke: Choke = ABSENT
    wall_film: WallFilm = ABSENT
    canister: Canister = ABSENT
    hot_soak: HotSoak = ABSENT
    cold_start: ColdStart = ABSENT
    second: "Rig | None" = None
    """What the second barrel has instead: air path, low speed, high speed, power; if none, both
    are alike."""
