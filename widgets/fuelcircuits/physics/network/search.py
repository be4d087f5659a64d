"""How the network's unknowns are found: from states nearby, or from a guess, then more slowly.

A state nearby gives its pressures and its slopes. Without one, Newton's method starts from what
the air path alone gives; where that fails, damped more and more.
"""

from collections.abc import Iterator

from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.network.balance import Balance, Left
from fuelcircuits.physics.network.guess import first_guess, still_guess
from fuelcircuits.physics.network.pressures import EACH, SHARED
from fuelcircuits.physics.network.state import State, state_of
from fuelcircuits.physics.numerics.newton import Found, newton, settled

__all__ = ["balanced"]

_GOOD = 1e-9  # [1], imbalance over traffic that an answer may have
_LADDER = (
    ("guess", 0.0, 0),
    ("still", 0.0, 0),
    ("guess", 3.0, 40),
    ("still", 3.0, 40),
    ("guess", 30.0, 80),
    ("still", 30.0, 80),
    ("guess", 300.0, 200),
)


def balanced(balance: Balance, *starts: State | None) -> State:
    """Return the state in which a network balances.

    Parameters
    ----------
    balance
        The equations.
    starts
        States nearby to start from, if there are any, the likeliest first.

    Raises
    ------
    ConvergenceError
        If there is none; the message names the quantity that is left over most.
    """
    left_over = None
    for found in _searched(balance, starts):
        if found is not None and found.error <= _GOOD:
            return state_of(balance.of, found.unknowns, found.left, found.inverse)
        if found is not None and (left_over is None or found.error < left_over.error):
            left_over = found
    raise ConvergenceError(_said(balance, left_over))


def _searched(balance: Balance, starts: tuple[State | None, ...]) -> Iterator[Found[Left] | None]:
    """Yield where one start after another leads, the later ones dearer."""
    for start in starts:
        if start is not None:
            begin, learnt = _begun(balance, start)
            yield newton(balance, begin, learnt=learnt, most_steps=30)
    guess = first_guess(balance.of, balance.at)
    last = [getattr(balance.at, balance.closing.free)] if balance.closing else []
    for name, damping, steps in _LADDER:
        begin = (guess if name == "guess" else still_guess(guess)) + last
        if damping:
            slow = settled(balance, begin, damping, most_steps=steps)
            begin = slow.unknowns if slow else begin
        yield newton(balance, begin, most_steps=40 if damping else 20)


def _begun(balance: Balance, start: State) -> tuple[list[float], list[list[float]] | None]:
    """Return a state's unknowns, and the inverse of its slopes if it has the same ones.

    A last unknown that nobody asks for now is taken out of the inverse by elimination.
    """
    needed, barrels = len(balance.of.barrels), len(start.pressures.well)
    ends = len(SHARED), len(SHARED) + len(EACH) * barrels
    begin, learnt = start.unknowns[: ends[1]], start.inverse
    if needed != barrels:
        begin = begin[: ends[0]] + begin[ends[0] : ends[0] + len(EACH)] * needed
    if balance.closing:
        begin.append(start.speed if balance.closing.free == "speed" else start.throttle_angle)
    if learnt is None or len(learnt) == len(begin):
        return begin, learnt
    if needed != barrels or balance.closing:
        return begin, None
    *rows, last = learnt
    return begin, [
        [one - row[-1] / last[-1] * two for one, two in zip(row[:-1], last, strict=False)]
        for row in rows
    ]


def _said(balance: Balance, left_over: Found[Left] | None) -> str:
    """Return what is wrong, for the message of an error."""
    at = f"at {balance.at.speed:.4g} rad/s and {balance.at.angle:.4g} rad"
    if left_over is None:
        return f"pressures must balance, got no number for what is left over {at}"
    _, left, error, *_ = left_over
    rests = zip(left.level, left.measure, balance.names, strict=True)
    worst = max((abs(rest) / by, name) for rest, by, name in rests)[1]
    return f"{worst} must balance, got {error:.1e} of its traffic left over {at}"
