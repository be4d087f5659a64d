"""What healthy engines read, whatever their carburettor."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

__all__ = ["USUAL", "Usual"]


class Usual(NamedTuple):
    """What healthy engines read [SI]: the middle, and how far most are from it."""

    middle: float
    spread: float


USUAL: Mapping[str, Usual] = MappingProxyType(
    {
        "idle-vacuum": Usual(62.6e3, 5e3),  # 18.5 inHg, give or take 1.5
        "idle-mixture": Usual(0.93, 0.05),
        "off-idle-mixture": Usual(1.0, 0.07),
        "cruise-mixture": Usual(1.03, 0.05),
        "full-load-mixture": Usual(0.875, 0.04),
    }
)
"""Healthy engines at sea level on petrol; common practice, no source."""
