"""Bowl venting: which openings the bowl breathes through, and the pressure that follows.

Bowl pressure pushes the fuel through every jet. Raise it and the mixture is richer; lower
it and the mixture is leaner. Nothing sets it directly: it is where the gas that enters the
bowl through the inside vent, the outside vent, the canister line and a leaking gasket, with
the vapour made in the bowl, adds up to nought.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.entry import Section, entry
from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.root import root

__all__ = ["Openings", "Vents", "bowl_pressure", "net_flow", "openings", "outside_lift"]

Floats = NDArray[np.float64]

DISCHARGE = 0.65
"""Discharge coefficient of a short tube or flap [1] (sharp-edged orifice; Heywood app. C)."""
LAMINAR_DROP = 0.05
"""Pressure drop at which a vent turns from laminar to turbulent, about Re 100 in 6 mm [Pa]."""
GAS_CONSTANT = 287.05
"""Specific gas constant of dry air [J/(kg K)] (US Standard Atmosphere 1976)."""


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


class Openings(NamedTuple):
    """Geometric area of each opening of the bowl [m**2]."""

    inside: Floats
    outside: Floats
    canister: Floats
    gasket: Floats


def outside_lift(vents: Vents, throttle_angle: ArrayLike) -> Floats:
    r"""Return the lift of the mechanical outside vent.

    .. math:: h = \max(h_0 - r\,\max(\theta - \theta_0, 0),\; h_{hang})

    with both corners rounded over 0.1 mm, so that the lift has a slope everywhere.

    Parameters
    ----------
    vents
        The bowl's vents; a setting of nought means that no outside vent is fitted or that
        it is stuck shut.
    throttle_angle
        Plate angle from the plane across the bore [rad], 0 to pi/2.

    Returns
    -------
    numpy.ndarray
        Lift [m].

    Notes
    -----
    The linkage opens this vent at closed throttle only (common practice, no source).
    """
    angle = np.asarray(throttle_angle, dtype=float)
    drop = _rounded(vents.outside_rate * (angle - vents.outside_idle_angle), 0.05e-3)
    lift = _rounded(vents.outside_setting - drop, min(0.05e-3, vents.outside_setting))
    return np.maximum(lift, vents.outside_hang)


def _rounded(value: Floats, width: float) -> Floats:
    """Return max(value, 0) with its corner rounded to a parabola within `width` of it."""
    if width == 0:
        return np.maximum(value, 0.0)
    inside = (np.clip(value, -width, width) + width) ** 2 / (4 * width)
    return np.where(value > width, value, inside)


def openings(vents: Vents, throttle_angle: ArrayLike, ignition: ArrayLike = 1.0) -> Openings:
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
        Areas [m**2], each broadcast from the inputs.

    Notes
    -----
    Two orifices in series without recovery between them: first principles.
    """
    on, angle = np.broadcast_arrays(
        np.asarray(ignition, dtype=float), np.asarray(throttle_angle, dtype=float)
    )
    pulled = on * vents.solenoid_pull + (1 - on) * vents.solenoid_stick
    bore = _disc(vents.outside_bore)
    curtain = np.pi * vents.outside_bore * outside_lift(vents, angle)
    outside = curtain * bore / np.sqrt(curtain**2 + bore**2 + 1e-30)
    return Openings(
        inside=_disc(vents.inside_bore) * (1 - vents.switched_share * (1 - pulled)),
        outside=outside,
        canister=_disc(vents.canister_bore) * (1 - pulled),
        gasket=np.full(angle.shape, vents.gasket_leak),
    )


def _disc(bore: float) -> float:
    return np.pi / 4 * bore**2


def net_flow(
    vents: Vents,
    pressure: ArrayLike,
    horn_pressure: ArrayLike,
    ambient_pressure: ArrayLike,
    throttle_angle: ArrayLike,
    *,
    ignition: ArrayLike = 1.0,
    vapour: ArrayLike = 0.0,
    temperature: ArrayLike = 300.0,
    canister_pressure: ArrayLike | None = None,
) -> tuple[Floats, Floats]:
    r"""Return the gas gained by the bowl's vapour space and its slope against bowl pressure.

    .. math::
        \dot m = \dot m_{vapour} + \sum_i C A_i \sqrt{2 \rho}\,
        \frac{p_i - p}{\left[(p_i - p)^2 + p_l^2\right]^{1/4}}

    Each term is Bernoulli's orifice when the drop is large against `p_l` and proportional
    to the drop when it is small, as a laminar leak is. The flow therefore has a finite
    slope where it turns round, and the slope is never positive.

    Parameters
    ----------
    vents
        The bowl's vents.
    pressure
        Bowl pressure tried [Pa], absolute.
    horn_pressure
        Pressure in the air horn, where the inside vent opens [Pa], absolute.
    ambient_pressure
        Pressure outside [Pa], absolute, 30e3 to 110e3.
    throttle_angle
        Plate angle from the plane across the bore [rad], 0 to pi/2.
    ignition
        1 with the ignition on, 0 with it off [1].
    vapour
        Fuel vapour made in the bowl [kg/s].
    temperature
        Temperature of the gas in the vents [K].
    canister_pressure
        Pressure at the far end of the canister line [Pa]; ambient if not given.

    Returns
    -------
    flow, slope : numpy.ndarray
        Net flow into the vapour space [kg/s] and its derivative [kg/(s Pa)].

    Notes
    -----
    First principles. The gas is taken at the density of air outside: at the drops that a
    bowl sees (below 3 kPa) compressibility changes a flow by less than 2 %.
    """
    outer = _outer(horn_pressure, ambient_pressure, canister_pressure)
    conductance = _conductances(vents, ambient_pressure, throttle_angle, ignition, temperature)
    flow = np.asarray(vapour, dtype=float)
    slope = np.zeros(())
    for size, far in zip(conductance, outer, strict=True):
        drop = far - np.asarray(pressure, dtype=float)
        square = drop**2 + LAMINAR_DROP**2
        flow = flow + size * drop / square**0.25
        slope = slope - size * (0.5 * drop**2 + LAMINAR_DROP**2) / square**1.25
    return flow, slope


def _outer(horn: ArrayLike, ambient: ArrayLike, canister: ArrayLike | None) -> list[Floats]:
    """Return the pressure at the far end of each opening, in the order of `Openings`."""
    far = (horn, ambient, ambient if canister is None else canister, ambient)
    return [np.asarray(each, dtype=float) for each in far]


def _conductances(
    vents: Vents,
    ambient: ArrayLike,
    throttle_angle: ArrayLike,
    ignition: ArrayLike,
    temperature: ArrayLike,
) -> list[Floats]:
    """Return flow over the root of the drop, for each opening [kg/(s Pa**0.5)]."""
    density = np.asarray(ambient, dtype=float) / (GAS_CONSTANT * np.asarray(temperature))
    factor = DISCHARGE * np.sqrt(2 * density)
    return [area * factor for area in openings(vents, throttle_angle, ignition)]


def bowl_pressure(
    vents: Vents,
    horn_pressure: ArrayLike,
    ambient_pressure: ArrayLike,
    throttle_angle: ArrayLike,
    *,
    ignition: ArrayLike = 1.0,
    vapour: ArrayLike = 0.0,
    temperature: ArrayLike = 300.0,
    canister_pressure: ArrayLike | None = None,
) -> Floats:
    """Return the bowl pressure at which gas in and gas out balance.

    The flow falls steadily as the bowl pressure rises, so there is one answer. It lies
    among the pressures of the open vents, moved by no more than the drop that drives all
    the vapour through them.

    Parameters
    ----------
    vents, horn_pressure, ambient_pressure, throttle_angle, ignition, vapour, temperature,
    canister_pressure
        As in `net_flow`.

    Returns
    -------
    numpy.ndarray
        Bowl pressure [Pa], absolute.

    Raises
    ------
    ConvergenceError
        If every opening of the bowl is shut: nothing then fixes its pressure.
    """
    sizes = _conductances(vents, ambient_pressure, throttle_angle, ignition, temperature)
    total = sum(sizes, np.zeros(()))
    if not np.all(total > 0):
        raise ConvergenceError("bowl vents must leave one opening, got every vent shut")
    outer = _outer(horn_pressure, ambient_pressure, canister_pressure)
    reach = 1.5 * (np.asarray(vapour, dtype=float) / total) ** 2 + LAMINAR_DROP
    lowest, highest = np.minimum.reduce(outer[:3]), np.maximum.reduce(outer[:3])

    def gained(pressure: Floats) -> Floats:
        return net_flow(
            vents,
            pressure,
            horn_pressure,
            ambient_pressure,
            throttle_angle,
            ignition=ignition,
            vapour=vapour,
            temperature=temperature,
            canister_pressure=canister_pressure,
        )[0]

    return root(gained, lowest - reach, highest + reach, name="bowl pressure")
