"""What the low-speed bench says: readings, gauges, verdict, and its pictures in words."""

from collections.abc import Mapping

from fuelcircuits.benches.carburettor.measures import CHAMBER, INCH, TURNS, WATER
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    FINE_SHARE,
    FLOW,
    RATIO,
    SMALL_LENGTH,
    TORQUE,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.benches.low_speed.found import Found

__all__ = ["LEANEST", "RICHEST", "alarm", "drawn", "gauges", "plotted", "readings", "verdict"]

RICHEST, LEANEST = 0.85, 1.05
"""Lambda between which an engine of this kind idles well [1] (common practice, no source)."""
SCREWS: Mapping[str, str] = {
    "plain": "The mixture screw is plain.",
    "limited": "A cap with a tab stops the mixture screw at either side.",
    "restricted": "A restrictor stands in line behind the mixture screw.",
    "sealed": "A plug hides the mixture screw, and it cannot be turned.",
    "air": "The screw stands in the idle air bleed and has a left-hand thread.",
}


def readings(found: Found) -> tuple[Reading, ...]:
    """Return the table."""
    return (
        Reading("Lambda", found.mixture, RATIO),
        Reading("Carbon monoxide", found.monoxide, FINE_SHARE),
        Reading("Chamber vacuum", found.chamber_vacuum, CHAMBER),
        Reading("Manifold vacuum", found.manifold_vacuum, VACUUM),
        Reading("Screw off its seat", found.turns, TURNS),
        Reading("Turned clockwise", found.clockwise, TURNS),
        Reading("Fuel by the low-speed jets", found.fuel, FLOW),
        Reading("Torque to spare", found.spare, TORQUE),
    )


def gauges(found: Found) -> tuple[Gauge, ...]:
    """Return the water column, the manifold's gauge and the carbon-monoxide meter."""
    return (
        Gauge(
            "Idle-port vacuum",
            found.chamber_vacuum,
            WATER,
            0,
            12 * INCH,
            accuracy=0.2 * INCH,
            noise=0.05 * INCH,
            column=True,
        ),
        Gauge("Manifold vacuum", found.manifold_vacuum, VACUUM, 0, 100e3, 1.5e3, 0.3e3),
        Gauge("CO meter", found.monoxide, FINE_SHARE, 0, 0.1, 0.002, 0.0005),
    )


def alarm(found: Found) -> bool:
    """Return whether the engine idles badly on this mixture."""
    return not RICHEST < found.mixture < LEANEST


def verdict(found: Found, system: System) -> str:
    """Return in one sentence how the engine idles."""
    gas = FINE_SHARE.text(found.monoxide, system)
    told = f"lambda {RATIO.text(found.mixture, system)}, carbon monoxide {gas}"
    if found.mixture >= LEANEST:
        return f"The idle is too lean, and the engine shakes or dies: {told}."
    if found.mixture <= RICHEST:
        return f"The idle is too rich, and the engine soots and hunts: {told}."
    return f"The engine idles well: {told}."


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    sizes = found.sizes
    bores = (
        f"low-speed jet {SMALL_LENGTH.text(sizes.jet, system)}",
        f"by-pass {SMALL_LENGTH.text(sizes.bypass, system)}",
        f"idle air bleed {SMALL_LENGTH.text(sizes.bleed, system)}",
        f"economizer {SMALL_LENGTH.text(sizes.economizer, system)}",
    )
    return (
        "Section from the float bowl to the throttle. Fuel passes the main jet into the well, "
        "rises in a tube through the low-speed jet, and is joined by air from the by-pass and "
        "from the idle air bleed. The froth passes the economizer and falls to the chamber behind "
        "the idle port; it leaves by the mixture screw below the throttle plate. Bores: "
        f"{', '.join(bores)}. {SCREWS[found.kind]} It stands {TURNS.text(found.turns, system)} off "
        "its seat. Dots are air, dashes are fuel."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    way = "out" if found.kind != "air" else "in"
    return (
        "Two plots against the screw's turns off its seat. Above, lambda: turning the screw "
        f"{way} is richer. Below, carbon monoxide, which rises as lambda falls under one. The "
        f"dots are the state now: {TURNS.text(found.turns, system)}, lambda "
        f"{RATIO.text(found.mixture, system)}, carbon monoxide "
        f"{FINE_SHARE.text(found.monoxide, system)}."
    )
