"""Numbers between those of a table, and numbers evenly spread."""

from bisect import bisect_right
from collections.abc import Sequence

__all__ = ["interpolate", "linspace", "nearest"]


def interpolate(x: float, places: Sequence[float], values: Sequence[float]) -> float:
    """Return what `values` at rising `places` come to at x, by straight lines between.

    Before the first place and after the last it is the first or last value. Where a place
    stands twice the line jumps, and the later value counts there.
    """
    if x < places[0]:
        return values[0]
    if x >= places[-1]:
        return values[-1]
    after = bisect_right(places, x, 1, len(places) - 1)
    start, first = places[after - 1], values[after - 1]
    return first + (values[after] - first) / (places[after] - start) * (x - start)


def linspace(low: float, high: float, count: int) -> list[float]:
    """Return `count` numbers, at least two, evenly spread from low to high with both ends."""
    step = (high - low) / (count - 1)
    return [*(low + i * step for i in range(count - 1)), high]


def nearest(value: float, places: Sequence[float]) -> int:
    """Return which of `places` is nearest to a value, the first of equals."""
    return min(range(len(places)), key=lambda i: abs(places[i] - value))
