"""Where the choke plate comes to rest: coil against air, with pull-off and unloader."""

from math import cos

from fuelcircuits.physics.circuits.choke import Choke, coil_torque, link_torque, pull_off, unloader
from fuelcircuits.physics.engine.air_path import AirPath, choke_area
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.numerics.root import root
from fuelcircuits.physics.openings.plate import OPEN
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = ["plate_angle", "plate_torque"]


def plate_torque(
    choke: Choke, air_path: AirPath, weather: Weather, air_flow: float, angle: float
) -> float:
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
    Torque [N m], opening.

    Notes
    -----
    First principles: an even pressure over a plate acts at its middle. Lift and swirl on a
    plate that stands nearly open are left out, so trust it below about 60 degrees.
    """
    drop = (air_flow / choke_area(air_path, angle)) ** 2 / (2 * weather.density)
    plate = bore_area(air_path.horn_bore) / cos(air_path.choke_closed_angle)
    return drop * plate * choke.plate_offset


def plate_angle(
    choke: Choke,
    air_path: AirPath,
    weather: Weather,
    coil_temperature: float,
    air_flow: float = 0.0,
    *,
    vacuum: float = 0.0,
    throttle_angle: float = 0.2,
) -> float:
    """Return the angle at which the choke plate comes to rest.

    Coil, air and the pull-off's link balance between the stops; the unloader holds the plate
    open at least as far as it reaches.

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
    Plate angle [rad] from the plane across the horn, closed angle to pi/2.

    Notes
    -----
    First principles: sum of the torques. The torque falls as the plate opens, so there is
    one answer.
    """
    closed = air_path.choke_closed_angle
    drawn = pull_off(choke, vacuum, closed)

    def torque(angle: float) -> float:
        push = plate_torque(choke, air_path, weather, air_flow, angle)
        held = coil_torque(choke, coil_temperature, angle, closed)
        return held + push + link_torque(choke, drawn, angle)

    least = unloader(choke, throttle_angle, closed)
    if torque(least) <= 0.0:
        return least
    if torque(OPEN) >= 0.0:
        return OPEN
    return root(torque, least, OPEN, name="choke angle")
