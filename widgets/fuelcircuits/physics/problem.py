"""One network and its operating points, laid out for solving many points at once."""

import dataclasses
from dataclasses import dataclass
from typing import Any, NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics import fuel as liquid
from fuelcircuits.physics.air_path import AirPath, choke_area, throttle_area
from fuelcircuits.physics.atmosphere import Weather
from fuelcircuits.physics.engine import Engine, manifold_temperature
from fuelcircuits.physics.fuel import Fuel
from fuelcircuits.physics.high_speed import HighSpeed, jet_coefficients
from fuelcircuits.physics.low_speed import LowSpeed, idle_air_area, port_area, slot_areas
from fuelcircuits.physics.power import Power
from fuelcircuits.physics.settings import Settings
from fuelcircuits.physics.two_phase import bore_area
from fuelcircuits.physics.vents import DISCHARGE as VENT_DISCHARGE
from fuelcircuits.physics.vents import Vents, openings
from fuelcircuits.physics.venturi import booster_gain, venturi_area
from fuelcircuits.rig import Rig

__all__ = ["Parts", "Points", "Problem", "pose", "with_angle"]

Floats = NDArray[np.float64]
Numbers: TypeAlias = float | Floats

BLEED_DISCHARGE = 0.8
"""Discharge coefficient of a drilled bleed or nozzle, a short tube [1] (common practice)."""
PORT_DISCHARGE = 0.7
"""Discharge coefficient of slot, screw port, economizer and valve [1] (common practice)."""
_VENTED = Vents(inside_bore=8e-3)  # the bowl of a rig whose card gives no vents


class Points(NamedTuple):
    """What differs from point to point; points are the last axis, barrels the first of three."""

    speed: Floats  # rad/s
    angle: Floats  # rad, throttle
    target: Floats  # what the last unknown is found for; nan if there is none
    pressure: Floats  # Pa, outside
    temperature: Floats  # K
    gas_constant: Floats  # J/(kg K)
    charge_temperature: Floats  # K
    fuel_density: Floats  # kg/m3
    viscosity: Floats  # Pa s
    stoichiometric: Floats  # air-fuel ratio
    bowl_level: Floats  # m above the specified one
    bowl_pressure: Floats  # Pa, if it is imposed; nan where the vents' balance gives it
    vapour: Floats  # kg/s
    canister: Floats  # Pa
    ignition: Floats
    choke: Floats  # m2, effective, past the choke plate
    idle_air: Floats  # m2, effective, (barrels, 1, points)
    port: Floats  # m2, effective, (barrels, 1, points)
    throttle: Floats  # m2, effective, one barrel
    below: Floats  # m2, effective, slot below the edge, (barrels, 1, points)
    above: Floats  # m2, effective, slot above the edge, (barrels, 1, points)
    vent_inside: Floats  # m2, effective
    vent_outside: Floats
    vent_canister: Floats
    vent_gasket: Floats

    def take(self, index: NDArray[np.intp]) -> "Points":
        """Return some of the points."""
        if index.size == self.speed.size:
            return self
        return Points(*(each[..., index] for each in self))


class Parts(NamedTuple):
    """Effective areas that neither point nor pressure changes [m2]."""

    cleaner: float
    leak: float
    venturi: float  # one barrel
    bleed: Floats
    bypass: Floats
    economizer: Floats
    idle_jet: Floats  # geometric
    tube: Floats  # low-speed jet, air running back through it
    nozzle: Floats
    bled: Floats  # 1 where there is a main air bleed, else 0
    slender: Floats  # main and low-speed jet, length over bore [1]
    ultimate: Floats  # main and low-speed jet, discharge coefficient at high Reynolds number [1]


@dataclass(frozen=True)
class Problem:
    """One network; entries of `low`, `high` and `rod` have the shape (barrels, 1, 1)."""

    engine: Engine
    air_path: AirPath
    vents: Vents
    low: LowSpeed
    high: HighSpeed
    rod: Power | None
    parts: Parts
    gain: float  # of the booster
    barrels: int  # barrels told apart: 1 where all are alike
    alike: float  # real barrels for each of those
    free: str = ""  # "", "angle" or "speed": the last unknown


def _paired(first: Any, second: Any) -> Any:
    """Return one section whose entries have a row for each barrel told apart."""
    both = [each for each in (first, second) if each is not None]
    rows: dict[str, Any] = {
        field.name: np.array([getattr(each, field.name) for each in both], float).reshape(-1, 1, 1)
        for field in dataclasses.fields(first)
    }
    if "hole_count" in rows and np.ptp(rows["hole_count"]) > 0:
        raise RangeError("hole count must be the same in both barrels, got two different ones")
    if "hole_count" in rows:
        rows["hole_count"] = rows["hole_count"][0, 0, 0]
    return type(first)(**rows)


def _parts(path: AirPath, low: LowSpeed, high: HighSpeed) -> Parts:
    jets = (high.jet_bore, high.jet_length), (low.jet_bore, low.jet_length)
    slender, ultimate = zip(*(jet_coefficients(*jet) for jet in jets), strict=True)
    return Parts(
        cleaner=path.cleaner_area,
        leak=path.manifold_leak,
        venturi=venturi_area(path) / path.barrels,
        bleed=np.asarray(BLEED_DISCHARGE * bore_area(high.air_bleed_bore)),
        bypass=np.asarray(BLEED_DISCHARGE * bore_area(low.bypass_bore)),
        economizer=np.asarray(PORT_DISCHARGE * bore_area(low.economizer_bore)),
        idle_jet=np.asarray(bore_area(low.jet_bore)),
        tube=np.asarray(PORT_DISCHARGE * bore_area(low.jet_bore)),
        nozzle=np.asarray(BLEED_DISCHARGE * bore_area(high.nozzle_bore)),
        bled=np.where(np.asarray(high.air_bleed_bore) > 0.0, 1.0, 0.0),
        slender=np.stack(slender),
        ultimate=np.stack(ultimate),
    )


def with_angle(problem: Problem, points: Points, angle: Floats) -> Points:
    """Return the points with the throttle at `angle` and every area that follows from it."""
    path, low = problem.air_path, problem.low
    slot = slot_areas(low, angle, path.throttle_bore, path.throttle_closed_angle)
    vents = openings(problem.vents, angle, points.ignition)
    return points._replace(
        angle=angle,
        throttle=throttle_area(path, angle) / path.barrels,
        below=PORT_DISCHARGE * np.asarray(slot.below),
        above=PORT_DISCHARGE * np.asarray(slot.above),
        vent_inside=np.broadcast_to(VENT_DISCHARGE * vents.inside, angle.shape),
        vent_outside=np.broadcast_to(VENT_DISCHARGE * vents.outside, angle.shape),
        vent_canister=np.broadcast_to(VENT_DISCHARGE * vents.canister, angle.shape),
        vent_gasket=np.broadcast_to(VENT_DISCHARGE * vents.gasket, angle.shape),
    )


def pose(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    settings: Settings,
    *,
    speed: Numbers,
    angle: Numbers,
    other: Rig | None = None,
    target: Numbers = np.nan,
    free: str = "",
) -> tuple[Problem, Points, tuple[int, ...]]:
    """Return a network, its points, and the shape that the inputs broadcast to.

    Parameters
    ----------
    rig, weather, fuel, settings
        As in `fuelcircuits.physics.network.solve`.
    speed, angle
        Speed [rad/s] and throttle angle [rad]; a first guess where `free` names it.
    other
        The rig whose circuits the second barrel has; None where both are alike.
    target
        What the last unknown is found for.
    free
        "", "angle" or "speed".

    Raises
    ------
    ConvergenceError
        If every vent of the bowl is shut and no bowl pressure is imposed.
    RangeError
        If an input is out of range, or a circuit's section is missing from the rig.
    """
    for name in ("engine", "air_path", "low_speed", "high_speed"):
        if getattr(rig, name) is None:
            raise RangeError(f"rig must have a section {name}, got none on {rig.name}")
    low = _paired(rig.low_speed, other and other.low_speed)
    high = _paired(rig.high_speed, other and other.high_speed)
    rod = _paired(rig.power, other and other.power) if rig.power is not None else None
    path, barrels = rig.air_path, np.size(low.jet_bore)
    problem = Problem(
        engine=rig.engine,
        air_path=path,
        vents=_VENTED if rig.vents is None else rig.vents,
        low=low,
        high=high,
        rod=rod,
        parts=_parts(path, low, high),
        gain=booster_gain(path),
        barrels=barrels,
        alike=path.barrels / barrels,
        free=free,
    )
    flat, shape = _points(rig, weather, fuel, settings, speed=speed, angle=angle, target=target)
    points = _fitted(problem, flat, settings.idle_enrichment, shape)
    if settings.bowl_pressure is None:
        _breathes(points)
    return problem, points, shape


def _points(
    rig: Rig, weather: Weather, fuel: Fuel, settings: Settings, **inputs: Numbers
) -> tuple[dict[str, Floats], tuple[int, ...]]:
    """Return the points' data by name, flattened, and the shape they had."""
    warm = settings.fuel_temperature
    warm = weather.temperature if warm is None else warm
    canister, imposed = settings.canister_pressure, settings.bowl_pressure
    given: dict[str, Any] = {
        **inputs,
        "pressure": weather.pressure,
        "temperature": weather.temperature,
        "gas_constant": weather.gas_constant,
        "charge_temperature": manifold_temperature(rig.engine, weather.temperature),
        "fuel_density": liquid.density(fuel, warm),
        "viscosity": liquid.viscosity(fuel, warm),
        "stoichiometric": liquid.stoichiometric_ratio(fuel),
        "bowl_level": settings.bowl_level,
        "bowl_pressure": np.nan if imposed is None else imposed,
        "vapour": settings.vapour,
        "canister": weather.pressure if canister is None else canister,
        "ignition": settings.ignition,
        "choke": choke_area(rig.air_path, settings.choke_angle),
        "enrichment": settings.idle_enrichment,
    }
    shape = np.broadcast_shapes(*(np.shape(each) for each in given.values()))
    return {
        name: np.array(np.broadcast_to(each, shape), dtype=float).reshape(-1)
        for name, each in given.items()
    }, shape


def _fitted(
    problem: Problem, flat: dict[str, Floats], enrichment: Numbers, shape: tuple[int, ...]
) -> Points:
    """Return the points with every area of theirs worked out."""
    low, enrichment = problem.low, flat.pop("enrichment")
    idle_air = BLEED_DISCHARGE * np.asarray(idle_air_area(low, low.screw_turns, enrichment))
    port = PORT_DISCHARGE * np.asarray(port_area(low, low.screw_turns))
    unset = {name: flat["angle"] for name in Points._fields if name not in flat}
    points = Points(**{**unset, **flat})._replace(
        idle_air=idle_air, port=np.broadcast_to(port, idle_air.shape)
    )
    return with_angle(problem, points, points.angle)


def _breathes(points: Points) -> None:
    """Refuse a bowl without an opening."""
    area = points.vent_inside + points.vent_outside + points.vent_canister + points.vent_gasket
    if not np.all(area > 0.0):
        raise ConvergenceError("bowl pressure must follow from its vents, got every vent shut")
