"""What a driver does in the course of a drive: one straight piece after another."""

from typing import NamedTuple

from fuelcircuits.physics.motion.moving import Controls

__all__ = ["Leg", "eased"]


class Leg(NamedTuple):
    """One piece of a drive; where the last one ended it begins."""

    duration: float  # s
    controls: Controls  # at its end: pedal and held speed go there evenly, all else is so at once
    step: float = 0.02  # s, about; it gets a whole number of equal ones


def eased(before: Controls, leg: Leg, share: float) -> Controls:
    """Return the controls part of the way through a leg.

    Parameters
    ----------
    before
        The controls at its beginning.
    leg
        The leg.
    share
        How much of it is over [1].
    """
    after = leg.controls
    pedal = before.pedal + share * (after.pedal - before.pedal)
    if after.speed is None or before.speed is None:
        return after._replace(pedal=pedal)
    return after._replace(pedal=pedal, speed=before.speed + share * (after.speed - before.speed))
