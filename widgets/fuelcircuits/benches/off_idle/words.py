"""What the idle-port bench says: readings, gauges, verdict, and its pictures in words."""

from fuelcircuits.benches.carburettor.measures import CHAMBER, INCH, WATER
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    AREA,
    FLOW,
    RATIO,
    SHARE,
    SPEED,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.benches.off_idle.found import Found

__all__ = ["LEANEST", "alarm", "drawn", "gauges", "plotted", "readings", "verdict"]

LEANEST = 1.15
"""Lambda above which an engine under light load stumbles [1] (common practice, no source)."""
SLIVER = 0.03e-6
"""Area of the slot below which nobody would call it open [m2]."""


def readings(found: Found) -> tuple[Reading, ...]:
    """Return the table."""
    return (
        Reading("Lambda", found.mixture, RATIO),
        Reading("Slot below the edge", found.below, AREA),
        Reading("Slot above the edge", found.above, AREA),
        Reading("Chamber vacuum", found.chamber_vacuum, CHAMBER),
        Reading("Bleed valve lifted", found.lift, SHARE),
        Reading("Fuel by the slot", found.slot, FLOW),
        Reading("Fuel by the screw", found.screw, FLOW),
        Reading("Fuel by the main nozzle", found.nozzle, FLOW),
        Reading("Engine speed", found.speed, SPEED),
    )


def gauges(found: Found) -> tuple[Gauge, ...]:
    """Return the water column on the idle-port chamber and the manifold's gauge."""
    return (
        Gauge(
            "Idle-port vacuum",
            found.chamber_vacuum,
            WATER,
            0,
            20 * INCH,
            accuracy=0.2 * INCH,
            noise=0.05 * INCH,
            column=True,
        ),
        Gauge(
            "Manifold vacuum",
            found.manifold_vacuum,
            VACUUM,
            0,
            100e3,
            accuracy=1.5e3,
            noise=0.3e3,
        ),
    )


def alarm(found: Found) -> bool:
    """Return whether the engine sags."""
    return found.mixture > LEANEST


def verdict(found: Found, system: System) -> str:
    """Return in one sentence what the slot does at this angle."""
    told = f"lambda is {RATIO.text(found.mixture, system)}"
    if found.mixture > LEANEST:
        return f"Off idle the ports give too little fuel: {told}, and the engine stumbles."
    if found.shut:
        return f"The throttle is shut beyond its stop, the slot bleeds air only, and {told}."
    if found.below < SLIVER:
        return f"All of the slot stands above the plate's edge and bleeds air in; {told}."
    shut = found.lift < 0.01
    valve = "the bleed valve is shut" if shut else "the bleed valve lets air in"
    if found.above < SLIVER:
        return f"All of the slot gives mixture, {valve}, and {told}."
    return (
        f"{AREA.text(found.below, system)} of slot gives mixture, "
        f"{AREA.text(found.above, system)} bleeds air in, {valve}; {told}."
    )


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    return (
        "Section through one bore at the throttle plate. In the wall beside the plate's rising "
        "edge stands an upright slot, the idle port; behind it lies a chamber, which gets froth "
        "from the economizer, and below it the mixture screw's port opens under the plate. A "
        "spring-loaded ball can let air from below the choke into the chamber. An enlarged detail "
        f"shows slot and edge to scale: with the plate at {ANGLE.text(found.throttle, system)}, "
        f"{AREA.text(found.below, system)} lies open to the manifold below the edge "
        f"and {AREA.text(found.above, system)} to the bore above it. The ball is "
        f"lifted by {SHARE.text(found.lift, system)} of its way. Dots are air, "
        "dashes are fuel."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    return (
        "Three plots against throttle angle. Above, the slot: as the plate opens, the part below "
        "its edge grows and the part above it shrinks. In the middle, fuel: the mixture screw's "
        "falls as the slot's rises, and then the main nozzle takes over. Below, lambda. The dots "
        f"are the state now, at {ANGLE.text(found.throttle, system)}: "
        f"{AREA.text(found.below, system)} below the edge, "
        f"{FLOW.text(found.slot, system)} of fuel by the slot, lambda "
        f"{RATIO.text(found.mixture, system)}."
    )
