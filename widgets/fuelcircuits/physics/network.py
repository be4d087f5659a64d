"""The whole carburettor on its engine, in steady running: solved for any number of points."""

import dataclasses
from typing import Any, NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt

from fuelcircuits.errors import ConvergenceError, RangeError, between, positive
from fuelcircuits.physics import breathing
from fuelcircuits.physics import fuel as liquid
from fuelcircuits.physics import power as rod
from fuelcircuits.physics.air_path import choke_area
from fuelcircuits.physics.atmosphere import Weather
from fuelcircuits.physics.balance import (
    BLEED_DISCHARGE,
    EACH,
    PORT_DISCHARGE,
    SHARED,
    Flows,
    Problem,
    flows,
    geometry,
    residuals,
)
from fuelcircuits.physics.engine import manifold_temperature
from fuelcircuits.physics.fuel import Fuel
from fuelcircuits.physics.high_speed import GRAVITY
from fuelcircuits.physics.low_speed import idle_air_area, port_area
from fuelcircuits.physics.newton import newton
from fuelcircuits.physics.plate import OPEN
from fuelcircuits.physics.settings import Settings
from fuelcircuits.physics.two_phase import bore_area
from fuelcircuits.physics.vents import Vents
from fuelcircuits.physics.venturi import venturi_area
from fuelcircuits.rig import Rig

Numbers: TypeAlias = float | npt.NDArray[np.float64]
Floats = npt.NDArray[np.float64]

__all__ = ["State", "solve"]

_SHIFT = {"manifold pressure": 1e-2, "venturi pressure": 1e-3}
_REACH = {"manifold pressure": 2e4}
_GOOD = 1e-9  # [1], imbalance over traffic that a solution may have
_VENTED = Vents(inside_bore=8e-3)  # of a rig whose card gives no vents


class State(NamedTuple):
    """A solved network. Fields have the shape of the inputs, barrel flows the barrels before."""

    speed: Floats  # rad/s
    throttle_angle: Floats  # rad
    ambient_pressure: Floats  # Pa
    flows: Flows
    barrels_alike: int
    valve_lift: Floats
    slot_below: Floats
    slot_above: Floats
    unknowns: Floats

    def _all(self, flow: Floats) -> Floats:
        return self.barrels_alike * flow.sum(axis=0)

    @property
    def air_flow(self) -> Floats:
        """Air into the engine [kg/s]."""
        return self.flows.engine

    @property
    def fuel_by_circuit(self) -> dict[str, Floats]:
        """Fuel that leaves by each way, all barrels together [kg/s]."""
        f = self.flows
        return {
            "nozzle": self._all(f.nozzle_fuel),
            "slot": self._all(f.lower_fuel - f.upper_fuel),
            "screw": self._all(f.screw_fuel),
            "spill": self._all(-f.bypass_fuel - f.idle_air_fuel - f.valve_fuel),
        }

    @property
    def fuel_flow(self) -> Floats:
        """Fuel out of the bowl [kg/s]."""
        return self._all(self.flows.main_jet)

    @property
    def power_fuel(self) -> Floats:
        """The part of the main jets' fuel that the metering rods have added [kg/s]."""
        return self._all(self.flows.main_jet * self.flows.power_share)

    @property
    def ratio(self) -> Floats:
        """Air-fuel ratio by mass [1]."""
        return self.air_flow / self.fuel_flow

    @property
    def manifold_pressure(self) -> Floats:
        return self.flows.pressures[2]

    @property
    def bowl_pressure(self) -> Floats:
        return self.flows.pressures[3]

    @property
    def manifold_vacuum(self) -> Floats:
        return self.ambient_pressure - self.flows.pressures[2]

    @property
    def chamber_vacuum(self) -> Floats:
        return self.ambient_pressure - self.flows.pressures[8]

    @property
    def booster_depression(self) -> Floats:
        return self.flows.pressures[0] - self.flows.booster


def _stacked(first: Any, second: Any) -> Any:
    """Return one section whose entries have a row for each barrel: (barrels, 1, 1)."""
    rows = {}
    for field in dataclasses.fields(first):
        pair = [getattr(each, field.name) for each in (first, second) if each is not None]
        rows[field.name] = np.array(pair, dtype=float).reshape(-1, 1, 1)
    if "hole_count" in rows:
        if np.ptp(rows["hole_count"]) > 0:
            raise RangeError("hole count must be the same in both barrels, got two")
        rows["hole_count"] = float(first.hole_count)
    return type(first)(**rows)


def _problem(
    rig: Rig, weather: Weather, fuel: Fuel, inputs: dict[str, Any], settings: Settings, other: Any
) -> tuple[Problem, tuple[int, ...]]:
    low = _stacked(rig.low_speed, other and other.low_speed)
    high = _stacked(rig.high_speed, other and other.high_speed)
    metering = rig.power and _stacked(rig.power, other and other.power)
    path, warm = rig.air_path, settings.fuel_temperature
    warm = weather.temperature if warm is None else warm
    area = choke_area(path, settings.choke_angle)
    canister = settings.canister_pressure
    points = {
        **inputs,
        "pressure": weather.pressure,
        "temperature": weather.temperature,
        "gas_constant": weather.gas_constant,
        "fuel_density": liquid.density(fuel, warm),
        "viscosity": liquid.viscosity(fuel, warm),
        "charge_temperature": manifold_temperature(rig.engine, weather.temperature),
        "choke_area": area,
        "canister": weather.pressure if canister is None else canister,
        "bowl_level": settings.bowl_level,
        "vapour": settings.vapour,
        "ignition": settings.ignition,
        "enrichment": settings.idle_enrichment,
    }
    if settings.bowl_pressure is not None:
        points["bowl_pressure"] = settings.bowl_pressure
    shape = np.broadcast_shapes(*(np.shape(each) for each in points.values()))
    points = {
        name: np.ascontiguousarray(
            np.broadcast_to(np.asarray(each, dtype=float), shape).reshape(-1)
        )
        for name, each in points.items()
    }
    points["idle_air"] = BLEED_DISCHARGE * np.asarray(
        idle_air_area(low, low.screw_turns, points["enrichment"])
    )
    points["port"] = np.broadcast_to(
        PORT_DISCHARGE * np.asarray(port_area(low, low.screw_turns)), points["idle_air"].shape
    )
    parts = {
        "cleaner": np.asarray(path.cleaner_area),
        "leak": np.asarray(path.manifold_leak),
        "venturi": np.asarray(venturi_area(path) / path.barrels),
        "bleed": BLEED_DISCHARGE * bore_area(high.air_bleed_bore),
        "has_bleed": np.where(high.air_bleed_bore > 0.0, 1.0, 0.0),
        "bypass": BLEED_DISCHARGE * bore_area(low.bypass_bore),
        "tube": PORT_DISCHARGE * bore_area(low.jet_bore),
        "nozzle": BLEED_DISCHARGE * bore_area(high.nozzle_bore),
        "economizer": PORT_DISCHARGE * bore_area(low.economizer_bore),
        "idle_jet": bore_area(low.jet_bore),
        "jet_area": bore_area(high.jet_bore),
        "jet_gap": high.jet_bore,
    }
    vents = rig.vents or _VENTED
    problem = Problem(
        rig.engine, path, vents, low, high, metering, low.jet_bore.size, points, parts
    )
    return problem, shape


def solve(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    speed: Numbers,
    throttle_angle: Numbers,
    settings: Settings = Settings(),
    *,
    other: Rig | None = None,
    start: State | None = None,
) -> State:
    positive("speed", speed, "rad/s")
    between("throttle angle", throttle_angle, 0.0, OPEN, "rad")
    problem, shape = _problem(
        rig, weather, fuel, {"speed": speed, "angle": throttle_angle}, settings, other
    )
    known = geometry(problem, problem.points["angle"], problem.points["ignition"])

    def residual(unknowns: Floats, index: npt.NDArray[np.intp]) -> tuple[Floats, Floats]:
        here = type(known)(
            known.throttle[index],
            known.below[..., index],
            known.above[..., index],
            tuple(np.broadcast_to(v, known.throttle.shape)[index] for v in known.vents),
        )
        return residuals(problem, unknowns, problem.at(index), here)

    if start is None:
        guess = _guess(rig, weather, speed, throttle_angle, settings, problem, shape)
    else:
        guess = start.unknowns
    names = [*SHARED, *(name for name in EACH for _ in range(problem.barrels))]
    shift = np.array([_SHIFT.get(name, 1e-4) for name in names])
    reach = np.array([_REACH.get(name, 5e3) for name in names])
    found = newton(residual, guess, shift, reach)
    bad = ~(found.error <= _GOOD)
    if np.any(bad):
        w = np.flatnonzero(bad)
        raise ConvergenceError(
            f"{names[found.worst[w[0]]]} must balance, {bad.sum()} points {w[:10]} do not, {found.error[w[:10]]}"
        )
    f = flows(problem, found.unknowns[:, None, :], problem.points, known)
    from fuelcircuits.physics.low_speed import valve_lift

    lift = valve_lift(problem.low, f.pressures[1] - f.pressures[8])

    def shaped(a):
        a = np.broadcast_to(np.asarray(a), (*np.shape(a)[:-1], found.unknowns.shape[1]))
        if a.ndim == 3:
            return a[:, 0].reshape(a.shape[0], *shape)
        if a.ndim == 2:
            return a[0].reshape(shape)
        return a.reshape(shape)

    ff = Flows(*(tuple(shaped(p) for p in x) if isinstance(x, tuple) else shaped(x) for x in f))
    return State(
        problem.points["speed"].reshape(shape),
        problem.points["angle"].reshape(shape),
        problem.points["pressure"].reshape(shape),
        ff,
        int(rig.air_path.barrels) // problem.barrels,
        shaped(lift),
        shaped(known.below),
        shaped(known.above),
        found.unknowns,
    )


def _guess(rig, weather, speed, angle, settings, problem, shape):
    air = breathing.solve(
        rig.engine, rig.air_path, weather, speed, angle, choke_angle=settings.choke_angle
    )
    points = problem.points

    def flat(v):
        return np.broadcast_to(v, shape).reshape(-1)

    horn, choke, venturi, manifold, booster = (
        flat(v)
        for v in (
            air.horn_pressure,
            air.choke_pressure,
            air.venturi_pressure,
            air.manifold_pressure,
            air.booster_pressure,
        )
    )
    bowl = points.get("bowl_pressure", horn)
    weight = points["fuel_density"] * GRAVITY
    well = np.minimum(
        bowl - 20.0, booster + weight * np.mean(problem.high.lip) + 0.2 * (bowl - booster)
    )
    chamber = choke - np.minimum(900.0, 0.02 * (choke - manifold))
    mix = np.maximum(chamber + 200.0, choke - 600.0)
    barrel = [
        np.repeat(each[None], problem.barrels, axis=0)
        for each in (venturi, well, horn - 1.0, mix, chamber)
    ]
    return np.concatenate([np.stack([horn, choke, manifold, bowl]), *barrel])
