"""A tip-in: the throttle opens with the speed held, and fuel reaches the cylinders in time."""

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.benches.carburettor.mixture_curve import fuel_density, held
from fuelcircuits.physics.circuits.pump import Pump, rod_position
from fuelcircuits.physics.circuits.wall_film import film_run
from fuelcircuits.physics.motion.pump_shot import PumpRun, pump_run
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["BEGIN", "END", "Opening", "TipIn", "angle_at", "tip_in"]

Floats = NDArray[np.float64]

BEGIN, END = 0.5, 4.0
"""When the throttle begins to open and when the run ends [s]."""
COARSE = 1000.0
"""Factor on the error that the pump's run allows; see `pump_run`."""
EVEN = 81
"""Points of the run that is shown [1]."""


@dataclass(frozen=True)
class Opening:
    """How the throttle moves: angles [rad] before and after, and the time it takes [s]."""

    before: float
    after: float
    duration: float

    def angle(self, now: float | Floats) -> Floats:
        """Return the throttle angle at a time [rad]."""
        corners = [BEGIN, BEGIN + self.duration]
        return np.asarray(np.interp(now, corners, [self.before, self.after]))


class TipIn(NamedTuple):
    """A tip-in in time; with and without the shot where there are two rows."""

    times: Floats  # s
    throttle: Floats  # rad
    rod: Floats  # m
    plunger: Floats  # m
    delivered: Floats  # m3
    shot: Floats  # kg/s
    circuits: Floats  # kg/s by the other circuits
    film: Floats  # kg on the wall, (times, 2)
    reached: Floats  # kg/s at the cylinders, (times, 2)
    mixture: Floats  # lambda of that, (times, 2)


@lru_cache(maxsize=64)
def _pumped(pump: Pump, opening: Opening) -> tuple[Floats, PumpRun]:
    """Return the pump's own run, with points close together where it moves fast."""
    stop = BEGIN + opening.duration
    times = np.concatenate(
        [
            [0.0, BEGIN],
            np.linspace(BEGIN, stop, 9)[1:],
            stop + (END - stop) * np.linspace(0.0, 1.0, 23)[1:] ** 1.6,
        ]
    )
    return times, pump_run(pump, times, opening.angle, density=fuel_density(), coarse=COARSE)


def angle_at(card: Rig, speed: float, share: float) -> float:
    """Return the throttle angle at a share of the way from idle stop to wide open [rad]."""
    stop = float(held(card, card, speed).throttle_angle[0])
    return stop + (OPEN - stop) * share


def tip_in(card: Rig, rig: Rig, speed: float, opening: Opening, coolant: float) -> TipIn:
    """Follow a tip-in.

    Parameters
    ----------
    card, rig
        The rig of the card, and as it has been changed.
    speed
        Engine speed, held [rad/s].
    opening
        How the throttle moves.
    coolant
        Coolant temperature [K], which sets how long the wall holds its fuel.
    """
    rough, pumped = _pumped(rig.pump, opening)
    times = np.unique(np.round(np.concatenate([np.linspace(0, END, EVEN - 10), rough[1:11]]), 9))
    times = np.sort(np.concatenate([times, _more(times, EVEN - len(times))]))
    angle, steady = opening.angle(times), held(card, card, speed)
    circuits, needed = (
        np.interp(angle, steady.throttle_angle, each)
        for each in (steady.fuel_flow, steady.air_flow / steady.stoichiometric)
    )
    shot = np.interp(times, rough, pumped.fuel_flow)
    metered = np.stack([circuits + shot, circuits], axis=-1)
    film = film_run(rig.wall_film, times, metered, coolant)
    reached = np.maximum(film.to_cylinder, 1e-9)
    return TipIn(
        times=times,
        throttle=angle,
        rod=rod_position(rig.pump, angle),
        plunger=np.interp(times, rough, pumped.plunger),
        delivered=np.interp(times, rough, pumped.delivered),
        shot=shot,
        circuits=circuits,
        film=film.mass,
        reached=reached,
        mixture=needed[:, None] / reached,
    )


def _more(times: Floats, count: int) -> Floats:
    """Return times half way in the last spans, to fill up the number of points."""
    return np.asarray(0.5 * (times[1:] + times[:-1]))[-count:] if count > 0 else times[:0]
