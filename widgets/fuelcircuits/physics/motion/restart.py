"""How a hot engine starts again: marched, and in closed form for whoever asks very often."""

from __future__ import annotations

from math import inf, log
from typing import TYPE_CHECKING, NamedTuple

from fuelcircuits.physics.engine.engine import swept_flow
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.motion.soak_run import SoakRun
from fuelcircuits.physics.motion.start import Start, begun
from fuelcircuits.physics.motion.step import stepped
from fuelcircuits.physics.network.state import State

if TYPE_CHECKING:
    from fuelcircuits.physics.network.rig import Rig

__all__ = ["LEANEST", "LONGEST", "RICHEST", "Cranked", "Restart", "cranked", "restart"]

RICHEST, LEANEST = 2.0, 0.6
"""Equivalence ratios between which a cranked engine fires [1] (common practice, no source)."""
STEP, GROWING, LONGEST = 0.1, 0.2, 8.0
"""Length of a step on the starter [s], its share of the time that has passed if that is longer [1],
and the longest that it turns [s]."""
CATCHES, HELD = 0.5, 0.5
"""Share of the cycles that fire in an engine that catches [1], and for how long they must [s]
(judged)."""
FAINT = 1e-12
"""Share of the cycles that is as good as none, and from one as good as all [1]."""
FIRST, STILL = 1.0, 1e-9
"""Time in which the first turns are made, and what is no time [s]."""
SOON = FIRST - STILL


class Cranked(NamedTuple):
    """One start on the starter."""

    seconds: float  # until the engine catches; `LONGEST` if it does not
    equivalence: float  # fuel over the fuel that just burns, the most of the first turns [1]
    network: State  # as the first step left it: near that of a like start


def cranked(car: Car, start: Start) -> Cranked:
    """Return how long an engine is cranked, the pedal left alone.

    Parameters
    ----------
    car, start
        As in `fuelcircuits.physics.motion.start.begun`.

    Returns
    -------
    Cranked
        Time and mixture. The starter holds its speed: an engine that catches is at its own.

    Raises
    ------
    ConvergenceError
        If the network has no balance.
    """
    now, most, since = begun(car, start), 0.0, inf
    first, key = None, Controls(speed=car.rig.hot_soak.crank_speed, starter=True)
    while now.time < LONGEST and now.time - since < HELD:
        before, now = now, stepped(car, now, key, _span(now.time), drawn=True)
        first = first or now.network
        most = max(most, 1.0 / now.burning.mixture) if before.time < SOON else most
        fired, fires = (each.burning.fires >= CATCHES for each in (before, now))
        if fires and not fired:
            since = _turned(before, now)
        elif fired and not fires and _turned(before, now) - since < HELD:
            since = inf
    return Cranked(since if now.time - since >= HELD else LONGEST, most, first or now.network)


def _span(passed: float) -> float:
    """Return how long the next step is, after some time on the starter [s]."""
    longest = (FIRST if passed < SOON else LONGEST) - passed
    span = max(STEP, GROWING * passed)
    return longest if span > longest - STILL else span


def _turned(before: Motion, after: Motion) -> float:
    """Return when the share that fires passes that of an engine that catches [s].

    Its odds go evenly with the mixture, and that about so with time.
    """
    low, high = (_odds(each.burning.fires) for each in (before, after))
    return after.time - (after.time - before.time) * high / (high - low)


def _odds(fires: float) -> float:
    """Return the logarithm of how much likelier a share that fires is than that of `CATCHES`."""
    share = min(max(fires, FAINT), 1.0 - FAINT)
    return log(share / (1.0 - share) * (1.0 - CATCHES) / CATCHES)


class Restart(NamedTuple):
    """How an engine starts after a soak, for each of its times."""

    equivalence: list[float]  # fuel over the fuel that just burns, at the first turn [1]
    ratio: list[float]  # air-fuel ratio at the first turn [1]
    cranking: list[float]  # s until it fires


def restart(rig: Rig, weather: Weather, fuel: Fuel, run: SoakRun) -> Restart:
    r"""Return how the engine would start at each time of a soak, its choke open, without a march.

    .. math::
        \phi(t) = 1 + \frac{r_{st}\, m_{intake}}{\tau\, \dot m_{air}} e^{-t/\tau}, \qquad
        t_{rich} = \tau \ln\frac{\phi_0 - 1}{\phi_{max} - 1}

    The carburettor itself is taken to crank at a stoichiometric mixture; the fuel in the
    intake comes on top until it is drawn out. A bowl that has boiled too far down must first
    be pumped up. The engine fires when both are over.

    Parameters
    ----------
    rig, weather, fuel
        As in `soak_run`.
    run
        The soak.

    Returns
    -------
    Restart
        First mixture and cranking time at each time of the run.

    Notes
    -----
    First principles for a well-mixed intake; the limits of firing are common practice, no
    source.
    """
    soak, bowl = rig.hot_soak, rig.float_bowl
    swept = swept_flow(rig.engine.displacement, soak.crank_speed)
    air = rig.engine.breathing * weather.density * swept
    stoichiometric = liquid.stoichiometric_ratio(fuel)
    mixtures, cranking = [], []
    for intake, left, warmth in zip(run.intake, run.fuel_left, run.bowl, strict=True):
        extra = stoichiometric * intake / (soak.wash_out * air)
        dry = liquid.density(fuel, warmth) * bowl.bowl_area * soak.dry_drop
        missing = max(run.fuel_left[0] - left - dry, 0.0)
        rich = soak.wash_out * log(max(extra / (RICHEST - 1), 1.0))
        mixtures.append(extra if missing > 0 else 1 + extra)
        cranking.append(soak.crank_least + max(rich, missing / soak.crank_pump))
    return Restart(mixtures, [stoichiometric / max(each, 1e-3) for each in mixtures], cranking)
