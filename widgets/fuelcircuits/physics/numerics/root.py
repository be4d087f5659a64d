"""Where a balance is nought."""

from collections.abc import Callable

from fuelcircuits.errors import ConvergenceError

__all__ = ["root"]

Three = tuple[float, float, float]


def root(
    function: Callable[[float], float],
    low: float,
    high: float,
    *,
    name: str = "unknown",
    tolerance: float = 1e-13,
    steps: int = 120,
) -> float:
    """Return where `function` changes sign between `low` and `high`.

    Chandrupatla's rule: inverse quadratic interpolation where the last three points
    allow it, bisection where they do not. The bracket never opens, so a steep or flat
    balance costs steps, never the answer.

    Parameters
    ----------
    function
        The balance.
    low, high
        Ends of the bracket; the balance must have opposite signs there (or be nought).
    name
        What the unknown is, for the message of an error.
    tolerance
        Width of the final bracket, as a share of the larger of its ends [1].
    steps
        Most evaluations allowed [1].

    Raises
    ------
    ConvergenceError
        If the balance has the same sign at both ends, is not a number there, or the
        bracket is still too wide after `steps`.

    References
    ----------
    T. R. Chandrupatla, Advances in Engineering Software 28 (1997), pages 145-149.
    """
    a, b, fa, fb = low, high, function(low), function(high)
    if fa == 0.0 or fb == 0.0:
        return b if fb == 0.0 else a
    if not (fa < 0.0 < fb or fb < 0.0 < fa):
        raise ConvergenceError(
            f"{name} must make the balance nought between {low:g} and {high:g}, "
            "got the same sign at both ends"
        )
    share = 0.5
    for _ in range(steps):
        trial = a + share * (b - a)
        value = function(trial)
        if value == 0.0:
            return trial
        if (value < 0.0) == (fa < 0.0):
            c, fc = a, fa
        else:
            c, b, fc, fb = b, a, fb, fa
        a, fa = trial, value
        slack = (tolerance * max(abs(a), abs(b)) + 1e-300) / max(abs(b - a), 1e-300)
        if slack >= 0.5:
            return a if abs(fa) < abs(fb) else b
        share = min(max(_next_share((a, b, c), (fa, fb, fc)), slack), 1.0 - slack)
    raise ConvergenceError(f"{name} must settle within {steps} steps, got a balance that does not")


def _next_share(places: Three, values: Three) -> float:
    """Return where in the bracket to look next: interpolated if safe, else the middle."""
    (a, b, c), (fa, fb, fc) = places, values
    place, height = (a - b) / (c - b), (fa - fb) / (fc - fb)
    if height * height < place and (1.0 - height) * (1.0 - height) < 1.0 - place:
        near = fa / (fb - fa) * fc / (fb - fc)
        return near + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
    return 0.5
