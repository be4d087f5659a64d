"""Where a balance is nought that rises at least so fast: near where it was a step ago."""

from collections.abc import Callable

from fuelcircuits.physics.numerics.root import root

__all__ = ["rising"]

MARGIN = 1.0 + 1e-9
"""How much further than it may lie a nought is looked for [1], for rounding's sake."""


def rising(
    balance: Callable[[float], float],
    start: float,
    least: float,
    low: float,
    high: float,
    *,
    name: str,
    tolerance: float,
) -> float:
    """Return where a rising balance is nought, the nearer of two ends if it is so nowhere.

    Parameters
    ----------
    balance
        The balance.
    start
        Where it was nought a step ago, between the ends.
    least
        How fast it rises at least, positive.
    low, high
        The ends.
    name, tolerance
        As in `fuelcircuits.physics.numerics.root.root`.

    Raises
    ------
    ConvergenceError
        If the balance is no number or does not rise.

    Notes
    -----
    First principles: what is left over at the start, over the least slope, is the furthest that
    the nought can be away, and what is left over where a straight line has it says how close it is.
    """
    here = balance(start)
    there = min(max(start - MARGIN * here / least, low), high)
    beyond = balance(there)
    if here == 0.0 or here * beyond >= 0.0:
        return there
    straight = start + (there - start) * here / (here - beyond)
    if abs(balance(straight)) <= least * tolerance * straight:
        return straight
    return root(balance, min(start, there), max(start, there), name=name, tolerance=tolerance)
