"""The fuel on its way through the manifold: the charge that the engine draws in.

Fuel that flies past the wall or has left it mixes with the air that stands in the manifold,
and the engine draws both in together.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import RangeError

__all__ = ["Charge", "charge"]

Floats = NDArray[np.float64]


class Charge(NamedTuple):
    """Fuel in the manifold's air; every array runs over time."""

    fuel: Floats  # kg of fuel in the manifold's air
    to_cylinder: Floats  # kg/s of fuel that the engine draws in
    drawn: Floats  # kg of fuel that it has drawn in since the first time


def charge(
    times: ArrayLike, arrived: ArrayLike, air: ArrayLike, taken: ArrayLike, first: float
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
    when, came = np.asarray(times, dtype=float), np.asarray(arrived, dtype=float)
    spans = np.diff(when)
    if not np.all(spans > 0):
        raise RangeError(f"times must rise, got {when}")
    renewal = np.maximum(np.asarray(taken, dtype=float), 1e-9) / np.asarray(air, dtype=float)
    fuel = np.empty_like(came)
    fuel[0] = first / renewal[0]
    for j, span in enumerate(spans, 1):
        fuel[j] = (fuel[j - 1] + came[j] - came[j - 1]) / (1 + span * renewal[j])
    flow = fuel * renewal
    drawn = np.concatenate([[0.0], np.cumsum(spans * flow[1:])])
    return Charge(fuel, flow, drawn)
