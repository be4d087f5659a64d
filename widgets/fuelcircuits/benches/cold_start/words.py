"""What the cold-start bench says: readings, gauge, verdict, moments, and its pictures in words."""

from collections.abc import Mapping

from fuelcircuits.benches.cold_start.found import BACK, END, Found, Timing
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
from fuelcircuits.benches.frame.state import AWAITED, Moment, Reading

__all__ = ["alarm", "drawn", "gauges", "moments", "plotted", "readings", "verdict"]

FAULTS: Mapping[str, str] = {
    "rich": "the idle air stays shut after the timer has run out, and the idle stays rich",
    "lean": "the idle air stays open in the cold, and the cold idle is as lean as a warm one",
}
MISSES = 0.9
"""Share of the cycles that fire below which a driver feels that some do not [1] (judged)."""
LINES = {
    "Lambda delivered": RATIO,
    "Lambda that can burn": RATIO,
    "Cycles that fire": SHARE,
    "Idle air passage open": SHARE,
    "Coolant": TEMPERATURE,
    "Timer energised": SHARE,
    "Exhaust gas let back": SHARE,
    "Idle fuel, all barrels": FLOW,
}
"""The lines of the table, with what each is measured in."""


def readings(timing: Timing, found: Found | None) -> tuple[Reading, ...]:
    """Return the table; before the run is marched, only what timer and coolant do."""
    told: dict[str, list[float]] = {
        "Coolant": timing.coolant,
        "Timer energised": [float(each) for each in timing.timed],
        "Exhaust gas let back": [float(each) for each in timing.egr],
    }
    if found is not None:
        told |= {
            "Lambda delivered": found.mixture,
            "Lambda that can burn": found.burns,
            "Cycles that fire": found.fires,
            "Idle air passage open": found.open,
            "Idle fuel, all barrels": found.fuel,
        }
    return tuple(Reading(label, told.get(label), each) for label, each in LINES.items())


def gauges(found: Found) -> tuple[Gauge, ...]:
    """Return the manifold's gauge."""
    return (Gauge("Manifold vacuum", found.vacuum, VACUUM, 0, 100e3),)


def alarm(found: Found) -> bool:
    """Return whether the enrichment is at fault."""
    return bool(found.fault)


def verdict(found: Found, system: System) -> str:
    """Return in one sentence what the enrichment does."""
    start, end = (RATIO.text(found.mixture[place], system) for place in (0, -1))
    if found.fault:
        told = FAULTS[found.fault]
        return f"Fault: {told}; lambda is {start} at first and {end} at the end{_missed(found)}."
    if min(found.open) > BACK or found.back is None:
        return f"The engine is warm enough: no enrichment, lambda {start} throughout."
    after = SECONDS.text(found.back, system)
    told = f"The idle is enriched to lambda {start}; after {after} it is back at {end}"
    return f"{told}{_missed(found)}."


def _missed(found: Found) -> str:
    """Return what is said of cycles that do not fire; nothing where hardly any are."""
    least = min(found.fires)
    return f", and at worst only {100 * least:.0f} % of the cycles fire" if least < MISSES else ""


def moments(timing: Timing, _found: Found | None) -> tuple[Moment, ...]:
    """Return what happens when."""
    off = "The timer is off; exhaust gas may be let back."
    return Moment(0.0, "The engine catches; the timer starts."), Moment(timing.parts.timer, off)


def drawn(timing: Timing, found: Found | None, system: System) -> str:
    """Return the drawing in words; without `found` before the run is marched."""
    start, end = (
        AWAITED if found is None else SHARE.text(found.open[at], system) for at in (0, -1)
    )
    parts = timing.parts
    return (
        "Section through the idle channel. Fuel from the low-speed jet meets air from the fixed "
        "idle air bleed and from a second air passage. A diaphragm valve shuts that passage when "
        "manifold vacuum reaches it, and vacuum has to pass two gates: the coolant switch, shut "
        f"above {TEMPERATURE.text(parts.switch_point, system)}, and a solenoid that the "
        f"timer keeps open for {SECONDS.text(parts.timer, system)}. At first the passage "
        f"is {start} open, at the end {end}. While the timer runs no exhaust gas is let back."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    timing = found.timing
    ends = [RATIO.text(found.mixture[place], system) for place in (0, -1)]
    hot = [TEMPERATURE.text(timing.coolant[place], system) for place in (0, -1)]
    return (
        f"Two plots against time, {END:g} s long. Above, lambda: delivered it starts at {ends[0]} "
        f"and ends at {ends[1]}; a dashed line marks the idle without enrichment, "
        f"{RATIO.text(found.bare, system)}, and a third line the mixture that can burn. Below, the "
        "open share of the idle air passage; the timer ends at "
        f"{SECONDS.text(timing.parts.timer, system)}, while the coolant warms from {hot[0]} to "
        f"{hot[1]}."
    )
