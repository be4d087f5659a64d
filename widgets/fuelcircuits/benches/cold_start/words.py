"""What the cold-start bench says: readings, gauge, verdict, moments, and its pictures in words."""

from collections.abc import Mapping

from fuelcircuits.benches.cold_start.found import BACK, END, Found
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    FLOW,
    RATIO,
    SECONDS,
    SHARE,
    TEMPERATURE,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.state import Moment, Reading

__all__ = ["drawn", "gauges", "moments", "plotted", "readings", "verdict"]

FAULTS: Mapping[str, str] = {
    "rich": "the idle air stays shut after the timer has run out, and the idle stays rich",
    "lean": "the idle air stays open in the cold, and the engine stalls for want of fuel",
}


def readings(found: Found) -> tuple[Reading, ...]:
    """Return the table."""
    return (
        Reading("Lambda delivered", found.mixture, RATIO),
        Reading("Lambda that can burn", found.burns, RATIO),
        Reading("Idle air passage open", found.open, SHARE),
        Reading("Coolant", found.coolant, TEMPERATURE),
        Reading("Timer energised", [float(each) for each in found.timed], SHARE),
        Reading("Exhaust gas let back", [float(each) for each in found.egr], SHARE),
        Reading("Idle fuel, all barrels", found.fuel, FLOW),
    )


def gauges(found: Found) -> tuple[Gauge, ...]:
    """Return the manifold's gauge."""
    return (Gauge("Manifold vacuum", found.vacuum, VACUUM, 0, 100e3),)


def verdict(found: Found, system: System) -> str:
    """Return in one sentence what the enrichment does."""
    start, end = (RATIO.text(found.mixture[place], system) for place in (0, -1))
    if found.fault:
        told = FAULTS[found.fault]
        return f"Fault: {told}; lambda is {start} at the start and {end} at the end."
    if found.open[0] > BACK or found.back is None:
        return f"The engine is warm enough: no enrichment, lambda {start} throughout."
    after = SECONDS.text(found.back, system)
    return f"The idle is enriched to lambda {start}; after {after} it is back at {end}."


def moments(found: Found) -> tuple[Moment, ...]:
    """Return what happens when."""
    off = "The timer is off; exhaust gas may be let back."
    return Moment(0.0, "The engine catches; the timer starts."), Moment(found.parts.timer, off)


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    start, end = (SHARE.text(found.open[place], system) for place in (0, -1))
    return (
        "Section through the idle channel. Fuel from the low-speed jet meets air from the fixed "
        "idle air bleed and from a second air passage. A diaphragm valve shuts that passage when "
        "manifold vacuum reaches it, and vacuum has to pass two gates: the coolant switch, shut "
        f"above {TEMPERATURE.text(found.parts.switch_point, system)}, and a solenoid that the "
        f"timer keeps open for {SECONDS.text(found.parts.timer, system)}. At the start the passage "
        f"is {start} open, at the end {end}. While the timer runs no exhaust gas is let back."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    ends = [RATIO.text(found.mixture[place], system) for place in (0, -1)]
    hot = [TEMPERATURE.text(found.coolant[place], system) for place in (0, -1)]
    return (
        f"Two plots against time, {END:g} s long. Above, lambda: delivered it starts at {ends[0]} "
        f"and ends at {ends[1]}; a dashed line marks the idle without enrichment, "
        f"{RATIO.text(found.bare, system)}, and a third line the mixture that can burn. Below, the "
        "open share of the idle air passage; the timer ends at "
        f"{SECONDS.text(found.parts.timer, system)}, while the coolant warms from {hot[0]} to "
        f"{hot[1]}."
    )
