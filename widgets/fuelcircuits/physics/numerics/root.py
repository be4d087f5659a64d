"""Where a balance is nought: one root for every operating point, all points at once."""

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import ConvergenceError

__all__ = ["root"]

Floats = NDArray[np.float64]


def root(
    function: Callable[[Floats], Any],
    low: ArrayLike,
    high: ArrayLike,
    *,
    name: str = "unknown",
    tolerance: float = 1e-13,
    steps: int = 120,
) -> Floats:
    """Return where `function` changes sign between `low` and `high`, element by element.

    Chandrupatla's rule: inverse quadratic interpolation where the last three points
    allow it, bisection where they do not. The bracket never opens, so a steep or flat
    balance costs steps, never the answer.

    Parameters
    ----------
    function
        Balance, elementwise; takes and returns arrays of one shape.
    low, high
        Ends of the bracket; the balance must have opposite signs there (or be nought).
    name
        What the unknown is, for the message of an error.
    tolerance
        Width of the final bracket, as a share of the larger of its ends [1].
    steps
        Most evaluations allowed [1].

    Returns
    -------
    numpy.ndarray
        The root, broadcast from all inputs.

    Raises
    ------
    ConvergenceError
        If the balance has the same sign at both ends, is not a number there, or the
        bracket is still too wide after `steps`.

    References
    ----------
    T. R. Chandrupatla, Advances in Engineering Software 28 (1997), pages 145-149.
    """
    a, b = np.broadcast_arrays(np.asarray(low, dtype=float), np.asarray(high, dtype=float))
    fa, fb = np.asarray(function(a.copy())), np.asarray(function(b.copy()))
    a, b, fa, fb = (np.array(x, dtype=float) for x in np.broadcast_arrays(a, b, fa, fb))
    if not np.all(fa * fb <= 0):
        raise ConvergenceError(
            f"{name} must make the balance nought between {np.min(low):g} and {np.max(high):g}, "
            "got the same sign at both ends"
        )
    share = np.full(a.shape, 0.5)
    for _ in range(steps):
        trial = a + share * (b - a)
        value = np.asarray(function(trial))
        same = np.sign(value) == np.sign(fa)
        c, fc = np.where(same, a, b), np.where(same, fa, fb)
        b, fb = np.where(same, b, a), np.where(same, fb, fa)
        a, fa = trial, value
        best = np.where(np.abs(fa) < np.abs(fb), a, b)
        width = tolerance * np.maximum(np.abs(a), np.abs(b)) + 1e-300
        slack = width / np.maximum(np.abs(b - a), 1e-300)
        if np.all((slack >= 0.5) | (fa == 0) | (fb == 0)):
            return best
        share = np.clip(_next_share((a, b, c), (fa, fb, fc)), slack, 1 - slack)
    raise ConvergenceError(f"{name} must settle within {steps} steps, got a balance that does not")


def _next_share(places: tuple[Floats, ...], values: tuple[Floats, ...]) -> Floats:
    """Return where in the bracket to look next: interpolated if safe, else the middle."""
    (a, b, c), (fa, fb, fc) = places, values
    with np.errstate(divide="ignore", invalid="ignore"):
        place, height = (a - b) / (c - b), (fa - fb) / (fc - fb)
        safe = (height**2 < place) & ((1 - height) ** 2 < 1 - place)
        near = fa / (fb - fa) * fc / (fb - fc)
        far = (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
    return np.where(safe & np.isfinite(near + far), near + far, 0.5)
