"""How the network's unknowns are found: from a state nearby, or from a guess, then more slowly.

A state nearby gives its pressures and its slopes. Without one, Newton's method starts from what
the air path alone gives; where that goes astray, along a row of easier balances, then damped.
"""

from collections.abc import Iterator

from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.network.balance import Balance, Left
from fuelcircuits.physics.network.guess import first_guess, still_guess
from fuelcircuits.physics.network.pressures import EACH, SHARED
from fuelcircuits.physics.network.state import State, state_of
from fuelcircuits.physics.numerics.continuation import followed, settled
from fuelcircuits.physics.numerics.newton import GOOD, Found, newton

__all__ = ["balanced"]

Begun = tuple[list[float], list[list[float]] | None]

_NEAR = 30  # steps in which an answer follows from a state nearby, if it does
_FAIR = 1e-7  # [1], rest where rounding leaves no better: past a rod that all but shuts its jet
_STILL = 1e-8  # kg/s, of a main jet that passes nothing
_WELL = EACH.index("well pressure")
_DAMPINGS = (1.0, 30.0, 300.0)  # [1], of the last attempts


def balanced(balance: Balance, start: State | None = None, good: float = GOOD) -> State:
    """Return the state in which a network balances.

    Parameters
    ----------
    balance
        The equations.
    start
        A state nearby, if there is one.
    good
        Share of its traffic that a balance may have left over [1], `GOOD` or more; where rounding
        leaves no better, up to 1e-7 may be.

    Raises
    ------
    ConvergenceError
        If there is none; the message names the quantity that is left over most.
    """
    nearest: Found[Left] | None = None
    for found in _searched(balance, start, good):
        if found is None:
            continue
        if found.error <= good:
            return _state(balance, found)
        if nearest is None or found.error < nearest.error:
            nearest = found
    if nearest is not None and nearest.error <= _FAIR:
        return _state(balance, nearest)
    raise ConvergenceError(_said(balance, nearest))


def _state(balance: Balance, found: Found[Left]) -> State:
    return state_of(balance.of, found.unknowns, found.left.flowing, found.inverse)


def _searched(balance: Balance, start: State | None, good: float) -> Iterator[Found[Left] | None]:
    """Yield where one attempt after another leads, the later ones dearer."""
    if start is not None:
        begin, learnt = _begun(balance, start)
        yield newton(balance, begin, learnt=learnt, most_steps=_NEAR, good=good)
    guess = first_guess(balance.of, balance.at)
    last = [getattr(balance.at, balance.closing.free)] if balance.closing else []
    guess, still = guess + last, still_guess(guess) + last
    yield newton(balance, guess)
    yield newton(balance, still)
    yield _slowed(balance, still, 10.0)
    yield followed(balance, guess)
    for damping in _DAMPINGS:
        yield _slowed(balance, still, damping)
        yield _slowed(balance, guess, damping)


def _slowed(balance: Balance, begin: list[float], damping: float) -> Found[Left] | None:
    """Return where Newton's method leads from where damped steps have come to."""
    slow = settled(balance, begin, damping)
    return slow and newton(balance, slow.unknowns)


def _begun(balance: Balance, start: State) -> Begun:
    """Return a state's unknowns, and the inverse of its slopes if they are those of the balance.

    A last unknown that nobody asks for now is taken out of the inverse by elimination. A well that
    stands still goes with the fuel in the bowl: its jet passes nothing at a corner of the
    equations, which is left at once where the bowl stands otherwise than in the state.
    """
    needed, barrels, closing = len(balance.of.barrels), len(start.pressures.well), balance.closing
    first = len(SHARED)
    begin, learnt = start.unknowns[: first + len(EACH) * barrels], start.inverse
    for barrel, flow in enumerate(start.flows.main_jet):
        if abs(flow) < _STILL:
            begin[first + len(EACH) * barrel + _WELL] = start.pressures.bowl + balance.of.head
    if needed != barrels:
        begin, learnt = begin[:first] + begin[first : first + len(EACH)] * needed, None
    if closing:
        begin.append(start.speed if closing.free == "speed" else start.throttle_angle)
    if learnt is None or len(learnt) == len(begin):
        return begin, learnt
    return begin, None if closing else _without_last(learnt)


def _without_last(learnt: list[list[float]]) -> list[list[float]]:
    """Return the inverse of a matrix without last row and column from that of the matrix."""
    *rows, last = learnt
    return [
        [one - row[-1] / last[-1] * two for one, two in zip(row, last[:-1], strict=False)]
        for row in rows
    ]


def _said(balance: Balance, nearest: Found[Left] | None) -> str:
    """Return what is wrong, for the message of an error."""
    where = f"at {balance.at.speed:.4g} rad/s and {balance.at.angle:.4g} rad"
    if nearest is None:
        return f"pressures must balance, got no number {where}"
    rests = zip(nearest.left.level, nearest.left.measure, balance.names, strict=True)
    worst = max((abs(rest) / by, name) for rest, by, name in rests)[1]
    return f"{worst} must balance, got {nearest.error:.1e} of its traffic left over {where}"
