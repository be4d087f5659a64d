"""Cold-start enrichment of the idle: a timer, a coolant switch and a valve on the idle air.

While the engine is cranked, and for some seconds after it starts, a timer energises a
solenoid. With the coolant below its switch point as well, manifold vacuum reaches the valve
and shuts an air passage of the idle circuit: less air, more fuel. The same timer keeps
exhaust gas from being fed back. (Common practice, no source; 35 s is the usual time.)
"""

from dataclasses import dataclass

from fuelcircuits.physics.entry import Section, entry

__all__ = ["ColdStart", "egr_allowed", "idle_air_open", "switch_open", "timer_on"]


@dataclass(frozen=True)
class ColdStart(Section):
    """Timer, coolant switch and the valve they work (numbers invented for each rig)."""

    timer: float = entry("s", 0, 600, "time after the start for which the timer stays on", 35.0)
    switch_point: float = entry(
        "K", 250, 350, "coolant temperature at which the vacuum switch shuts", 293.15
    )
    switch_width: float = entry(
        "K", 0.1, 20, "rise in coolant temperature over which the switch shuts", 2.0
    )
    shutting_vacuum: float = entry(
        "Pa", 1e3, 60e3, "manifold vacuum that shuts the valve fully", 10e3
    )
    solenoid_pull: float = entry("1", 0, 1, "share of its travel the solenoid makes", 1.0)
    stuck_shut: float = entry("1", 0, 1, "share of the passage that never opens again", 0.0)


def timer_on(cold_start: ColdStart, time_since_start: float, cranking: bool = False) -> bool:
    """Return whether the timer is energised.

    Parameters
    ----------
    cold_start
        The timer.
    time_since_start
        Time since the engine caught [s]; below nought it has not started.
    cranking
        Whether the starter turns.

    Returns
    -------
    True while cranking and for the timer's time after the start.
    """
    return cranking or 0 <= time_since_start < cold_start.timer


def switch_open(cold_start: ColdStart, coolant: float) -> float:
    """Return how far the coolant switch lets vacuum through.

    Parameters
    ----------
    cold_start
        The switch.
    coolant
        Coolant temperature [K].

    Returns
    -------
    Share of the vacuum [1]: 1 cold, falling to 0 across the width around the switch point.

    Notes
    -----
    Common practice, no source.
    """
    warmth = (coolant - cold_start.switch_point) / cold_start.switch_width
    return min(max(0.5 - warmth, 0.0), 1.0)


def idle_air_open(
    cold_start: ColdStart,
    coolant: float,
    time_since_start: float,
    cranking: bool = False,
    *,
    vacuum: float = 60e3,
) -> float:
    r"""Return the share of the idle air passage that is open.

    .. math:: s = (1 - s_{stuck}) (1 - e \, w \, v)

    with e the solenoid (1 energised), w the coolant switch (1 cold, falling to 0 across its
    width) and v the diaphragm's travel, in proportion to the vacuum up to full travel.

    Parameters
    ----------
    cold_start
        Timer, switch and valve.
    coolant
        Coolant temperature [K].
    time_since_start
        Time since the engine caught [s]; below nought it has not started.
    cranking
        Whether the starter turns.
    vacuum
        Manifold vacuum [Pa]; plenty if not given. Cranking gives little.

    Returns
    -------
    Share of the passage's area [1]: 1 open, 0 shut.

    Notes
    -----
    Common practice, no source: what shuts the passage and when.
    """
    free = 1 - cold_start.stuck_shut
    if not timer_on(cold_start, time_since_start, cranking):
        return free
    cold = switch_open(cold_start, coolant)
    travel = min(max(vacuum / cold_start.shutting_vacuum, 0.0), 1.0)
    return free * (1 - cold_start.solenoid_pull * cold * travel)


def egr_allowed(cold_start: ColdStart, time_since_start: float, cranking: bool = False) -> bool:
    """Return whether exhaust gas may be fed back: only with the timer off.

    Parameters
    ----------
    cold_start, time_since_start, cranking
        As in `timer_on`.

    Returns
    -------
    False while the timer is on.

    Notes
    -----
    Common practice, no source.
    """
    return not timer_on(cold_start, time_since_start, cranking)
