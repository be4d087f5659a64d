"""Corners rounded off, so that a balance has a slope wherever it is asked."""

__all__ = ["rounded", "smooth_step"]


def rounded(value: float, width: float) -> float:
    r"""Return max(x, 0) with its corner rounded to a parabola over :math:`\pm w`.

    .. math:: f = 0 \;(x \le -w), \quad (x + w)^2 / 4w, \quad x \;(x \ge w)

    Parameters
    ----------
    value
        x, in any unit.
    width
        w, not negative, in the same unit; 0 leaves the corner sharp.

    Returns
    -------
    f in that unit; smooth to its first derivative.
    """
    if value >= width:
        return value
    if value <= -width:
        return 0.0
    return (value + width) ** 2 / (4.0 * width)


def smooth_step(stage: float) -> float:
    r"""Return a rise from 0 to 1 that begins and ends level.

    .. math:: f = 3 u^2 - 2 u^3, \qquad u = [x]_0^1

    Parameters
    ----------
    stage
        x [1]: the rise begins at 0 and ends at 1.
    """
    if stage <= 0.0:
        return 0.0
    return stage * stage * (3.0 - 2.0 * stage) if stage < 1.0 else 1.0
