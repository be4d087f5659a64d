"""How a rig, the weather and the settings become one network with its operating point.

What a rig alone decides is worked out once and kept; speed and throttle angle are new at every
call.
"""

from functools import lru_cache
from typing import Any

from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.circuits.bowl_vents import DISCHARGE as VENT_DISCHARGE
from fuelcircuits.physics.circuits.bowl_vents import Openings, Vents, openings
from fuelcircuits.physics.circuits.high_speed import GRAVITY, hole_depths, jet_coefficients
from fuelcircuits.physics.circuits.low_speed import idle_air_area, port_area
from fuelcircuits.physics.circuits.off_idle import SlotAreas, slot_areas
from fuelcircuits.physics.circuits.power import jet_area
from fuelcircuits.physics.engine.air_path import (
    choke_area,
    linked_angle,
    throttle_area,
)
from fuelcircuits.physics.engine.back_pressure import held_back
from fuelcircuits.physics.engine.engine import air_demand, manifold_temperature
from fuelcircuits.physics.engine.venturi import booster_gain, venturi_area
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.problem import (
    BLEED_DISCHARGE,
    MOUTH,
    PORT_DISCHARGE,
    Barrel,
    Point,
    Problem,
)
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = ["place", "pose", "turning"]

_VENTED = Vents(inside_bore=8e-3)  # the bowl of a rig whose card gives no vents
_PASCALS = 1e5  # Pa, a manifold pressure at which the engine's demand is read off


class _Itself:
    """A thing that is looked up as itself: to compare all its numbers would take longer."""

    __slots__ = ("it",)

    def __init__(self, it: Any) -> None:
        self.it = it

    def __hash__(self) -> int:
        return id(self.it)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Itself) and self.it is other.it


def pose(
    rig: Rig, weather: Weather, fuel: Fuel, settings: Settings, other: Rig | None = None
) -> Problem:
    """Return the network of a rig.

    Parameters
    ----------
    rig, weather, fuel, settings, other
        As in `fuelcircuits.physics.network.solving.solve`.

    Raises
    ------
    RangeError
        If a circuit's section is missing from the rig.
    """
    path, imposed = rig.air_path, settings.fuel_temperature
    barrels = _barrels(_Itself(rig), _Itself(other), settings.idle_enrichment)
    warm = weather.temperature if imposed is None else imposed
    density = liquid.density(fuel, warm)
    weight, canister = GRAVITY * density, settings.canister_pressure
    return Problem(
        engine=rig.engine,
        air_path=path,
        vents=_VENTED if rig.vents is None else rig.vents,
        barrels=barrels,
        alike=path.barrels / len(barrels),
        weather=weather,
        pressure=weather.pressure,
        temperature=weather.temperature,
        gas_constant=weather.gas_constant,
        gas=weather.gas_constant * weather.temperature,
        charge_temperature=manifold_temperature(rig.engine, weather.temperature),
        density=density,
        weight=weight,
        mouth=weight * MOUTH,
        viscosity=liquid.viscosity(fuel, warm),
        stoichiometric=_stoichiometric(fuel) * (1.0 + weather.water),
        head=weight * settings.bowl_level,
        bowl_pressure=settings.bowl_pressure,
        vapour=settings.vapour,
        canister=weather.pressure if canister is None else canister,
        ignition=settings.ignition,
        choke_angle=settings.choke_angle,
        cleaner=path.cleaner_area,
        choke=choke_area(path, settings.choke_angle),
        leak=path.leaks,
    )


@lru_cache(maxsize=64)
def _barrels(rig: _Itself, other: _Itself, enrichment: float) -> tuple[Barrel, ...]:
    """Return each barrel told apart; the second keeps what `other` lacks."""
    for name in ("engine", "air_path", "low_speed", "high_speed"):
        if getattr(rig.it, name) is None:
            raise RangeError(f"rig must have a section {name}, got none on {rig.it.name}")
    first, second = _sections(rig.it), other.it or rig.it.second
    if second is None:
        return (_barrel(first, enrichment),)
    own = tuple(b or a for a, b in zip(first, _sections(second), strict=True))
    return _barrel(first, enrichment), _barrel(own, enrichment)


def _sections(rig: Rig) -> tuple[Any, ...]:
    """Return what a barrel may have of its own."""
    return rig.air_path, rig.low_speed, rig.high_speed, rig.power


@lru_cache(maxsize=64)
def _stoichiometric(fuel: Fuel) -> float:
    """Return the dry air that just burns a kilogram of fuel [kg]."""
    return liquid.stoichiometric_ratio(fuel)


def _barrel(sections: tuple[Any, ...], enrichment: float) -> Barrel:
    """Return one barrel with its openings."""
    path, low, high, rod = sections
    return Barrel(
        path=path,
        choked=not path.opens_at,
        low=low,
        high=high,
        rod=rod,
        bleed=BLEED_DISCHARGE * bore_area(high.air_bleed_bore),
        bypass=BLEED_DISCHARGE * bore_area(low.bypass_bore),
        idle_air=BLEED_DISCHARGE * idle_air_area(low, low.screw_turns, enrichment),
        economizer=PORT_DISCHARGE * bore_area(low.economizer_bore),
        port=PORT_DISCHARGE * port_area(low, low.screw_turns),
        valve=PORT_DISCHARGE * bore_area(low.valve_bore),
        tube=PORT_DISCHARGE * bore_area(low.jet_bore),
        nozzle=BLEED_DISCHARGE * bore_area(high.nozzle_bore),
        idle_jet=bore_area(low.jet_bore),
        lean=jet_area(high.jet_bore, 0.0 if rod is None else rod.lean_step),
        lifting=jet_coefficients(low.jet_bore, low.jet_length),
        depths=hole_depths(high),
        lift=low.lift,
        lip=high.lip,
        foot=low.tube_depth,
        floor=high.well_depth,
        fall=GRAVITY * low.fall,
        venturi=venturi_area(path) / path.barrels,
        gain=booster_gain(path),
        lost=1.0 - path.venturi_recovery,
    )


def place(of: Problem, speed: float, angle: float) -> Point:
    """Return an operating point of a network.

    Parameters
    ----------
    of
        The network.
    speed, angle
        Speed [rad/s] and throttle angle [rad].

    Raises
    ------
    ConvergenceError
        If every vent of the bowl is shut and no bowl pressure is imposed.
    """
    vents = openings(of.vents, angle, of.ignition)
    if of.bowl_pressure is None and not sum(vents) > 0.0:
        raise ConvergenceError("bowl pressure must follow from its vents, got every vent shut")
    angles = [linked_angle(each.path, angle) for each in of.barrels]
    return Point(
        speed=speed,
        angle=angle,
        throttles=list(map(_throttle, of.barrels, angles)),
        slots=list(map(_slot, of.barrels, angles)),
        vents=Openings(*[VENT_DISCHARGE * area for area in vents]),
        **_demand(of, speed),
    )


def turning(of: Problem, at: Point, speed: float) -> Point:
    """Return an operating point of a network at another speed [rad/s]."""
    return at._replace(speed=speed, **_demand(of, speed))


def _demand(of: Problem, speed: float) -> dict[str, float]:
    """Return what the engine's air follows from, of a point at some speed."""
    none = air_demand(of.engine, speed, 0.0, of.charge_temperature, of.pressure)
    some = air_demand(of.engine, speed, _PASCALS, of.charge_temperature, of.pressure)
    return {
        "demand_rate": (some - none) / _PASCALS,
        "demand_loss": -none,
        "demand_held": held_back(of.engine, -none, of.pressure),
    }


def _throttle(barrel: Barrel, angle: float) -> float:
    """Return the effective area past a barrel's plate."""
    return throttle_area(barrel.path, angle) / barrel.path.barrels


def _slot(barrel: Barrel, angle: float) -> SlotAreas:
    """Return the effective areas of a barrel's slot."""
    path = barrel.path
    below, above = slot_areas(barrel.low, angle, path.throttle_bore, path.throttle_closed_angle)
    return SlotAreas(PORT_DISCHARGE * below, PORT_DISCHARGE * above)
