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
        """Return air flow [kg/s] and manifold vacuum [Pa] at a plate angle [rad], in between."""
        before, after, share = self._beside(step, plate)
        flow, vacuum = before.air_flow, before.manifold_vacuum
        risen = after.manifold_vacuum - vacuum
        return flow + share * (after.air_flow - flow), vacuum + share * risen

    def exact(self, step: int, plate: float) -> State:
        """Return the engine at a plate angle [rad], solved from the states beside it."""
        before, after, share = self._beside(step, plate)
        pairs = zip(before.unknowns, after.unknowns, strict=True)
        between = [one + share * (other - one) for one, other in pairs]
        nearer = before if share < 0.5 else after
        return self._solved(step, plate, nearer._replace(unknowns=between))

    def _beside(self, step: int, plate: float) -> tuple[State, State, float]:
        """Return the states at the angles before and after, and how far between them [1]."""
        right = min(max(bisect_left(self._angles, plate), 1), ANGLES - 1)
        low, high = self._angles[right - 1 : right + 1]
        return self._at(step, right - 1), self._at(step, right), (plate - low) / (high - low)

    def _at(self, step: int, place: int) -> State:
        """Return the engine at one of the plate angles of a row."""
        key = (step, place)
        if key not in self._states:
            self._states[key] = self._solved(step, self._angles[place], self._start(*key))
        return self._states[key]

    def _start(self, step: int, place: int) -> State:
        """Return a state nearby, the same whoever asks for whatever first."""
        if (self._outside, self._speed) != FIRST:
            return engine_by_plate(self._card, *FIRST)._at(step, place)
        return self._at(step, place + 1) if place + 1 < ANGLES else card_state(self._card, "idle")

    def _solved(self, step: int, plate: float, start: State) -> State:
        settings = Settings(choke_angle=plate, fuel_temperature=self._outside)
        angle = self.stop + self.cams[step]
        return solve(
            self._card, self._air, PETROL, self._speed, angle, settings=settings, start=start
        )


@lru_cache(maxsize=16)
def engine_by_plate(card: Rig, outside: float, speed: float) -> EngineByPlate:
    """Return the engine of a card at a temperature [K] and a speed [rad/s]; it is kept."""
    return EngineByPlate(card, outside, speed)
