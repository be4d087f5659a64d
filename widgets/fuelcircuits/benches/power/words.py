"""What the power bench says: readings, gauge, verdict, and its pictures in words."""

from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    AREA,
    FORCE,
    LENGTH,
    RATIO,
    SHARE,
    SMALL_LENGTH,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.benches.power.found import Found

__all__ = ["alarm", "drawn", "fault", "gauges", "plotted", "readings", "verdict"]

FULL_LOAD, CRUISE = 12e3, 40e3
"""Manifold vacuum below which an engine works hard, and above which it runs light [Pa]."""
LEANEST, RICHEST = 0.95, 0.90
"""Lambda at most under full load and at least in cruising (common practice, no source)."""


def fault(found: Found) -> str:
    """Return what is wrong with the mixture at this load, or nothing."""
    if found.vacuum < FULL_LOAD and found.mixture > LEANEST:
        return "too lean for full load: the engine lacks power and runs hot"
    if found.vacuum > CRUISE and found.mixture < RICHEST:
        return "too rich for light running: fuel is wasted"
    return ""


def readings(found: Found) -> tuple[Reading, ...]:
    """Return the table."""
    return (
        Reading("Manifold vacuum", found.vacuum, VACUUM),
        Reading("Pull of the vacuum", found.pull, FORCE),
        Reading("Push of the spring", found.push, FORCE),
        Reading("Rod raised", found.lift * found.travel, LENGTH),
        Reading("Rod in the jet", found.rod, SMALL_LENGTH),
        Reading("Open ring", found.area, AREA),
        Reading("Mixture (lambda)", found.mixture, RATIO),
        Reading("Fuel the rod adds", found.added, SHARE),
    )


def gauges(found: Found) -> tuple[Gauge, ...]:
    """Return the manifold's gauge."""
    return (Gauge("Manifold vacuum", found.vacuum, VACUUM, 0, 100e3),)


def alarm(found: Found) -> bool:
    """Return whether something is wrong with the rod."""
    return bool(fault(found))


def verdict(found: Found, system: System) -> str:
    """Return in one sentence what the rod does."""
    vacuum, mixture = VACUUM.text(found.vacuum, system), RATIO.text(found.mixture, system)
    if fault(found):
        return f"At {vacuum} lambda is {mixture}, {fault(found)}."
    raised = LENGTH.text(found.lift * found.travel, system)
    stands = {0.0: "the vacuum holds the rod down", 1.0: "the spring holds the rod fully up"}
    where = stands.get(found.lift, f"spring and vacuum balance with the rod {raised} up")
    return f"At {vacuum} {where}, and lambda is {mixture}."


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    return (
        "Section through the power circuit. A piston in its cylinder stands on a spring; manifold "
        "vacuum pulls it down from below. A hanger on the piston carries the metering rod, which "
        f"hangs in the main jet. The rod stands {LENGTH.text(found.lift * found.travel, system)} "
        f"above its lowest place, and {SMALL_LENGTH.text(found.rod, system)} of it fills the jet "
        f"of {SMALL_LENGTH.text(found.jet, system)}. Enlarged, and seen from above, the ring that "
        f"stays open is {AREA.text(found.area, system)}."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words; where its curves end is told once they are there."""
    down, up, ends = found.curves.down.value, found.curves.up.value, ""
    if down and up:
        ends = (
            "; with the throttle wide open these end at "
            f"{RATIO.text(down[-1], system)} and {RATIO.text(up[-1], system)}"
        )
    return (
        "Two plots against manifold vacuum. Above, lambda: at high vacuum the curve follows the "
        f"line of a rod kept down, at low vacuum that of a rod kept up{ends}. The dot is the state "
        f"now, lambda {RATIO.text(found.mixture, system)} at "
        f"{VACUUM.text(found.vacuum, system)}. Below, the ring round the rod that stays open."
    )
