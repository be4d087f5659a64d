"""The fuel on its way through the manifold: the charge that the engine draws in.

Fuel that flies past the wall or has left it mixes with the air that stands in the manifold,
and the engine draws both in together.
"""

from collections.abc import Sequence
from itertools import accumulate, pairwise
from operator import mul
from typing import NamedTuple

from fuelcircuits.errors import RangeError

__all__ = ["Charge", "charge"]

LEAST = 1e-9
"""Air that an engine at rest is taken to take [kg/s], so that a start is defined."""


class Charge(NamedTuple):
    """Fuel in the manifold's air; every list runs over time."""

    fuel: list[float]  # kg of fuel in the manifold's air
    to_cylinder: list[float]  # kg/s of fuel that the engine draws in
    drawn: list[float]  # kg of fuel that it has drawn in since the first time


def charge(
    times: Sequence[float],
    arrived: Sequence[float],
    air: Sequence[float],
    taken: Sequence[float],
    first: float,
) -> Charge:
    r"""Follow the fuel in the manifold's air.

    .. math::
        \frac{dm_f}{dt} = \dot m_{arrived} - \dot m_{drawn}, \qquad
        \frac{\dot m_{drawn}}{\dot m_{engine}} = \frac{m_f}{m_{air}}

    Parameters
    ----------
    times
        Rising times [s].
    arrived
        Fuel that has come into the air since the first time [kg].
    air
        Air in the manifold [kg], positive.
    taken
        Air that the engine takes [kg/s]; taken as none where it is negative.
    first
        Fuel that comes into the air at the first time [kg/s], which is drawn in as it comes.

    Returns
    -------
    Charge
        At every time, fuel arrived is fuel drawn in and growth of the fuel in the air.

    Raises
    ------
    RangeError
        If the times do not rise.

    Notes
    -----
    First principles for a manifold that mixes well, by Euler's implicit rule. In truth a
    cylinder far from the carburettor gets its share later than a near one.
    """
    spans = [after - before for before, after in pairwise(times)]
    if not all(span > 0 for span in spans):
        raise RangeError(f"times must rise, got {times}")
    renewal = [max(flow, LEAST) / mass for flow, mass in zip(taken, air, strict=True)]
    fuel = [first / renewal[0]]
    for j, span in enumerate(spans, 1):
        fuel.append((fuel[-1] + arrived[j] - arrived[j - 1]) / (1 + span * renewal[j]))
    flow = list(map(mul, fuel, renewal))
    return Charge(fuel, flow, list(accumulate(map(mul, spans, flow[1:]), initial=0.0)))
