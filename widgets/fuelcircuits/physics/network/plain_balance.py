"""The balance of the whole carburettor at one point, in plain floats.

Unknowns and equations are those of `balance`, for a network whose barrels are alike.
"""

from functools import lru_cache
from math import isnan
from typing import NamedTuple

from fuelcircuits.physics.network.balance import FLOOR, PUSH, SLACK, VENTING, terms
from fuelcircuits.physics.network.plain_flows import Plain, plain_flows

__all__ = ["PlainBalance", "plain_balance"]

_BOWL, _WELL, _TUBE = 3, 5, 6  # places among unknowns and balances


class PlainBalance(NamedTuple):
    """What is left over at one point."""

    imbalance: list[float]  # kg/s
    measure: list[float]  # kg/s, what each is measured by
    error: float  # the largest of the first over the second [1]
    flows: list[float]  # kg/s, in the order of `balance.stacked`
    power_share: float


def plain_balance(of: Plain, alike: float, unknowns: list[float]) -> PlainBalance:
    """Return all imbalances of one point, and what each is measured by.

    Parameters
    ----------
    of
        The network and its point.
    alike
        Barrels of the carburettor.
    unknowns
        Pressures [Pa].

    References
    ----------
    `fuelcircuits.physics.network.balance.residuals`.
    """
    found, power_share = plain_flows(of, unknowns)
    imbalance, measure = [], []
    for entries in _balances(alike):
        total = traffic = 0.0
        for row, weight in entries:
            entering = weight * found[row]
            total += entering
            traffic += abs(entering)
        imbalance.append(total)
        measure.append(0.5 * traffic + FLOOR)
    if not isnan(of.at.bowl_pressure):
        imbalance[_BOWL] = PUSH * (of.at.bowl_pressure - unknowns[_BOWL])
    measure[_BOWL] = FLOOR + VENTING * sum(of.at.areas[3:7])
    imbalance[_TUBE] -= SLACK * (1.0 - of.parts.bled) * (unknowns[_TUBE] - unknowns[_WELL])
    error = max(abs(left) / by for left, by in zip(imbalance, measure, strict=True))
    return PlainBalance(imbalance, measure, error, found, power_share)


@lru_cache(maxsize=8)
def _balances(alike: float) -> list[list[tuple[int, float]]]:
    """Return for every balance the rows of its flows, and what each counts."""
    flow, weight, first = terms(1, alike)
    pairs = list(zip(flow.tolist(), weight.tolist(), strict=True))
    ends = [*first[1:].tolist(), len(pairs)]
    return [pairs[start:end] for start, end in zip(first.tolist(), ends, strict=True)]
