"""What the bench says: readings, gauges, verdict, and its pictures in words."""

from fuelcircuits.benches.around.found import LASTS, Found
from fuelcircuits.benches.carburettor.measures import TURNS
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    AREA,
    PRESSURE,
    RATIO,
    SECONDS,
    SHARE,
    SPEED,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.state import Reading

__all__ = ["alarm", "drawn", "gauges", "plotted", "readings", "verdict"]

STEADY = 500.0
"""Swing of the needle that nobody sees [Pa] (common practice)."""


def readings(found: Found) -> tuple[Reading, ...]:
    """Return the table."""
    return (
        Reading("Idle speed, stop left alone", found.speed, SPEED),
        Reading("Vacuum at that idle", found.vacuum, VACUUM),
        Reading("Swing of the needle", found.swing, VACUUM),
        Reading("Lambda at idle", found.mixture, RATIO),
        Reading("Least speed lost, one cylinder out", found.lost, SPEED),
        Reading("Vacuum at a held 2500 rpm", found.held, VACUUM),
        Reading("Pressure before the exhaust then", found.before, PRESSURE),
        Reading("Pull at full load, of the card's", found.pull, SHARE),
    )


def gauges(found: Found) -> tuple[Gauge, ...]:
    """Return the tachometer and the vacuum gauge."""
    return (
        Gauge("Idle speed", found.speed, SPEED, 0, 125.7, 1.6, 1.0),
        Gauge("Vacuum at idle", found.vacuum, VACUUM, 0, 101.6e3, 1.5e3, 0.3e3),
    )


def alarm(found: Found) -> bool:
    """Return whether the engine stalls."""
    return not found.speed


def verdict(found: Found, system: System) -> str:
    """Return in a sentence or two what a mechanic would see."""
    if not found.speed:
        return "It stalls at idle."
    speed, vacuum = SPEED.text(found.speed, system), VACUUM.text(found.vacuum, system)
    needle = "steady" if found.swing < STEADY else f"swings by {VACUUM.text(found.swing, system)}"
    mixture = RATIO.text(found.mixture, system)
    return f"It idles at {speed}, the needle at {vacuum} and {needle}, lambda {mixture}."


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    return (
        "An engine from the side: carburettor on its manifold, one of its cylinders, exhaust pipe "
        f"below. Spark {ANGLE.text(found.late, system)} late of the card's mark; one cylinder has "
        f"lost {SHARE.text(found.dead, system)} of its work; a hose lets air in by "
        f"{AREA.text(found.hose, system)}; the recirculation valve stands open by "
        f"{AREA.text(found.back, system)}; the exhaust is pinched to "
        f"{PRESSURE.text(found.blocked, system)} before it; mixture screws "
        f"{TURNS.text(found.turns, system)} out. A vacuum gauge shows "
        f"{VACUUM.text(found.vacuum, system)}, its needle with a shadow at either end of its swing."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    return (
        f"Vacuum over {SECONDS.text(LASTS, system)} at idle, as a needle without damping shows "
        f"it: between {VACUUM.text(min(found.needle.vacuum), system)} and "
        f"{VACUUM.text(max(found.needle.vacuum), system)}; a healthy engine's stands at "
        f"{VACUUM.text(found.usual, system)}."
    )
