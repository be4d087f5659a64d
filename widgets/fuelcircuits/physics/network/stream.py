"""Air and fuel on their way together."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

__all__ = ["TRACE", "Stream"]

Floats = NDArray[np.float64]

TRACE = 1e-14
"""Flow [kg/s] that keeps a share defined where nothing flows."""


class Stream(NamedTuple):
    """Air and fuel that flow together [kg/s], with the sign of the flow."""

    air: Floats
    fuel: Floats

    @property
    def total(self) -> Floats:
        """Both together."""
        return self.air + self.fuel
