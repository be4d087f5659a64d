"""A carburettor as it stands, with the states that checks are read in solved once."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache, partial
from math import pi
from types import MappingProxyType
from typing import Any

from fuelcircuits import faults
from fuelcircuits.diagnosis.idling import OnStop, fired_torque, idling
from fuelcircuits.errors import CardError, ConvergenceError
from fuelcircuits.physics.circuits import float_bowl
from fuelcircuits.physics.circuits.float_bowl import FloatState
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.restart import restart
from fuelcircuits.physics.motion.soak_run import soak_run
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.starts import afresh
from fuelcircuits.physics.network.state import State

__all__ = ["FULL_LOAD", "IDLE", "POINTS", "Subject", "Warmed", "shown_lambda", "warmed"]

POINTS = ("idle", "off idle", "cruise", "full load", "hot cruise")
"""The loads at which a warm engine is read, in the order of `Warmed.states`."""
IDLE, FULL_LOAD = POINTS.index("idle"), POINTS.index("full load")
_CRUISE = POINTS.index("cruise")
_SPEEDS = (150.0, 220.0, 320.0)  # rad/s; all but idle, and a hot cruise, which is a cruise
_ANGLES = (0.33, 0.45, pi / 2)  # rad
_VACUUMS = (0.54, 0.40, 0.0)  # of the pressure outside
_VAPOUR = (0.0, 0.0, 0.0, 0.0, 2e-5)  # kg/s, what boils off in a hot bowl
_DEEPEST, _HIGHEST = -40e-3, 20e-3  # m, levels that settings can hold
_SOAK = [150.0 * step for step in range(13)]  # s
_LEANEST = 60.0  # kg of air to 1 kg of fuel; nothing burns beyond, nor is it shown
_WARM = Settings()
_COLD_PARTS: Mapping[str, Any] = MappingProxyType(
    dict.fromkeys(("low_speed", "power", "pump", "choke", "cold_start", "wall_film"))
)
"""Sections that a hot soak does not know."""


@dataclass(frozen=True)
class Warmed:
    """A healthy rig in its weather, and the loads at which it and its faults are read.

    On a stand, the throttle stop stays where the healthy engine idles; a fault is read at the
    same stop and the same speed, so that two readings differ by the fault alone. On the road
    (`by_vacuum`), the idle speed is set back with the stop, and light loads are held by the
    vacuum gauge, as one who owns the car has to do it.
    """

    rig: Rig
    weather: Weather
    fuel: Fuel
    states: tuple[State, ...]
    """The healthy engine at each of `POINTS`."""
    by_vacuum: bool = False

    @cached_property
    def pull(self) -> float:
        """Torque of the healthy engine at full load, on petrol [N m]."""
        sound = Subject(replace(self, fuel=Fuel()), self.rig)
        return sound.torque(sound.running(FULL_LOAD))

    @property
    def stop(self) -> float:
        """Throttle angle of the idle stop [rad]."""
        return self.states[IDLE].throttle_angle

    def moved(self, weather: Weather, fuel: Fuel) -> "Warmed":
        """Return the same car in other weather and on other fuel."""
        return replace(self, weather=weather, fuel=fuel)


def warmed(
    rig: Rig, weather: Weather, fuel: Fuel, *, near: Warmed | None = None, by_vacuum: bool = False
) -> Warmed:
    """Return `rig` with its idle stop set and its loads solved.

    Parameters
    ----------
    rig, weather, fuel
        The carburettor, and what it is read in and with.
    near
        A rig much like it, from whose states the search starts.
    by_vacuum
        Whether it is read as on the road: light loads by their manifold vacuum, which suits an
        engine of any size.

    Raises
    ------
    CardError
        If the rig lacks a section that diagnosis needs.
    ConvergenceError
        If the engine cannot idle.
    """
    missing = [
        name
        for name in ("engine", "air_path", "float_bowl", "vents", "low_speed", "high_speed")
        if getattr(rig, name) is None
    ]
    if missing:
        raise CardError(f"{rig.name}: card must have {', '.join(missing)}, got nothing")
    starts = near.states if near else (None,) * len(POINTS)
    states = [network.curb_idle(rig, weather, fuel, start=starts[IDLE])]
    for speed, angle, share, start in zip(_SPEEDS, _ANGLES, _VACUUMS, starts[1:-1], strict=True):
        drawn = share * weather.pressure
        if by_vacuum and drawn:
            found = network.solve_for_angle(
                rig, weather, fuel, speed, manifold_vacuum=drawn, start=start
            )
        else:
            found = network.solve(rig, weather, fuel, speed, angle, start=start)
        states.append(found)
    return Warmed(rig, weather, fuel, (*states, states[_CRUISE]), by_vacuum)


@dataclass(frozen=True)
class Subject:
    """A carburettor with or without a fault; states are solved when first asked for.

    What has been solved of the car beside it, which is much like it, is where the search starts.
    """

    warmed: Warmed
    rig: Rig
    settings: Settings = _WARM
    beside: "Subject | None" = field(default=None, compare=False, repr=False)
    sharp: bool = field(default=False, compare=False, repr=False)
    """Whether its states are solved with slopes of their own, which serves those beside it."""

    @classmethod
    def with_fault(cls, warmed: Warmed, name: str, severity: float) -> "Subject":
        """Return the carburettor with one fault; `name` may be empty for a healthy one.

        Raises
        ------
        RangeError
            If there is no such fault, or the rig has not the part.
        """
        if not name or severity == 0:
            return cls(warmed, warmed.rig)
        car = warmed.moved(warmed.weather, faults.fuel(warmed.fuel, name, severity))
        rig = faults.apply(warmed.rig, name, severity)
        return cls(car, rig, faults.settings(warmed.rig, name, severity))

    def changed(self, **sections: Any) -> "Subject":
        """Return the car with sections of its rig changed."""
        return Subject(self.warmed, replace(self.rig, **sections), self.settings, self)

    def running(self, load: int) -> State:
        """Return the warm engine at one of `POINTS`; raise `ConvergenceError` if it has no state.

        That is found out once, for nothing takes longer.
        """
        if load not in self._states:
            try:
                self._states[load] = self.at(load, vapour=max(self.settings.vapour, _VAPOUR[load]))
            except ConvergenceError as error:
                self._states[load] = error
        if isinstance(state := self._states[load], ConvergenceError):
            raise state
        return state

    def bowl(self, load: int) -> FloatState:
        """Return what the float does at one of `POINTS`."""
        near = self.beside
        if near and near.rig.float_bowl == self.rig.float_bowl:
            return near.bowl(load)
        if load not in self._floats:
            drawn = self.warmed.states[load].fuel_flow
            self._floats[load] = float_bowl.steady(self.rig.float_bowl, self.warmed.fuel, drawn)
        return self._floats[load]

    @cached_property
    def _states(self) -> dict[int, State | ConvergenceError]:
        return {}

    @cached_property
    def _floats(self) -> dict[int, FloatState]:
        return {}

    def at(self, load: int, **changed: float) -> State:
        """Return the engine at one of `POINTS`, fuel where the float puts it, settings changed."""
        car, home = self.warmed, self.warmed.states[load]
        start = self._beside(load)
        settings = replace(self.settings, bowl_level=self._level(load), **changed)
        where = self.rig, car.weather, car.fuel, home.speed
        if not car.by_vacuum or POINTS[load] == "full load":
            return network.solve(*where, home.throttle_angle, settings=settings, start=start)
        idling = load == IDLE
        return network.solve_for_angle(
            *where,
            settings=settings,
            torque=0.0 if idling else None,
            manifold_vacuum=None if idling else home.manifold_vacuum,
            start=start,
        )

    def _beside(self, load: int) -> State:
        """Return where the search at one of `POINTS` starts."""
        known = self.beside._states.get(load) if self.beside else None
        return self._off(known if isinstance(known, State) else self.warmed.states[load])

    def _off(self, state: State) -> State:
        """Return where to begin from a state."""
        return afresh(state) if self.sharp else state

    @cached_property
    def left_alone(self) -> State | None:
        """The warm engine at idle with its stop as the healthy one had it; none where it stalls.

        The stop was set for an engine of which a few cycles do not fire either.
        """
        car = self.warmed
        usual, on_stop = car.states[IDLE], self.on_stop
        lost = Subject(car, car.rig).torque(usual)
        try:
            speed = idling(lambda speed: self.torque(on_stop.at(speed)) - lost, usual.speed)
            return None if speed is None else on_stop.at(speed)
        except ConvergenceError:
            return None

    @cached_property
    def on_stop(self) -> OnStop:
        """The warm engine with its throttle on the stop as the healthy one had it."""
        car, settings = self.warmed, replace(self.settings, bowl_level=self._level(IDLE))
        near = self.beside.on_stop if self.beside else None
        if self.beside and near and _drawing(self.rig) == _drawing(self.beside.rig):
            return near.copy()
        solve = partial(network.solve, self.rig, car.weather, car.fuel, settings=settings)
        start = self._off(car.states[IDLE])
        return OnStop(lambda speed, begin: solve(speed, car.stop, start=begin), start, near)

    def torque(self, state: State) -> float:
        """Return the brake torque in a state, with those cycles that fire [N m]."""
        return fired_torque(self.rig.engine, state)

    def revved(self, speed: float) -> State:
        """Return the warm engine held at a speed [rad/s] in neutral: it drives nothing."""
        if speed not in self._revs:
            car = self.warmed
            start = self.beside._revs.get(speed) if self.beside else None
            start = self._off(start or _revved(car.rig, car.weather, speed))
            where = self.rig, car.weather, car.fuel, speed
            self._revs[speed] = network.solve_for_angle(*where, torque=0.0, start=start)
        return self._revs[speed]

    @cached_property
    def _revs(self) -> dict[float, State]:
        return {}

    def _level(self, load: int) -> float:
        """Return how far the fuel stands above the specified level at a load [m]."""
        bowl = self.rig.float_bowl
        above = self.bowl(load).level - (bowl.depth - bowl.specified_level)
        held = min(max(above, _DEEPEST), _HIGHEST)
        return min(max(self.settings.bowl_level + held, _DEEPEST), _HIGHEST)

    @property
    def cranking(self) -> float:
        """Longest cranking of a restart in half an hour of hot soak [s]."""
        return _cranking(replace(self.rig, **_COLD_PARTS), self.warmed.weather, self.warmed.fuel)


def shown_lambda(state: State) -> float:
    """Return lambda as an instrument shows it, at most that of `_LEANEST`."""
    return min(state.ratio, _LEANEST) / state.stoichiometric


def _drawing(rig: Rig) -> Rig:
    """Return a rig without what changes its engine's work alone, not what that draws."""
    return replace(rig, engine=replace(rig.engine, spark_late=0.0, dead_cylinders=0.0))


@lru_cache(maxsize=64)
def _revved(rig: Rig, weather: Weather, speed: float) -> State:
    """Return a healthy engine held at a speed in neutral, on petrol."""
    return network.solve_for_angle(rig, weather, Fuel(), speed, torque=0.0)


@lru_cache(maxsize=512)
def _cranking(rig: Rig, weather: Weather, fuel: Fuel) -> float:
    """Return the longest cranking after a hot soak, for a rig of the parts that matter to it."""
    return max(restart(rig, weather, fuel, soak_run(rig, weather, fuel, _SOAK)).cranking)
