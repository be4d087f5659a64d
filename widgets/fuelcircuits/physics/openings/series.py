"""Two openings one behind the other, taken as one."""

from math import hypot

__all__ = ["in_series"]


def in_series(first: float, second: float) -> float:
    r"""Return the area that passes what two areas in series pass.

    .. math:: A^{-2} = A_1^{-2} + A_2^{-2}

    Parameters
    ----------
    first, second
        The two areas [m2], not negative.

    Returns
    -------
    Area [m2]; nought where either is.

    References
    ----------
    First principles: two orifices without recovery between them, at one density.
    """
    return first * second / hypot(first, second) if first and second else 0.0
