"""Where the choke plate comes to rest: coil against air, with pull-off and unloader."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.physics.circuits.choke import Choke, coil_torque, pull_off, unloader
from fuelcircuits.physics.engine.air_path import AirPath, choke_area
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.numerics.root import root
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["plate_angle", "plate_torque"]

Floats = NDArray[np.float64]


def plate_torque(
    choke: Choke, air_path: AirPath, weather: Weather, air_flow: ArrayLike, angle: ArrayLike
) -> Floats:
    r"""Return the torque of the passing air on the unbalanced plate.

    .. math:: M = \Delta p \, \frac{\pi D^2}{4 \cos\psi_0} \, e, \qquad
              \Delta p = \frac{1}{2 \rho}\left(\frac{\dot m}{C A(\psi)}\right)^2

    Parameters
    ----------
    choke
        Offset e of the shaft [m]; the larger wing is the one the air pushes down.
    air_path
        Horn of bore D and plate of closed angle :math:`\psi_0`.
    weather
        The air outside.
    air_flow
        Air through the horn [kg/s].
    angle
        Plate angle :math:`\psi` from the plane across the horn [rad].

    Returns
    -------
    numpy.ndarray
        Torque [N m], opening.

    Notes
    -----
    First principles: an even pressure over a plate acts at its middle. Lift and swirl on a
    plate that stands nearly open are left out, so trust it below about 60 degrees.
    """
    area = np.asarray(choke_area(air_path, np.asarray(angle, dtype=float)))
    drop = (np.asarray(air_flow, dtype=float) / area) ** 2 / (2 * weather.density)
    plate = np.pi / 4 * air_path.horn_bore**2 / np.cos(air_path.choke_closed_angle)
    return np.asarray(drop * plate * choke.plate_offset)


def plate_angle(
    choke: Choke,
    air_path: AirPath,
    weather: Weather,
    coil_temperature: ArrayLike,
    air_flow: ArrayLike = 0.0,
    *,
    vacuum: ArrayLike = 0.0,
    throttle_angle: ArrayLike = 0.2,
) -> Floats:
    """Return the angle at which the choke plate comes to rest.

    Coil and air balance between the stops; pull-off and unloader hold the plate open
    at least as far as they reach.

    Parameters
    ----------
    choke, air_path, weather
        The choke, the horn it sits in, and the air outside.
    coil_temperature
        Temperature of the coil [K].
    air_flow
        Air through the horn [kg/s].
    vacuum
        Manifold vacuum [Pa].
    throttle_angle
        Throttle angle from the plane across the bore [rad].

    Returns
    -------
    numpy.ndarray
        Plate angle [rad] from the plane across the horn, closed angle to pi/2.

    Notes
    -----
    First principles: sum of the torques. The torque falls as the plate opens, so there is
    one answer.
    """
    closed = air_path.choke_closed_angle

    def torque(angle: Floats) -> Floats:
        total = coil_torque(choke, coil_temperature, angle, closed) + plate_torque(
            choke, air_path, weather, air_flow, angle
        )
        total = np.where(angle <= closed, np.maximum(total, 0.0), total)
        return np.where(angle >= OPEN, np.minimum(total, 0.0), total)

    shape = np.broadcast_shapes(
        np.shape(coil_temperature), np.shape(air_flow), np.shape(weather.density)
    )
    free = root(torque, np.full(shape, closed), np.full(shape, OPEN), name="choke angle")
    held = np.maximum(pull_off(choke, vacuum, closed), unloader(choke, throttle_angle, closed))
    return np.maximum(free, held)
