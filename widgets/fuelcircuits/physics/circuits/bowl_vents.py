"""Bowl venting: which openings the bowl breathes through, and the pressure that follows.

Bowl pressure pushes the fuel through every jet. Raise it and the mixture is richer; lower
it and the mixture is leaner. Nothing sets it directly: it is where the gas that enters the
bowl through the inside vent, the outside vent, the canister line and a leaking gasket, with
the vapour made in the bowl, adds up to nought.
"""

from dataclasses import dataclass
from math import pi
from typing import NamedTuple

from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT
from fuelcircuits.physics.numerics.corners import rounded
from fuelcircuits.physics.numerics.root import root
from fuelcircuits.physics.openings.gas_flow import SMOOTHING, mass_flow_and_slopes
from fuelcircuits.physics.openings.series import in_series
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = [
    "Openings",
    "Surroundings",
    "Vents",
    "bowl_pressure",
    "net_flow",
    "open_area",
    "openings",
    "outside_lift",
    "vent_flows",
]

DISCHARGE = 0.65
"""Discharge coefficient of a short tube or flap [1] (sharp-edged orifice; Heywood app. C)."""
_CORNER = 0.05e-3  # m of lift


@dataclass(frozen=True)
class Vents(Section):
    """Openings of the float bowl to the gas around it (dimensions invented for each rig)."""

    inside_bore: float = entry("m", 0, 12e-3, "bore of the calibrated inside vent to the air horn")
    outside_bore: float = entry("m", 0, 12e-3, "bore under the mechanical outside vent", 0.0)
    outside_setting: float = entry(
        "m", 0, 5e-3, "lift of the outside vent with the throttle closed", 0.0
    )
    outside_idle_angle: float = entry(
        "rad", 0, 0.6, "throttle angle up to which the outside vent keeps its full setting", 0.2
    )
    outside_rate: float = entry(
        "m/rad", 1e-3, 0.1, "lift the outside vent loses as the throttle opens", 0.01
    )
    outside_hang: float = entry(
        "m", 0, 5e-3, "lift below which a hung outside vent will not close", 0.0
    )
    canister_bore: float = entry("m", 0, 12e-3, "bore of the line to the canister", 0.0)
    switched_share: float = entry(
        "1", 0, 1, "share of the inside vent that the two-way solenoid can shut", 0.0
    )
    solenoid_pull: float = entry(
        "1", 0, 1, "share of its travel the solenoid makes with the ignition on", 1.0
    )
    solenoid_stick: float = entry(
        "1", 0, 1, "share of its travel the spring fails to take back with the ignition off", 0.0
    )
    gasket_leak: float = entry("m**2", 0, 1e-4, "area of a leak past the bowl-cover gasket", 0.0)


class Surroundings(NamedTuple):
    """What the bowl breathes against."""

    horn: float  # Pa absolute, in the air horn where the inside vent opens
    ambient: float  # Pa absolute, outside; 30e3 to 110e3
    throttle_angle: float  # rad, of the plate from the plane across the bore; 0 to pi/2
    ignition: float = 1.0  # 1 on, 0 off
    vapour: float = 0.0  # kg/s of fuel vapour made in the bowl
    temperature: float = 300.0  # K, of the gas in the vents
    canister: float | None = None  # Pa absolute at the canister; None means ambient


class Openings(NamedTuple):
    """One number for each opening of the bowl: its area [m2] or its flow inward [kg/s]."""

    inside: float
    outside: float
    canister: float
    gasket: float


def outside_lift(vents: Vents, throttle_angle: float) -> float:
    r"""Return the lift of the mechanical outside vent.

    .. math:: h = \max(h_0 - r\,\max(\theta - \theta_0, 0),\; h_{hang})

    with both corners rounded to 0.05 mm either side, so that the lift has a slope everywhere.

    Parameters
    ----------
    vents
        The bowl's vents; a setting of nought means that no outside vent is fitted or that
        it is stuck shut.
    throttle_angle
        Plate angle from the plane across the bore [rad], 0 to pi/2.

    Returns
    -------
    Lift [m].

    Notes
    -----
    The linkage opens this vent at closed throttle only (common practice, no source).
    """
    drop = rounded(vents.outside_rate * (throttle_angle - vents.outside_idle_angle), _CORNER)
    lift = rounded(vents.outside_setting - drop, min(_CORNER, vents.outside_setting))
    return max(lift, vents.outside_hang)


def openings(vents: Vents, throttle_angle: float, ignition: float = 1.0) -> Openings:
    r"""Return the area of every opening of the bowl.

    The outside vent is a flap or a small valve: its curtain and its bore stand in series,

    .. math:: A^{-2} = (\pi d h)^{-2} + (\pi d^2 / 4)^{-2}

    The two-way solenoid shuts the canister line and opens the inside vent when energised;
    its spring does the reverse. A solenoid that pulls weakly or sticks leaves both in
    between.

    Parameters
    ----------
    vents
        The bowl's vents.
    throttle_angle
        Plate angle from the plane across the bore [rad], 0 to pi/2.
    ignition
        1 with the ignition on, 0 with it off [1].

    Returns
    -------
    Openings
        Areas [m2].

    Notes
    -----
    Two orifices in series without recovery between them: first principles.
    """
    pulled = ignition * vents.solenoid_pull + (1 - ignition) * vents.solenoid_stick
    curtain = pi * vents.outside_bore * outside_lift(vents, throttle_angle)
    return Openings(
        inside=bore_area(vents.inside_bore) * (1 - vents.switched_share * (1 - pulled)),
        outside=in_series(curtain, bore_area(vents.outside_bore)),
        canister=bore_area(vents.canister_bore) * (1 - pulled),
        gasket=vents.gasket_leak,
    )


def open_area(areas: Openings) -> float:
    """Return the area of all openings together [m2]; raise `ConvergenceError` if all are shut."""
    area = sum(areas)
    if not area > 0:
        raise ConvergenceError("bowl vents must leave one opening, got every vent shut")
    return area


def vent_flows(vents: Vents, pressure: float, around: Surroundings) -> tuple[Openings, Openings]:
    """Return the gas that enters the bowl by each opening, and its slope against bowl pressure.

    Parameters
    ----------
    vents
        The bowl's vents.
    pressure
        Bowl pressure [Pa], absolute.
    around
        What the bowl breathes against.

    Returns
    -------
    flows, slopes : Openings
        Flow inward [kg/s] and its derivative [kg/(s Pa)], never positive.

    Raises
    ------
    RangeError
        If a pressure or the temperature is not positive.

    Notes
    -----
    First principles: isentropic flow of `fuelcircuits.physics.openings.gas_flow`, with the gas
    taken as air. Fuel vapour is heavier; a bowl full of it vents up to 1.5 times the mass.
    """
    areas = openings(vents, around.throttle_angle, around.ignition)
    through = [
        mass_flow_and_slopes(area, outer, pressure, around.temperature, DISCHARGE)
        for area, outer in zip(areas, _far_ends(around), strict=True)
    ]
    return (
        Openings._make(each.flow for each in through),
        Openings._make(each.slope_to for each in through),
    )


def _far_ends(around: Surroundings) -> tuple[float, float, float, float]:
    """Return the pressure at the far end of each opening, in the order of `Openings`."""
    canister = around.ambient if around.canister is None else around.canister
    return around.horn, around.ambient, canister, around.ambient


def net_flow(vents: Vents, pressure: float, around: Surroundings) -> tuple[float, float]:
    r"""Return the gas gained by the bowl's vapour space and its slope against bowl pressure.

    .. math:: \dot m = \dot m_{vapour} + \sum_i \dot m_i(p_i, p)

    Parameters
    ----------
    vents, pressure, around
        As in `vent_flows`.

    Returns
    -------
    flow, slope
        Net flow into the vapour space [kg/s] and its derivative [kg/(s Pa)], never positive.

    Raises
    ------
    RangeError
        If a pressure or the temperature is not positive.

    Notes
    -----
    First principles: mass in the vapour space.
    """
    flows, slopes = vent_flows(vents, pressure, around)
    return sum(flows, around.vapour), sum(slopes)


def bowl_pressure(vents: Vents, around: Surroundings) -> float:
    """Return the bowl pressure at which gas in and gas out balance.

    The net flow falls steadily as the bowl pressure rises, so there is one answer. It lies
    among the pressures at the far ends of the vents, moved by no more than the drop that
    drives all the vapour through them.

    Parameters
    ----------
    vents, around
        As in `vent_flows`.

    Returns
    -------
    Bowl pressure [Pa], absolute.

    Raises
    ------
    ConvergenceError
        If every opening of the bowl is shut: nothing then fixes its pressure.
    RangeError
        If a pressure or the temperature is not positive.

    Notes
    -----
    First principles: mass in the vapour space.
    """
    area = open_area(openings(vents, around.throttle_angle, around.ignition))
    density = around.ambient / (AIR_CONSTANT * around.temperature)
    reach = 2 * (around.vapour / (DISCHARGE * area)) ** 2 / density + SMOOTHING
    far = _far_ends(around)
    return root(
        lambda pressure: net_flow(vents, pressure, around)[0],
        max(min(far) - reach, 1.0),
        max(far) + reach,
        name="bowl pressure",
    )
