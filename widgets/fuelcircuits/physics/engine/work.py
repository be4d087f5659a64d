"""What is left of the work of the charge when the spark, a cylinder or the gas is not as it was."""

from math import exp, radians

from fuelcircuits.physics.engine.engine import Engine

__all__ = ["diluted_work", "firing_work", "spark_behind", "timed_work", "work_share"]

RETARD_LOSS = 1.08
"""Torque lost over the square of the spark's distance from the best [1/rad2]: 3.3 % at ten
degrees, 13 % at twenty (the mean of the curves of Heywood 1988, figure 15-3, from memory)."""
IDLE_BEHIND = radians(20.0)
"""How far behind its best the spark stands at idle, without vacuum advance [rad] (common
practice, no source)."""
CLEAN = 0.25
"""Recirculated share at which the work is down to 1/e [1]: judged. Engines of the time are told
to run roughly from about a tenth at idle (common practice, no source)."""


def spark_behind(engine: Engine, speed: float) -> float:
    """Return how far behind its best the card's own spark stands [rad].

    All of 20 degrees at idle speed, and nothing from twice that on, where the advance has come in.
    `speed` is that of the crankshaft [rad/s]. Common practice, no source.
    """
    return IDLE_BEHIND * min(max(2.0 - speed / engine.idle_speed, 0.0), 1.0)


def timed_work(engine: Engine, speed: float) -> float:
    r"""Return the work with this spark over that with the card's.

    .. math:: w = \frac{1 - k (\theta_0 + \theta)^2}{1 - k \theta_0^2}

    Parameters
    ----------
    engine
        Its `spark_late` :math:`\theta`; :math:`\theta_0` is `spark_behind`.
    speed
        Crankshaft speed [rad/s].

    Returns
    -------
    Share [1], 1 with the card's timing; above it at idle where the spark is a little early.

    References
    ----------
    Heywood 1988, section 15.3.1: torque falls as a parabola about the best timing; k is
    `RETARD_LOSS`. Knock of a spark too early under load is not in it.
    """
    behind = spark_behind(engine, speed)
    late = behind + engine.spark_late
    return max(1 - RETARD_LOSS * late * late, 0.0) / (1 - RETARD_LOSS * behind * behind)


def firing_work(engine: Engine) -> float:
    """Return the share of the cylinders' work that is there [1]: first principles."""
    return 1 - engine.dead_cylinders / engine.cylinders


def diluted_work(recirculated_share: float) -> float:
    """Return the share of its work that a charge with recirculated exhaust gives [1].

    A bell over the recirculated share [1]; see `CLEAN`. Slow burning and missed cycles together.
    """
    thin = recirculated_share / CLEAN
    return exp(-thin * thin)


def work_share(engine: Engine, speed: float, recirculated_share: float = 0.0) -> float:
    """Return all of that together: work over the work of the same air as on the card [1]."""
    return timed_work(engine, speed) * firing_work(engine) * diluted_work(recirculated_share)
