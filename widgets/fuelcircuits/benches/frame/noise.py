"""Random numbers that are the same for the same key on every machine and in every browser.

A key is a row of whole numbers, such as a seed and the number of an instrument. It is mixed into
64 bits, and these are counted on and mixed again for each number that is drawn.

References
----------
.. [1] G. L. Steele, D. Lea and C. H. Flood, "Fast splittable pseudorandom number generators",
   OOPSLA 2014, fig. 17 (the mixer, with the second variant of its constants, and the step).
.. [2] G. E. P. Box and M. E. Muller, "A note on the generation of random normal deviates",
   Annals of Mathematical Statistics 29 (1958), p. 610.
"""

from collections.abc import Iterator
from math import cos, log, pi, sqrt

__all__ = ["drawn", "mixed", "normal", "uniform"]

ALL = (1 << 64) - 1
STEP = 0x9E3779B97F4A7C15
"""What the count goes on by: 2**64 over the golden ratio, made odd [1]_."""


def drawn(*key: int) -> Iterator[float]:
    """Yield numbers evenly spread over [0, 1), each a whole multiple of 2**-53."""
    state = 0
    for part in key:
        state = mixed((state ^ part) + STEP)
    while True:
        state = (state + STEP) & ALL
        yield (mixed(state) >> 11) * 2.0**-53


def uniform(numbers: Iterator[float], low: float, high: float) -> float:
    """Return one number evenly spread between two."""
    return low + (high - low) * next(numbers)


def normal(numbers: Iterator[float]) -> float:
    """Return one number normally spread about 0 with a standard deviation of 1 [2]_."""
    radius, turn = 1.0 - next(numbers), next(numbers)
    return sqrt(-2 * log(radius)) * cos(2 * pi * turn)


def mixed(bits: int) -> int:
    """Return 64 bits of which each depends on all of those given [1]_."""
    bits &= ALL
    bits = ((bits ^ (bits >> 30)) * 0xBF58476D1CE4E5B9) & ALL
    bits = ((bits ^ (bits >> 27)) * 0x94D049BB133111EB) & ALL
    return bits ^ (bits >> 31)
