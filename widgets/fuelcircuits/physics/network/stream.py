"""Air and fuel on their way together."""

from typing import Generic, NamedTuple, TypeVar

__all__ = ["TRACE", "Each", "Pair", "Stream"]

Each = TypeVar("Each", float, tuple[float, ...])
"""What belongs to a barrel: a number, or a row with one for each barrel told apart."""

Pair = tuple[float, float]
"""Air and fuel that flow together [kg/s], while they are being balanced."""

TRACE = 1e-14
"""Flow [kg/s] that keeps a share defined where nothing flows."""


class Stream(NamedTuple, Generic[Each]):
    """Air and fuel that flow together [kg/s], with the sign of the flow."""

    air: Each
    fuel: Each
