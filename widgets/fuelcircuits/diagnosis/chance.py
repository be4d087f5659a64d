"""How large a misfit may be by chance alone."""

from math import sqrt

__all__ = ["allowed"]

_STRICT = 3.0
"""Standard normal quantile beyond which a misfit is no accident [1]; common practice, no source."""


def allowed(count: int) -> float:
    r"""Return the squared misfit of so many readings that chance alone hardly ever exceeds.

    .. math:: n \left(1 - \frac{2}{9 n} + z \sqrt{\frac{2}{9 n}}\right)^3

    References
    ----------
    E. B. Wilson and M. M. Hilferty, The distribution of chi-square, 1931; z is 3 here, which one
    case in 740 exceeds.
    """
    part = 2.0 / (9.0 * max(count, 1))
    return float(count * (1.0 - part + _STRICT * sqrt(part)) ** 3)
