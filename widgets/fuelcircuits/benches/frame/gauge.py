"""A gauge as a workshop has it: a dial with a range, a stated accuracy, and a needle that shakes.

What a gauge shows is the model's value, an error that is the instrument's own and stays, and a
scatter that differs from reading to reading. Both are drawn from a random seed, so that the
same seed, gauge and setting give the same reading everywhere, also where it is marked.
"""

import zlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import repeat
from typing import Any

from fuelcircuits.benches.frame.measure import Measure, Value
from fuelcircuits.benches.frame.noise import drawn, normal, uniform

__all__ = ["Gauge", "shown"]


@dataclass(frozen=True)
class Gauge:
    """One gauge beside the table; all numbers in SI.

    Parameters
    ----------
    label
        What it measures.
    value
        What is truly there: a number, or in a time run one for each time.
    measure
        The kind of quantity, which brings the units on the dial.
    low, high
        Ends of the dial; the needle stops there.
    accuracy
        Half-width of the band within which the instrument's own error lies.
    noise
        Standard deviation of the scatter from reading to reading.
    good
        The range on the card, drawn as a thick arc, or None.
    column
        True for an upright tube with liquid instead of a round dial.
    """

    label: str
    value: Value
    measure: Measure
    low: float
    high: float
    accuracy: float = 0.0
    noise: float = 0.0
    good: tuple[float, float] | None = None
    column: bool = False


def shown(gauge: Gauge, seed: int | None, values: Mapping[str, Any]) -> Value:
    """Return what the needle of `gauge` stands at.

    Parameters
    ----------
    gauge
        The gauge with its true value.
    seed
        The random seed of the task; None is a gauge without error.
    values
        The bench's controls: another setting is another reading, with another scatter.

    Returns
    -------
    Reading in SI, one for each value of the gauge, within the ends of the dial.
    """
    errors = repeat(0.0) if seed is None else _errors(gauge, seed, values)

    def needle(true: float) -> float:
        return min(max(true + next(errors), gauge.low), gauge.high)

    if isinstance(gauge.value, list):
        return [needle(each) for each in gauge.value]
    return needle(gauge.value)


def _errors(gauge: Gauge, seed: int, values: Mapping[str, Any]) -> Iterator[float]:
    """Yield what the gauge is off by at one reading after another."""
    name = _number(gauge.label)
    own = gauge.accuracy * uniform(drawn(seed, name), -1, 1)
    numbers = drawn(seed, name, _number(_setting(values)))
    while True:
        yield own + gauge.noise * normal(numbers)


def _setting(values: Mapping[str, Any]) -> str:
    """Return the controls as text, alike for numbers that differ by rounding only."""
    told = (
        f"{name}={value:.6g}" if isinstance(value, float) else f"{name}={value}"
        for name, value in sorted(values.items())
    )
    return " ".join(told)


def _number(text: str) -> int:
    """Return a number for `text`, the same on every machine."""
    return zlib.crc32(text.encode("utf-8"))
