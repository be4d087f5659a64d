"""The engine of a warm-up by the place of its choke plate and the step of its cam.

A choke bench asks for the same engine again and again, with the plate a little further open.
So the engine is solved for a row of plate angles on each step, and only where somebody asks.
Where the plate comes to rest is then found between them.
"""

from bisect import bisect_left
from functools import lru_cache

from fuelcircuits.benches.carburettor.running import PETROL, card_state
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import solve
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["EngineByPlate", "engine_by_plate"]

ANGLES = 17
"""Plate angles of a row [1], closer to each other where the plate is nearly shut."""
FIRST = (270.0, 100.0)
"""Temperature [K] and speed [rad/s] of the engine from whose states the others start."""


class EngineByPlate:
    """An engine at one temperature and one speed, warm but for the air and the fuel.

    Parameters
    ----------
    card
        The rig.
    outside
        Temperature of air and fuel [K].
    speed
        Engine speed, held [rad/s].
    """

    def __init__(self, card: Rig, outside: float, speed: float) -> None:
        closed = card.air_path.choke_closed_angle
        self._card, self._outside, self._speed = card, outside, speed
        self._air = Weather.at(temperature=outside)
        self._angles = [closed + (OPEN - closed) * x**1.5 for x in linspace(0.0, 1.0, ANGLES)]
        self._states: dict[tuple[int, int], State] = {}
        self.cams = (*card.choke.cam_openings, 0.0)
        """Throttle opening of each step of the cam [rad]; past the last it is 0."""
        self.stop = card_state(card, "idle").throttle_angle
        """Throttle angle of the curb-idle stop [rad]."""

    def near(self, step: int, plate: float) -> tuple[float, float]:
        """Return air flow [kg/s] and manifold vacuum [Pa] at a plate angle [rad]."""
        right = min(max(bisect_left(self._angles, plate), 1), ANGLES - 1)
        before, after = self._row(step, right - 1), self._row(step, right)
        low, high = self._angles[right - 1 : right + 1]
        share = (plate - low) / (high - low)
        air = before.air_flow + share * (after.air_flow - before.air_flow)
        risen = after.manifold_vacuum - before.manifold_vacuum
        return air, before.manifold_vacuum + share * risen

    def exact(self, step: int, plate: float, start: State | None = None) -> State:
        """Return the engine at a plate angle [rad], solved from a state nearby if one is given."""
        return solve(
            self._card,
            self._air,
            PETROL,
            self._speed,
            self.stop + self.cams[step],
            settings=Settings(choke_angle=plate, fuel_temperature=self._outside),
            start=start or self._row(step, bisect_left(self._angles, plate)),
        )

    def _row(self, step: int, place: int) -> State:
        """Return the engine at one of the plate angles of a row."""
        key = (step, place)
        if key not in self._states:
            self._states[key] = self.exact(step, self._angles[place], self._start(*key))
        return self._states[key]

    def _start(self, step: int, place: int) -> State:
        """Return a state nearby, the same whoever asks for whatever first."""
        if (self._outside, self._speed) != FIRST:
            return engine_by_plate(self._card, *FIRST)._row(step, place)
        if place + 1 < ANGLES:
            return self._row(step, place + 1)
        return card_state(self._card, "idle")


@lru_cache(maxsize=16)
def engine_by_plate(card: Rig, outside: float, speed: float) -> EngineByPlate:
    """Return the engine of a card at a temperature [K] and a speed [rad/s]; it is kept."""
    return EngineByPlate(card, outside, speed)
