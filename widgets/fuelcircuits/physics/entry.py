"""One entry of a spec card: what it means, its SI unit, and the range the trade would believe.

A section of a card is a frozen dataclass whose fields are made by `entry`::

    @dataclass(frozen=True)
    class Needle(Section):
        seat_bore: float = entry("m", 0.5e-3, 6e-3, "bore of the needle seat")

`Section` checks every field when a card is read and again whenever a fault changes one.
"""

import dataclasses
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from fuelcircuits.errors import between

__all__ = ["Section", "entry"]


def entry(
    unit: str, low: float, high: float, meaning: str, default: Any = dataclasses.MISSING
) -> Any:
    """Return a dataclass field for a number in `unit` (SI) between `low` and `high`."""
    return dataclasses.field(
        default=default, metadata={"unit": unit, "low": low, "high": high, "meaning": meaning}
    )


class Section:
    """A frozen dataclass of entries that refuses numbers outside their range."""

    def __post_init__(self) -> None:
        """Check every entry; raise `RangeError` with name, rule and value."""
        section: Any = type(self)
        for name, said, facts in _checks(section):
            value = getattr(self, name)
            for each in value if isinstance(value, tuple) else (value,):
                between(said, each, facts["low"], facts["high"], facts["unit"])


@lru_cache(maxsize=64)
def _checks(section: Any) -> list[tuple[str, str, Mapping[str, Any]]]:
    """Return of every entry its name, that in words, and what it is held to."""
    entries = (field for field in dataclasses.fields(section) if "low" in field.metadata)
    return [(each.name, each.name.replace("_", " "), each.metadata) for each in entries]
