"""How a rig, the weather and the settings become one network with its operating points.

What the rig alone decides is worked out once for each rig and kept, and so is what weather and
fuel decide; only speed and throttle angle are new at every call.
"""

import dataclasses
import math
from collections.abc import Callable
from functools import lru_cache
from typing import Any, TypeAlias, TypeVar

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.circuits.bowl_vents import DISCHARGE as VENT_DISCHARGE
from fuelcircuits.physics.circuits.bowl_vents import Vents, openings
from fuelcircuits.physics.circuits.high_speed import HighSpeed, hole_depths, jet_coefficients
from fuelcircuits.physics.circuits.low_speed import LowSpeed, idle_air_area, port_area
from fuelcircuits.physics.circuits.off_idle import slot_areas
from fuelcircuits.physics.circuits.power import Power, jet_area
from fuelcircuits.physics.engine.air_path import AirPath, choke_area, throttle_area
from fuelcircuits.physics.engine.engine import air_demand, manifold_temperature
from fuelcircuits.physics.engine.venturi import booster_gain, venturi_area
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.port_openings import opening_areas
from fuelcircuits.physics.network.problem import (
    BLEED_DISCHARGE,
    PORT_DISCHARGE,
    Parts,
    Points,
    Problem,
)
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = ["pose", "with_angle", "with_speed"]

Floats = NDArray[np.float64]
Numbers: TypeAlias = float | Floats
Result = TypeVar("Result")

_VENTED = Vents(inside_bore=8e-3)  # the bowl of a rig whose card gives no vents
_PASCALS = 1e5  # Pa, a manifold pressure at which the engine's demand is read off


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
        As in `fuelcircuits.physics.network.solving.solve`.
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
    problem = _kept(_problem, rig, other, free)
    still = _kept(_still, rig, weather, fuel, settings)
    given = {**still, "speed": speed, "angle": angle, "target": target}
    rows = (np.shape(each) for each in given.values() if not isinstance(each, float))
    shape = np.broadcast_shapes(*rows)
    count = math.prod(shape)
    points = _fitted(problem, {name: _flat(each, shape, count) for name, each in given.items()})
    if settings.bowl_pressure is None:
        _breathes(points)
    return problem, points, shape


def _kept(function: Callable[..., Result], *arguments: Any) -> Result:
    """Call a function that remembers, or, where arguments are arrays, one that works anew."""
    try:
        return function(*arguments)
    except TypeError as error:
        if "unhashable" not in str(error):
            raise
        anew: Callable[..., Result] = function.__wrapped__  # type: ignore[attr-defined]
        return anew(*arguments)


def _flat(value: Any, shape: tuple[int, ...], count: int) -> Floats:
    """Return a row with the value at each point."""
    if isinstance(value, float):
        row = np.empty(count)
        row.fill(value)
        return row
    return np.array(np.broadcast_to(value, shape), dtype=float).reshape(-1)


@lru_cache(maxsize=32)
def _problem(rig: Rig, other: Rig | None, free: str) -> Problem:
    """Return the network of a rig."""
    low = _paired(rig.low_speed, other and other.low_speed)
    high = _paired(rig.high_speed, other and other.high_speed)
    rod = _paired(rig.power, other and other.power) if rig.power is not None else None
    path, barrels = rig.air_path, np.size(low.jet_bore)
    return Problem(
        engine=rig.engine,
        air_path=path,
        vents=_VENTED if rig.vents is None else rig.vents,
        low=low,
        high=high,
        rod=rod,
        sections=(rig.low_speed, rig.high_speed, rig.power),
        parts=_parts(path, low, high, rod),
        gain=booster_gain(path),
        barrels=barrels,
        alike=path.barrels / barrels,
        free=free,
    )


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


def _parts(path: AirPath, low: LowSpeed, high: HighSpeed, rod: Power | None) -> Parts:
    """Return what of the openings neither point nor pressure changes."""
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
        depths=hole_depths(high),
        slender=np.stack(slender),
        lean=np.asarray(jet_area(high.jet_bore, 0.0 if rod is None else rod.lean_step)),
        valve=np.asarray(PORT_DISCHARGE * bore_area(low.valve_bore)),
        ultimate=np.stack(ultimate),
    )


@lru_cache(maxsize=32)
def _still(rig: Rig, weather: Weather, fuel: Fuel, settings: Settings) -> dict[str, Numbers]:
    """Return by name what neither speed nor throttle angle changes."""
    warm = settings.fuel_temperature
    warm = weather.temperature if warm is None else warm
    canister, imposed = settings.canister_pressure, settings.bowl_pressure
    still = {
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
    return {name: float(each) if np.ndim(each) == 0 else each for name, each in still.items()}


def _fitted(problem: Problem, flat: dict[str, Floats]) -> Points:
    """Return the points with every area of theirs worked out."""
    low, enrichment = problem.low, flat.pop("enrichment")
    idle_air = BLEED_DISCHARGE * np.asarray(idle_air_area(low, low.screw_turns, enrichment))
    port = PORT_DISCHARGE * np.asarray(port_area(low, low.screw_turns))
    unset = {name: flat["angle"] for name in Points._fields if name not in flat}
    points = Points(**{**unset, **flat})._replace(
        idle_air=idle_air, port=np.broadcast_to(port, idle_air.shape)
    )
    return with_speed(problem, with_angle(problem, points, points.angle), points.speed)


def with_angle(problem: Problem, points: Points, angle: Floats) -> Points:
    """Return the points with the throttle at `angle` and every area that follows from it."""
    path, low = problem.air_path, problem.low
    slot = slot_areas(low, angle, path.throttle_bore, path.throttle_closed_angle)
    vents, flat = openings(problem.vents, angle, points.ignition), np.zeros_like(angle)
    turned = points._replace(
        angle=angle,
        throttle=throttle_area(path, angle) / path.barrels,
        below=PORT_DISCHARGE * np.asarray(slot.below),
        above=PORT_DISCHARGE * np.asarray(slot.above),
        vent_inside=VENT_DISCHARGE * vents.inside + flat,
        vent_outside=VENT_DISCHARGE * vents.outside + flat,
        vent_canister=VENT_DISCHARGE * vents.canister + flat,
        vent_gasket=VENT_DISCHARGE * vents.gasket + flat,
    )
    return turned._replace(areas=opening_areas(problem.parts, turned, problem.barrels))


def with_speed(problem: Problem, points: Points, speed: Floats) -> Points:
    """Return the points with the engine at `speed` and the straight line of its air demand."""
    none, some = (
        air_demand(problem.engine, speed, pressure, points.charge_temperature, points.pressure)
        for pressure in (0.0, _PASCALS)
    )
    return points._replace(speed=speed, demand_rate=(some - none) / _PASCALS, demand_loss=-none)


def _breathes(points: Points) -> None:
    """Refuse a bowl without an opening."""
    area = points.vent_inside + points.vent_outside + points.vent_canister + points.vent_gasket
    if not np.all(area > 0.0):
        raise ConvergenceError("bowl pressure must follow from its vents, got every vent shut")
