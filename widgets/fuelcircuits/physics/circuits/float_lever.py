"""The float on its lever: the dimensions of the float circuit, and the moments about the fulcrum.

The lever lies level when the needle is shut and swings down about the fulcrum as the fuel
falls; the float hangs on one side of the fulcrum, and the needle rests on the same side, close
to it, under a seat that the pump pushes fuel through. Heights are measured up from the bowl's
floor; moments are positive where they shut the needle.
"""

from dataclasses import dataclass
from math import asin, cos, inf, sin
from typing import NamedTuple

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
    "lifting_moment",
    "open_area_at",
    "opening_moment",
    "state_at",
    "stop_angle",
    "supply_to",
]

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]; ISO 80000-3."""
FLOATS = 2
"""float on one lever [1]: one each side of the bowl."""


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
    inlet_discharge: float = entry(
        "1", 0.1, 1.0, "discharge coefficient of strainer, seat and needle", 0.7
    )
    seat_leak: float = entry("m^2", 0.0, 5e-6, "area a worn seat leaves open when shut", 0.0)
    soaked: float = entry("1", 0.0, 0.9, "share of the floats' volume soaked with fuel", 0.0)

    def __post_init__(self) -> None:
        """Check every entry, that the float is long enough, and that it clears the floor."""
        super().__post_init__()
        between("float length less height", self.float_length - self.float_height, 0, inf, "m")
        between("drop stop", self.drop_stop, 0, 0.9 * self.float_arm, "m")
        between("shut float above floor", self.shut_height - self.float_height / 2, 1e-3, inf, "m")

    @property
    def shut_height(self) -> float:
        """Height of the fulcrum, and of the float's centre with the needle shut [m]."""
        return self.depth - self.float_setting - self.float_height / 2


class FloatState(NamedTuple):
    """Where the float rides, and what that does to the fuel."""

    level: float  # m, fuel surface above the bowl's floor
    immersion: float  # 1, share of the floats' volume under the surface
    drop: float  # m, float's centre below its shut position
    lever_angle: float  # rad, lever below its shut position
    needle_lift: float  # m
    inlet_area: float  # m2, between needle and seat, with the seat's leak
    inlet_flow: float  # kg/s, signed, positive into the bowl
    needle_force: float  # N, of the fuel on the needle, positive opening
    buoyancy: float  # N, both floats
    weight_moment: float  # N m, of float, lever, soaked fuel and needle, opening
    residual: float  # N m, closing moment left over: taken by seat or drop stop
    starved: bool = False  # the bowl runs empty: the demand exceeds the inlet's capacity
    flooded: bool = False  # the bowl overflows: the float cannot hold the needle


class Supply(NamedTuple):
    """What the fuel brings to the inlet."""

    density: float  # kg/m3
    pressure_drop: float  # Pa, from the pump's line into the bowl, either sign


def supply_to(
    bowl: FloatBowl,
    fuel: Fuel,
    supply_gauge: float | None,
    temperature: float,
    bowl_gauge: float,
) -> Supply:
    """Return density and inlet drop; the card's pump pressure stands in for one not given."""
    gauge = bowl.fuel_pressure if supply_gauge is None else supply_gauge
    between("supply pressure", gauge, 0, 500e3, "Pa")
    return Supply(density(fuel, temperature), gauge - bowl_gauge)


def flow_per_area(bowl: FloatBowl, supply: Supply) -> float:
    r"""Return the signed inlet flow for each unit of open area [kg/(s m2)].

    .. math:: \dot m / A = \pm C \sqrt{2 \rho \, |\Delta p|}

    First principles (Bernoulli), with the card's discharge coefficient C: common practice for
    a needle seat, no source.
    """
    return bowl.inlet_discharge * ideal_flux(supply.pressure_drop, supply.density)


def float_volume(bowl: FloatBowl) -> float:
    """Return the volume of both floats [m3]; first principles."""
    return FLOATS * bowl.float_width * profile_area(bowl.float_length, bowl.float_height)


def stop_angle(bowl: FloatBowl) -> float:
    """Return how far the lever can swing down from shut [rad]; first principles.

    The drop stop ends it, or the bowl's floor under the float's far end if that comes first.
    """
    clear = bowl.shut_height - bowl.float_height / 2
    reach = bowl.float_arm + (bowl.float_length - bowl.float_height) / 2
    return asin(min(bowl.drop_stop / bowl.float_arm, clear / reach))


def open_area_at(bowl: FloatBowl, angle: float) -> float:
    """Return the area between needle and seat at a lever angle [m2], the seat's leak added."""
    lift = bowl.needle_arm * sin(angle)
    return needle_valve.open_area(lift, bowl.seat_bore, bowl.needle_taper) + bowl.seat_leak


def _displaced(bowl: FloatBowl, level: float, angle: float) -> tuple[float, float]:
    """Return the volume of fuel displaced [m3] and its moment about the fulcrum [m4]."""
    above = level - bowl.shut_height + bowl.float_arm * sin(angle)
    area, moment = submerged(bowl.float_length, bowl.float_height, -angle, above)
    width = FLOATS * bowl.float_width
    return width * area, width * (area * bowl.float_arm * cos(angle) + moment)


def _weight_moment(bowl: FloatBowl, supply: Supply, angle: float) -> float:
    """Return the opening moment of float, lever, soaked fuel and needle [N m]."""
    soaked = bowl.soaked * supply.density * float_volume(bowl)
    arms = (bowl.float_mass + soaked) * bowl.float_arm + bowl.needle_mass * bowl.needle_arm
    return GRAVITY * arms * cos(angle)


def _needle_force(bowl: FloatBowl, supply: Supply, angle: float) -> float:
    """Return the opening force of the fuel on the needle [N]."""
    used = bowl.inlet_discharge * open_area_at(bowl, angle)
    share = min(used / needle_valve.seat_area(bowl.seat_bore), 1.0)
    return needle_valve.seat_force(supply.pressure_drop, bowl.seat_bore, share, bowl.needle_taper)


def closing_moment(bowl: FloatBowl, supply: Supply, level: float, angle: float) -> float:
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
    Moment [N m]; nought where the lever floats free, positive where the seat holds it,
    negative where the drop stop does.

    Notes
    -----
    First principles. The lever's own mass is taken to lie at the floats' centre.
    """
    return lifting_moment(bowl, supply, level, angle) - opening_moment(bowl, supply, angle)


def lifting_moment(bowl: FloatBowl, supply: Supply, level: float, angle: float) -> float:
    """Return the moment with which the fuel lifts the floats [N m]; see `closing_moment`."""
    return supply.density * GRAVITY * _displaced(bowl, level, angle)[1]


def opening_moment(bowl: FloatBowl, supply: Supply, angle: float) -> float:
    """Return what weighs and pushes against that, whatever the level [N m]."""
    pushing = _needle_force(bowl, supply, angle) * bowl.needle_arm * cos(angle)
    return _weight_moment(bowl, supply, angle) + pushing


def state_at(bowl: FloatBowl, supply: Supply, level: float, angle: float) -> FloatState:
    """Return everything that follows from level and lever angle, in balance or not."""
    volume, inlet = _displaced(bowl, level, angle)[0], open_area_at(bowl, angle)
    return FloatState(
        level=level,
        immersion=volume / float_volume(bowl),
        drop=bowl.float_arm * sin(angle),
        lever_angle=angle,
        needle_lift=bowl.needle_arm * sin(angle),
        inlet_area=inlet,
        inlet_flow=inlet * flow_per_area(bowl, supply),
        needle_force=_needle_force(bowl, supply, angle),
        buoyancy=supply.density * GRAVITY * volume,
        weight_moment=_weight_moment(bowl, supply, angle),
        residual=closing_moment(bowl, supply, level, angle),
    )
