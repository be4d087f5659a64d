"""Starts for a solver from points near by that are solved already."""

import numpy as np
from numpy.typing import NDArray

__all__ = ["between_solved", "coarse_to_fine"]

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

_STRIDES = (16, 4, 1)


def coarse_to_fine(count: int) -> list[Indices]:
    """Return a row of points three times: every sixteenth, every fourth, every one.

    Parameters
    ----------
    count
        Number of points.
    """
    every = np.arange(count)
    return [np.union1d(every[::stride], every[-1:]) for stride in _STRIDES]


def between_solved(unknowns: Floats, solved: NDArray[np.bool_], wanted: Indices) -> Floats:
    """Return a start for some points on straight lines between the solved points on both sides.

    Parameters
    ----------
    unknowns
        Shape (unknowns, points), points in such an order that neighbours are alike.
    solved
        Which of the points hold an answer; at least one.
    wanted
        Points to find a start for.
    """
    known = np.flatnonzero(solved)
    place = np.searchsorted(known, wanted)
    low = known[np.maximum(place - 1, 0)]
    high = known[np.minimum(place, known.size - 1)]
    share = np.clip((wanted - low) / np.maximum(high - low, 1), 0.0, 1.0)
    start, end = unknowns[:, low], unknowns[:, high]
    return np.asarray(start + share * (end - start))
