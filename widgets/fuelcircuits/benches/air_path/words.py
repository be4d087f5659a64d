"""What the air-path bench says: readings, gauges, verdict, and its pictures in words."""

from fuelcircuits.benches.air_path.found import Found
from fuelcircuits.benches.carburettor.measures import INCH, WATER
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    AIR_FLOW,
    ANGLE,
    FINE_SHARE,
    LENGTH,
    SMALL_PRESSURE,
    VACUUM,
    System,
    measure,
)
from fuelcircuits.benches.frame.state import Reading

__all__ = ["VELOCITY", "alarm", "drawn", "gauges", "plotted", "readings", "verdict"]

VELOCITY = measure("m/s", ("m/s", 1), ("foot/second", 0))
THIN_AIR = measure("kg/m**3", ("kg/m**3", 3), ("lb/ft**3", 4))
SOUND_NEAR = 200.0
"""Speed of the air above which the simple sums go far astray [m/s] (common practice)."""
DULL = 0.005
"""Error of the incompressible sum that nobody could measure [1]."""


def readings(found: Found) -> tuple[Reading, ...]:
    """Return the table."""
    return (
        Reading("Air flow", found.flow, AIR_FLOW),
        Reading("Booster depression", found.booster, SMALL_PRESSURE),
        Reading("Were air incompressible", found.plain, SMALL_PRESSURE),
        Reading("Main venturi depression", found.venturi, SMALL_PRESSURE),
        Reading("Air in the booster", found.velocity, VELOCITY),
        Reading("Manifold vacuum", found.losses.manifold, VACUUM),
        Reading("Loss in the cleaner", found.losses.horn, SMALL_PRESSURE),
        Reading("Density of the air", found.density, THIN_AIR),
    )


def gauges(found: Found) -> tuple[Gauge, ...]:
    """Return the water column on the booster and the manifold's gauge."""
    return (
        Gauge("Booster", found.booster, WATER, 0, 40 * INCH, 0.2 * INCH, 0.1 * INCH, column=True),
        Gauge("Manifold vacuum", found.losses.manifold, VACUUM, 0, 100e3, 1.5e3, 0.3e3),
    )


def alarm(found: Found) -> bool:
    """Return whether the air is so fast that the simple sums go astray."""
    return found.velocity > SOUND_NEAR


def verdict(found: Found, system: System) -> str:
    """Return in one sentence what the air does."""
    flow = AIR_FLOW.text(found.flow, system)
    told = (
        f"The engine draws {flow} of air, and the booster pulls "
        f"{SMALL_PRESSURE.text(found.booster, system)}"
    )
    share = found.astray
    if abs(share) < DULL:
        return f"{told}; a sum without compressibility gives the same."
    way = "less" if share < 0 else "more"
    amount = FINE_SHARE.text(abs(share), system)
    return f"{told}; a sum without compressibility gives {amount} {way}."


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    bores = found.bores
    return (
        "Section through one bore from air cleaner to manifold, to scale: choke plate at "
        f"{ANGLE.text(found.choke, system)}, main venturi of "
        f"{LENGTH.text(bores.venturi, system)} with a small booster venturi hung in "
        f"it, throttle plate at {ANGLE.text(found.throttle, system)} in a bore of "
        f"{LENGTH.text(bores.throttle, system)}. Beside it a line shows the pressure "
        "along the way of the air: it dips at the main venturi by "
        f"{SMALL_PRESSURE.text(found.venturi, system)}, deeper in the booster by "
        f"{SMALL_PRESSURE.text(found.booster, system)}, recovers most of it, and falls off below "
        "the throttle. Dotted lines are air."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    return (
        "Two plots against air flow. Above, depression: the booster's rises with the square of "
        "the air flow and a little faster, the incompressible sum stays below it, and the main "
        "venturi's is less than half. Below, the speed of the air in the booster. The dots are "
        f"the state now: {AIR_FLOW.text(found.flow, system)}, "
        f"{SMALL_PRESSURE.text(found.booster, system)}, {VELOCITY.text(found.velocity, system)}."
    )
