"""The float on its lever: the dimensions of the float circuit, and the moments about the fulcrum.

The lever lies level when the needle is shut and swings down about the fulcrum as the fuel
falls; the float hangs on one side of the fulcrum, and the needle rests on the same side, close
to it, under a seat that the pump pushes fuel through. Heights are measured up from the bowl's
floor; moments are positive where they shut the needle.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import between
from fuelcircuits.physics.circuits import needle_valve
from fuelcircuits.physics.circuits.float_shape import profile_area, submerged
from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.matter.fuel import Fuel, density
from fuelcircuits.physics.openings.orifice import ideal_flux

__all__ = [
    "FLOATS",
    "GRAVITY",
    "FloatBowl",
    "FloatState",
    "Supply",
    "closing_moment",
    "float_volume",
    "flow_per_area",
    "open_area_at",
    "state_at",
    "stop_angle",
    "supply_to",
]

Floats = NDArray[np.float64]

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]; ISO 80000-3."""
FLOATS = 2
"""Floats on one lever [1]: one each side of the bowl."""


@dataclass(frozen=True)
class FloatBowl(Section):
    """The bowl, its twin float and its inlet needle."""

    depth: float = entry("m", 20e-3, 90e-3, "bowl floor to gasket face")
    bowl_area: float = entry("m^2", 5e-4, 80e-4, "free surface of the fuel round the float")
    float_setting: float = entry(
        "m", 1e-3, 40e-3, "gasket face down to the float's top, needle shut"
    )
    specified_level: float = entry("m", 2e-3, 60e-3, "gasket face down to the fuel, on the card")
    float_length: float = entry("m", 10e-3, 60e-3, "length of each float over its round ends")
    float_height: float = entry("m", 6e-3, 40e-3, "height of each float")
    float_width: float = entry("m", 5e-3, 50e-3, "width of each float, along the fulcrum")
    float_mass: float = entry("kg", 1e-3, 60e-3, "mass of both floats with their lever, dry")
    float_arm: float = entry("m", 15e-3, 90e-3, "fulcrum to the floats' centre")
    needle_arm: float = entry("m", 3e-3, 40e-3, "fulcrum to the needle")
    drop_stop: float = entry("m", 0.5e-3, 30e-3, "how far the float can drop from shut")
    seat_bore: float = entry("m", 0.5e-3, 6e-3, "bore of the needle seat")
    needle_taper: float = entry("rad", 0.1, 1.3, "half angle of the needle's cone")
    needle_mass: float = entry("kg", 0.0, 10e-3, "mass of the needle")
    fuel_pressure: float = entry("Pa", 0.0, 150e3, "pump pressure at the inlet, gauge")
    inlet_discharge: float = entry("1", 0.3, 1.0, "discharge coefficient of seat and needle", 0.7)
    seat_leak: float = entry("m^2", 0.0, 5e-6, "area a worn seat leaves open when shut", 0.0)
    soaked: float = entry("1", 0.0, 0.9, "share of the floats' volume soaked with fuel", 0.0)

    def __post_init__(self) -> None:
        """Check every entry, that the float is long enough, and that it clears the floor."""
        super().__post_init__()
        round_ends = np.asarray(self.float_length) - self.float_height
        between("float length less height", round_ends, 0, np.inf, "m")
        between("drop stop", self.drop_stop, 0, 0.9 * np.min(self.float_arm), "m")
        clear = np.asarray(self.shut_height) - np.asarray(self.float_height) / 2
        between("shut float above floor", clear, 1e-3, np.inf, "m")

    @property
    def shut_height(self) -> float:
        """Height of the fulcrum, and of the float's centre with the needle shut [m]."""
        return self.depth - self.float_setting - self.float_height / 2


class FloatState(NamedTuple):
    """Where the float rides, and what that does to the fuel."""

    level: Floats  # m, fuel surface above the bowl's floor
    immersion: Floats  # 1, share of the floats' volume under the surface
    drop: Floats  # m, float's centre below its shut position
    lever_angle: Floats  # rad, lever below its shut position
    needle_lift: Floats  # m
    inlet_area: Floats  # m2, between needle and seat, with the seat's leak
    inlet_flow: Floats  # kg/s, signed, positive into the bowl
    needle_force: Floats  # N, of the fuel on the needle, positive opening
    buoyancy: Floats  # N, both floats
    weight_moment: Floats  # N m, of float, lever, soaked fuel and needle, opening
    residual: Floats  # N m, closing moment left over: taken by seat or drop stop
    starved: NDArray[np.bool_]  # the bowl runs empty: the demand exceeds the inlet's capacity
    flooded: NDArray[np.bool_]  # the bowl overflows: the float cannot hold the needle


class Supply(NamedTuple):
    """What the fuel brings to the inlet."""

    density: Floats  # kg/m3
    pressure_drop: Floats  # Pa, from the pump's line into the bowl, either sign


def supply_to(
    bowl: FloatBowl,
    fuel: Fuel,
    supply_gauge: ArrayLike | None,
    temperature: ArrayLike,
    bowl_gauge: ArrayLike,
) -> Supply:
    """Return density and inlet drop; the card's pump pressure stands in for one not given."""
    gauge = bowl.fuel_pressure if supply_gauge is None else supply_gauge
    drop = np.asarray(between("supply pressure", gauge, 0, 500e3, "Pa"), dtype=float)
    return Supply(density(fuel, temperature), np.asarray(drop - np.asarray(bowl_gauge)))


def flow_per_area(bowl: FloatBowl, supply: Supply) -> Floats:
    r"""Return the signed inlet flow for each unit of open area [kg/(s m2)].

    .. math:: \dot m / A = \pm C \sqrt{2 \rho \, |\Delta p|}

    First principles (Bernoulli), with the card's discharge coefficient C: common practice for
    a needle seat, no source.
    """
    return np.asarray(bowl.inlet_discharge * ideal_flux(supply.pressure_drop, supply.density))


def float_volume(bowl: FloatBowl) -> Floats:
    """Return the volume of both floats [m3]; first principles."""
    return np.asarray(
        FLOATS * bowl.float_width * profile_area(bowl.float_length, bowl.float_height)
    )


def stop_angle(bowl: FloatBowl) -> Floats:
    """Return how far the lever can swing down from shut [rad]; first principles.

    The drop stop ends it, or the bowl's floor under the float's far end if that comes first.
    """
    clear = np.asarray(bowl.shut_height) - np.asarray(bowl.float_height) / 2
    reach = bowl.float_arm + (np.asarray(bowl.float_length) - bowl.float_height) / 2
    return np.arcsin(np.minimum(np.asarray(bowl.drop_stop) / bowl.float_arm, clear / reach))


def open_area_at(bowl: FloatBowl, angle: ArrayLike) -> Floats:
    """Return the area between needle and seat at a lever angle [m2], the seat's leak added."""
    lift = bowl.needle_arm * np.sin(angle)
    gap = needle_valve.open_area(lift, bowl.seat_bore, bowl.needle_taper)
    return np.asarray(gap + bowl.seat_leak)


def _displaced(bowl: FloatBowl, level: ArrayLike, angle: ArrayLike) -> tuple[Floats, Floats]:
    """Return the volume of fuel displaced [m3] and its moment about the fulcrum [m4]."""
    above = np.asarray(level) - bowl.shut_height + bowl.float_arm * np.sin(angle)
    area, moment = submerged(bowl.float_length, bowl.float_height, np.negative(angle), above)
    width = FLOATS * np.asarray(bowl.float_width)
    return width * area, width * (area * bowl.float_arm * np.cos(angle) + moment)


def _weight_moment(bowl: FloatBowl, supply: Supply, angle: ArrayLike) -> Floats:
    """Return the opening moment of float, lever, soaked fuel and needle [N m]."""
    soaked = bowl.soaked * supply.density * float_volume(bowl)
    arms = (bowl.float_mass + soaked) * bowl.float_arm + bowl.needle_mass * bowl.needle_arm
    return np.asarray(GRAVITY * arms * np.cos(angle))


def _needle_force(bowl: FloatBowl, supply: Supply, angle: ArrayLike) -> Floats:
    """Return the opening force of the fuel on the needle [N]."""
    used = bowl.inlet_discharge * open_area_at(bowl, angle)
    share = np.minimum(used / needle_valve.seat_area(bowl.seat_bore), 1)
    return needle_valve.seat_force(supply.pressure_drop, bowl.seat_bore, share, bowl.needle_taper)


def closing_moment(bowl: FloatBowl, supply: Supply, level: ArrayLike, angle: ArrayLike) -> Floats:
    r"""Return the moment about the fulcrum that is left to shut the needle.

    .. math::
        M = \rho g \int x \, dV - (m + s \rho V) \, g \, l \cos\phi
        - (F + m_n g) \, a \cos\phi

    the displaced volume V' being integrated over the float's true shape at its true tilt.

    Parameters
    ----------
    bowl
        The rig's section: float mass m, soaked share s of the volume V, arms l and a of
        float and needle.
    supply
        Density of the fuel and pressure drop across the inlet.
    level
        Fuel surface above the bowl's floor [m].
    angle
        Lever below its shut position, phi [rad].

    Returns
    -------
    numpy.ndarray
        Moment [N m]; nought where the lever floats free, positive where the seat holds it,
        negative where the drop stop does.

    Notes
    -----
    First principles. The lever's own mass is taken to lie at the floats' centre.
    """
    lifting = supply.density * GRAVITY * _displaced(bowl, level, angle)[1]
    pushing = _needle_force(bowl, supply, angle) * bowl.needle_arm * np.cos(angle)
    return np.asarray(lifting - _weight_moment(bowl, supply, angle) - pushing)


def state_at(bowl: FloatBowl, supply: Supply, level: ArrayLike, angle: ArrayLike) -> FloatState:
    """Return everything that follows from level and lever angle, in balance or not."""
    volume, inlet = _displaced(bowl, level, angle)[0], open_area_at(bowl, angle)
    values = (
        level,
        volume / float_volume(bowl),
        bowl.float_arm * np.sin(angle),
        angle,
        bowl.needle_arm * np.sin(angle),
        inlet,
        inlet * flow_per_area(bowl, supply),
        _needle_force(bowl, supply, angle),
        supply.density * GRAVITY * volume,
        _weight_moment(bowl, supply, angle),
        closing_moment(bowl, supply, level, angle),
    )
    arrays = [np.array(each, dtype=float) for each in np.broadcast_arrays(*values)]
    never = np.zeros(arrays[0].shape, dtype=bool)
    return FloatState(*(*arrays, never, never))
