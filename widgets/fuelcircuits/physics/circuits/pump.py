"""The accelerator pump: a shot of fuel when the throttle opens, and how long it lasts.

The throttle moves a rod; the rod squeezes a spring; the spring pushes a plunger or a
diaphragm; the fuel leaves through a small jet. Because the spring stands between, a foot
that opens the throttle at once still gives a shot of a second or so.
"""

from dataclasses import dataclass
from math import hypot, pi, sqrt
from typing import NamedTuple

from fuelcircuits.physics.circuits.high_speed import jet_coefficients, jet_flow
from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.openings.series import in_series
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = [
    "Pump",
    "PumpFlows",
    "effective_area",
    "pump_flows",
    "rod_position",
    "shot_volume",
    "spring_force",
]

DISCHARGE = 0.65
"""Discharge coefficient of a check's seat or of a leak [1] (sharp-edged orifice)."""
SOFT_DROP = 100.0
"""Pressure drop below which flow past a seat is proportional to the drop [Pa]."""
SOFT_TRAVEL = 0.2e-3
"""Travel over which the spring's preload is taken up and the end stop is met [m]."""
COLLAR, SOLID = 4.0, 40.0
"""Stiffness of the rod's pull, and of a spring pressed solid, over the spring's own [1]."""
AIR_DENSITY = 1.2
"""Density of the air that a leaking discharge check lets in [kg/m3]."""


@dataclass(frozen=True)
class Pump(Section):
    """Pump well, spring, checks, jet and linkage (dimensions invented for each rig)."""

    bore: float = entry("m", 5e-3, 50e-3, "bore of the pump well, or of the diaphragm where held")
    plate_bore: float = entry(
        "m", 2e-3, 50e-3, "diameter of the plunger, or of the plate on the diaphragm"
    )
    stroke: float = entry("m", 1e-3, 25e-3, "longest stroke")
    linkage_start: float = entry("rad", 0, 1.2, "throttle angle at which the rod starts to move")
    linkage_rate: float = entry("m/rad", 0, 0.05, "travel of the rod for throttle travel; 0: off")
    spring_rate: float = entry("N/m", 10, 5000, "rate of the duration spring")
    spring_preload: float = entry("N", 0.1, 50, "force of the duration spring when longest")
    lost_motion: float = entry("m", 1e-3, 25e-3, "travel at which the duration spring is solid")
    jet_bore: float = entry("m", 0.2e-3, 2e-3, "bore of each pump jet")
    jet_length: float = entry("m", 0.2e-3, 10e-3, "length of each pump jet")
    jet_count: float = entry("1", 1, 4, "number of pump jets", 2.0)
    check_pressure: float = entry("Pa", 0, 5e3, "pressure that lifts the discharge check", 300.0)
    inlet_bore: float = entry("m", 1e-3, 8e-3, "seat bore of the inlet check", 3e-3)
    inlet_leak: float = entry("m**2", 0, 5e-6, "area past the inlet check when shut", 0.0)
    discharge_leak: float = entry("m**2", 0, 5e-6, "area past the discharge check when shut", 0.0)
    cup_leak: float = entry("m**2", 0, 5e-5, "area past a worn or torn cup or diaphragm", 0.0)


class PumpFlows(NamedTuple):
    """Volume flows out of the pump chamber [m3/s]; a minus sign means inward."""

    jet: float  # to the nozzles, never inward
    back: float  # air drawn past a leaking discharge check, never outward
    inlet: float  # to the bowl past the inlet check
    cup: float  # to the bowl past the cup


def effective_area(pump: Pump) -> float:
    r"""Return the area on which the pump's pressure acts.

    .. math:: A = \frac{\pi}{12} (D^2 + D d + d^2)

    Parameters
    ----------
    pump
        The pump; bore D, plate d [m]. For a plunger both are the same.

    Returns
    -------
    float
        Area [m2]: the volume displaced over the travel.

    Notes
    -----
    First principles: a slack diaphragm between clamp and plate sweeps a truncated cone.
    """
    return pi / 12 * (pump.bore**2 + pump.bore * pump.plate_bore + pump.plate_bore**2)


def rod_position(pump: Pump, throttle_angle: float) -> float:
    """Return how far down the rod is, between nought and the stroke.

    Parameters
    ----------
    pump
        The pump's linkage.
    throttle_angle
        Plate angle from the plane across the bore [rad].

    Returns
    -------
    Travel of the rod [m].

    Notes
    -----
    A linkage in proportion to the angle: common practice, no source.
    """
    past = throttle_angle - pump.linkage_start
    return min(max(pump.linkage_rate * past, 0.0), pump.stroke)


def shot_volume(pump: Pump, angle_from: float, angle_to: float) -> float:
    r"""Return the fuel that a full, tight pump gives when the throttle opens.

    .. math:: V = A \, (y_2 - y_1)

    Parameters
    ----------
    pump
        The pump.
    angle_from, angle_to
        Throttle angles before and after [rad].

    Returns
    -------
    Volume [m3]; nought if the throttle closes.

    Notes
    -----
    First principles.
    """
    travel = rod_position(pump, angle_to) - rod_position(pump, angle_from)
    return effective_area(pump) * max(travel, 0.0)


def spring_force(pump: Pump, rod: float, plunger: float) -> float:
    r"""Return the force with which the rod pushes the plunger down.

    .. math:: F = F_0 + k (y - x) \qquad (0 < y - x < \ell)

    With the rod above the plunger its collar pulls the plunger up, as a spring of four times
    the rate; with the spring solid the rod pushes it directly, at forty times. The preload
    is taken up over 0.2 mm, and the bottom of the well bears the force over the last 0.2 mm.

    Parameters
    ----------
    pump
        Preload F\ :sub:`0` [N], rate k [N/m], lost motion l [m].
    rod, plunger
        Travel of the rod y and of the plunger x, down from the top [m].

    Returns
    -------
    Force on the fuel [N], down positive.

    Notes
    -----
    First principles.
    """
    gap, left = rod - plunger, (pump.stroke - plunger) / SOFT_TRAVEL
    stiffness = COLLAR * pump.spring_rate if gap < 0.0 else pump.spring_rate
    push = pump.spring_preload * min(max(gap / SOFT_TRAVEL, 0.0), 1.0)
    solid = SOLID * pump.spring_rate * max(gap - pump.lost_motion, 0.0)
    force = push + stiffness * gap + solid
    return force * min(max(left, 0.0), 1.0) if force > 0.0 else force


def pump_flows(
    pump: Pump,
    overpressure: float,
    *,
    depression: float = 0.0,
    density: float = 745.0,
    viscosity: float = 0.5e-3,
) -> PumpFlows:
    r"""Return the volume flows out of the chamber at a given chamber pressure.

    The jet follows `fuelcircuits.physics.openings.orifice`; a seat or a leak of area A passes

    .. math:: Q = C A \sqrt{2 / \rho}\, \frac{\Delta p}{(\Delta p^2 + \delta^2)^{1/4}}

    Parameters
    ----------
    pump
        Jet, checks and leaks.
    overpressure
        Pressure in the chamber above that in the bowl [Pa], either sign.
    depression
        Bowl pressure above that at the pump nozzle [Pa].
    density
        Density of the fuel [kg/m3].
    viscosity
        Dynamic viscosity of the fuel [Pa s].

    Returns
    -------
    PumpFlows
        Volume flows [m3/s].

    Notes
    -----
    First principles. The discharge check carries its load as long as it is off its seat. A
    leak past it stands in series with the jets, and counts once it passes more than the check.
    """
    drop, scale = overpressure + depression, DISCHARGE * sqrt(2 / density)
    hole, lifting = bore_area(pump.jet_bore), max(drop - pump.check_pressure, 0.0)
    coefficients = jet_coefficients(pump.jet_bore, pump.jet_length)
    jet = jet_flow(hole, pump.jet_bore, coefficients, lifting, density, viscosity=viscosity)
    leak = scale * in_series(pump.jet_count * hole, pump.discharge_leak)
    seat = bore_area(pump.inlet_bore) if overpressure < 0.0 else pump.inlet_leak
    return PumpFlows(
        jet=max(pump.jet_count * jet / density, leak * _root(max(drop, 0.0))),
        back=leak * sqrt(density / AIR_DENSITY) * _root(min(drop, 0.0)),
        inlet=scale * seat * _root(overpressure),
        cup=scale * pump.cup_leak * _root(overpressure),
    )


def _root(drop: float) -> float:
    """Return the signed root of a pressure drop, straight near nought [Pa**0.5]."""
    return drop / sqrt(hypot(drop, SOFT_DROP))
