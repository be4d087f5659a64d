"""The coolant's temperature: how warm the engine is, and its walls with it."""

from math import exp

from fuelcircuits.physics.circuits.hot_soak import HotSoak

__all__ = ["coolant", "coolant_step"]


def coolant(soak: HotSoak, time: float, start: float) -> float:
    r"""Return the coolant's temperature after a start.

    .. math:: T = T_w + (T_0 - T_w) e^{-t/\tau}

    Parameters
    ----------
    soak
        Warm temperature T\ :sub:`w` (block_temperature) and time constant (warm_up).
    time
        Time since the start [s].
    start
        Temperature T\ :sub:`0` at the start [K].

    Returns
    -------
    Temperature [K].

    Notes
    -----
    One lump: common practice, no source.
    """
    warm = soak.block_temperature
    return warm + (start - warm) * exp(-time / soak.warm_up)


def coolant_step(
    soak: HotSoak, before: float, outside: float, duration: float, *, running: bool
) -> float:
    """Return the coolant's temperature after a step.

    Parameters
    ----------
    soak
        As in `coolant`; a stopped block cools by its conductance to the air around.
    before
        Temperature at the start of the step [K].
    outside
        Temperature of the air outside [K].
    duration
        Length of the step [s].
    running
        Whether the engine runs by itself.

    Returns
    -------
    Temperature [K].

    Notes
    -----
    As `coolant`, exact for a step of any length.
    """
    if running:
        return coolant(soak, duration, before)
    return outside + (before - outside) * exp(-duration * soak.block_to_air / soak.block_heat)
