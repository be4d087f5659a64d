"""One entry of a spec card: what it means, its SI unit, and the range the trade would believe.

A section of a card is a frozen dataclass whose fields are made by `entry`::

    @dataclass(frozen=True)
    class Needle(Section):
        seat_bore: float = entry("m", 0.5e-3, 6e-3, "bore of the needle seat")

`Section` checks every field when a card is read and again whenever a fault changes one.
"""

import dataclasses
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
        for field in dataclasses.fields(self):  # type: ignore[arg-type]
            if "low" in field.metadata:
                name, facts = field.name.replace("_", " "), field.metadata
                value = getattr(self, field.name)
                for each in value if isinstance(value, tuple) else (value,):
                    between(name, each, facts["low"], facts["high"], facts["unit"])
