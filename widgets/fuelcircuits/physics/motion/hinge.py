"""What moves with the choke: its plate, the fast-idle cam under the throttle, the start timer."""

from fuelcircuits.physics.circuits.choke import (
    Choke,
    coil_torque,
    fast_idle,
    link_torque,
    pull_off,
    unloader,
)
from fuelcircuits.physics.circuits.choke_plate import plate_torque
from fuelcircuits.physics.circuits.cold_start import ColdStart, idle_air_open
from fuelcircuits.physics.engine.air_path import AirPath
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["LIFTED", "cam_step", "enriched", "plate_step"]

DAMPING = 0.02
"""Torque that holds the plate back for each rad/s: a tenth of a second to come to rest [N m s]
(judged: a plate does not flutter, and the pull-off breathes through a small hole)."""
SHIFT = 1e-4
"""Change of angle over which the plate's torque is told apart [rad]."""
LIFTED = 0.02
"""Pedal travel past the cam that lets it fall to the next step [rad]."""


def plate_step(
    choke: Choke,
    air_path: AirPath,
    weather: Weather,
    angle: float,
    *,
    coil: float,
    air_flow: float,
    vacuum: float,
    throttle: float,
    duration: float,
) -> float:
    r"""Return the choke plate's angle after a step.

    .. math:: c \frac{d\psi}{dt} = M(\psi), \qquad
              \psi_1 = \psi_0 + \frac{M \Delta t}{c - M' \Delta t}

    Parameters
    ----------
    choke, air_path, weather
        As in `fuelcircuits.physics.circuits.choke_plate.plate_angle`, where it comes to rest.
    angle
        Angle at the start [rad].
    coil
        Temperature of the coil [K].
    air_flow, vacuum
        Air through the horn [kg/s] and manifold vacuum [Pa].
    throttle
        Throttle angle [rad].
    duration
        Length of the step [s].

    Returns
    -------
    Angle [rad], between what the unloader lifts and wide open.

    Notes
    -----
    First principles: coil, air, the pull-off's link and damping, by one linearly implicit step;
    the torque falls as the plate opens, so it ends where `plate_angle` says.
    """
    closed = air_path.choke_closed_angle
    drawn = pull_off(choke, vacuum, closed)

    def torque(there: float) -> float:
        push = plate_torque(choke, air_path, weather, air_flow, there)
        held = coil_torque(choke, coil, there, closed)
        return held + push + link_torque(choke, drawn, there)

    here, shift = torque(angle), SHIFT if angle < 1.0 else -SHIFT
    slope = min((torque(angle + shift) - here) / shift, 0.0)
    moved = angle + here * duration / (DAMPING - slope * duration)
    return min(max(moved, unloader(choke, throttle, closed)), OPEN)


def cam_step(choke: Choke, held: float, pedal: float, plate: float) -> float:
    """Return how far the fast-idle cam holds the throttle off its stop [rad].

    Parameters
    ----------
    choke
        The cam's steps.
    held
        By how much it has held it until now [rad].
    pedal
        How far the pedal alone would open the throttle [rad].
    plate
        Angle of the choke plate [rad], which turns the cam once nothing rests on it.

    Notes
    -----
    Common practice, no source; see `fuelcircuits.physics.circuits.choke.fast_idle`.
    """
    return fast_idle(choke, plate) if pedal > held + LIFTED else held


def enriched(parts: ColdStart | None, coolant: float, ran: float, *, vacuum: float) -> float:
    """Return how far the start timer has shut the idle air [1]; nought without one.

    Parameters
    ----------
    parts
        Timer, switch and valve.
    coolant
        Coolant temperature [K].
    ran
        Time since the engine caught [s]; -1 while it does not run, and is cranked.
    vacuum
        Manifold vacuum [Pa].
    """
    if parts is None:
        return 0.0
    return 1.0 - idle_air_open(parts, coolant, ran, ran < 0.0, vacuum=vacuum)
