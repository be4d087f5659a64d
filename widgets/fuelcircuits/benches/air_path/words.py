"""What the air-path bench says: readings, gauges, verdict, and its pictures in words."""

from typing import TYPE_CHECKING

from fuelcircuits.benches.carburettor.idle_measures import INCH, WATER
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

if TYPE_CHECKING:
    from fuelcircuits.benches.air_path.bench import Draught

__all__ = ["VELOCITY", "drawn", "gauges", "plotted", "readings", "verdict"]

VELOCITY = measure("m/s", ("m/s", 1), ("foot/second", 0))
THIN_AIR = measure("kg/m**3", ("kg/m**3", 3), ("lb/ft**3", 4))
DULL = 0.005
"""Error of the incompressible sum that nobody could measure [1]."""


def astray(now: "Draught") -> float:
    """Return how far the incompressible sum is from the booster's depression [1]."""
    return now.plain / now.booster - 1


def readings(now: "Draught") -> tuple[Reading, ...]:
    """Return the table."""
    state = now.state
    return (
        Reading("Air flow", float(state.carburettor_flow), AIR_FLOW),
        Reading("Booster depression", now.booster, SMALL_PRESSURE),
        Reading("Were air incompressible", now.plain, SMALL_PRESSURE),
        Reading("Main venturi depression", now.venturi, SMALL_PRESSURE),
        Reading("Air in the booster", now.velocity, VELOCITY),
        Reading("Manifold vacuum", float(state.manifold_vacuum), VACUUM),
        Reading("Loss in the cleaner", _loss(now), SMALL_PRESSURE),
        Reading("Density of the air", float(now.weather.density), THIN_AIR),
    )


def _loss(now: "Draught") -> float:
    return float(now.state.ambient_pressure - now.state.horn_pressure)


def gauges(now: "Draught") -> tuple[Gauge, ...]:
    """Return the water column on the booster and the manifold's gauge."""
    vacuum = float(now.state.manifold_vacuum)
    return (
        Gauge("Booster", now.booster, WATER, 0, 40 * INCH, 0.2 * INCH, 0.1 * INCH, column=True),
        Gauge("Manifold vacuum", vacuum, VACUUM, 0, 100e3, 1.5e3, 0.3e3),
    )


def verdict(now: "Draught", system: System) -> str:
    """Return in one sentence what the air does."""
    flow = AIR_FLOW.text(float(now.state.carburettor_flow), system)
    told = (
        f"The engine draws {flow} of air, and the booster pulls "
        f"{SMALL_PRESSURE.text(now.booster, system)}"
    )
    share = astray(now)
    if abs(share) < DULL:
        return f"{told}; a sum without compressibility gives the same."
    way = "less" if share < 0 else "more"
    amount = FINE_SHARE.text(abs(share), system)
    return f"{told}; a sum without compressibility gives {amount} {way}."


def drawn(now: "Draught", system: System) -> str:
    """Return the drawing in words."""
    path = now.path
    return (
        "Section through one bore from air cleaner to manifold, to scale: choke plate at "
        f"{ANGLE.text(now.choke, system)}, main venturi of "
        f"{LENGTH.text(float(path.venturi_bore), system)} with a small booster venturi hung in "
        f"it, throttle plate at {ANGLE.text(now.angle, system)} in a bore of "
        f"{LENGTH.text(float(path.throttle_bore), system)}. Beside it a line shows the pressure "
        "along the way of the air: it dips at the main venturi by "
        f"{SMALL_PRESSURE.text(now.venturi, system)}, deeper in the booster by "
        f"{SMALL_PRESSURE.text(now.booster, system)}, recovers most of it, and falls off below "
        "the throttle. Dotted lines are air."
    )


def plotted(now: "Draught", system: System) -> str:
    """Return the plot in words."""
    return (
        "Two plots against air flow. Above, depression: the booster's rises with the square of "
        "the air flow and a little faster, the incompressible sum stays below it, and the main "
        "venturi's is less than half. Below, the speed of the air in the booster. The dots are "
        f"the state now: {AIR_FLOW.text(float(now.state.carburettor_flow), system)}, "
        f"{SMALL_PRESSURE.text(now.booster, system)}, {VELOCITY.text(now.velocity, system)}."
    )
