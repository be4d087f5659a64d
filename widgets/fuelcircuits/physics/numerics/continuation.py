"""Slower ways to where balances are nought, for starts from which Newton's method goes astray."""

from collections.abc import Sequence
from dataclasses import replace

from fuelcircuits.physics.numerics.linear import solve
from fuelcircuits.physics.numerics.newton import (
    GOOD,
    Found,
    Known,
    System,
    found_at,
    newton,
    stepped,
    tried,
)

__all__ = ["followed", "settled"]

_NEAR = 1e-4  # [1], rest over its measure with which a stage on the way is done
_STAGE = 12  # steps that a stage may take
_FIRST, _WIDER, _NARROWER, _LEAST = 0.25, 1.6, 0.4, 1e-4  # [1], shares of the way in one stage


def followed(system: System[Known], start: Sequence[float]) -> Found[Known] | None:
    r"""Return the answer at the end of a row of easier ones.

    Each part is given a leak that makes the start balance, and the leaks are closed together,
    little by little:

    .. math:: r(x) = \lambda\, r(x_0), \qquad \lambda = 1 \ldots 0

    Parameters
    ----------
    system
        The balances.
    start
        The unknowns x_0 to start from.

    Returns
    -------
    Found
        None if the row ends before the leaks are closed.

    References
    ----------
    Continuation along Newton's homotopy: E. L. Allgower and K. Georg, Introduction to Numerical
    Continuation Methods (2003), chapter 1.
    """
    here = found_at(system, list(start))
    if here is None:
        return None
    leaks, share, width = here.rest, 1.0, _FIRST
    while width > _LEAST:
        goal = max(share - width, 0.0)
        held = [goal * leak for leak in leaks]
        there = newton(system, here.unknowns, learnt=here.inverse, held=held, most_steps=_STAGE)
        if there is not None and there.error <= (_NEAR if goal else GOOD):
            if not goal:
                return there
            here, share, width = there, goal, _WIDER * width
        else:
            here, width = replace(here, inverse=None), _NARROWER * width
    return None


def settled(
    system: System[Known], start: Sequence[float], damping: float, most_steps: int = 100
) -> Found[Known] | None:
    """Return where the unknowns go if every part has a store that fills and empties in time.

    The steps are those of an implicit rule, and lengthen as the misfit falls; none is cut or
    refused. A rest has to fall as its own unknown rises.

    Parameters
    ----------
    system, start
        As in `followed`.
    damping
        The store that the system's scale fills by one reach in a step, positive.
    most_steps
        Steps after which the search ends, if its rests have not become small before.

    Returns
    -------
    Found
        A start for Newton's method; None if the balances have no value at the start.

    References
    ----------
    C. T. Kelley and D. E. Keyes, SIAM J. Numer. Anal. 35 (1998), pages 508-523.
    """
    here = found_at(system, list(start))
    for _ in range(most_steps):
        if here is None or here.error <= _NEAR:
            break
        matrix = tried(system.slopes, here.unknowns, here.left)
        if matrix is None:
            break
        store = damping * min(here.misfit, 1.0)
        for k, (scale, reach) in enumerate(zip(system.scale, system.reach, strict=True)):
            matrix[k][k] -= store * scale / reach
        move = tried(solve, matrix, [-rest for rest in here.rest])
        there = move and found_at(system, stepped(system, here.unknowns, move, 1.0))
        if not there:
            break
        here = there
    return here
