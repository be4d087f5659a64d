"""Faults of the air's way to the engine."""

from fuelcircuits.faults.change import raised, scaled
from fuelcircuits.faults.fault import Fault

__all__ = ["AIR_FAULTS"]

AIR_FAULTS = (
    Fault(
        "restricted-air-cleaner",
        "air path",
        "The cleaner's element is clogged: at worst it passes a sixth of what a clean one does.",
        (scaled("air_path.cleaner_area", 1 / 6),),
    ),
    Fault(
        "manifold-air-leak",
        "air path",
        "Air enters the manifold past a flange gasket or a hose: at worst by 12 mm².",
        (raised("air_path.manifold_leak", 12e-6),),
    ),
    Fault(
        "worn-throttle-shaft",
        "air path",
        "The throttle shaft is loose in its bores: air enters at its ends, at worst by 5 mm², "
        "and each plate no longer seats, at worst by 1 mm².",
        (raised("air_path.manifold_leak", 5e-6), raised("air_path.throttle_leak", 1e-6)),
    ),
)
"""Air cleaner, manifold, throttle shaft (sizes: common practice, no source)."""
