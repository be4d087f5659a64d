"""What the fault bench says: readings, verdict, and its pictures in words."""

from collections.abc import Mapping
from math import nan

from fuelcircuits.benches.diagnosis.found import Found
from fuelcircuits.benches.frame.measure import (
    LENGTH,
    PRESSURE,
    RATIO,
    SMALL_PRESSURE,
    SPEED,
    VACUUM,
    Measure,
    System,
    measure,
)
from fuelcircuits.benches.frame.shown import no_gauges as gauges
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.plan import APART
from fuelcircuits.faults import AROUND
from fuelcircuits.faults import find as find_fault

__all__ = ["MEASURES", "MINUTES", "alarm", "drawn", "gauges", "plotted", "readings", "verdict"]

VOLUME = measure("m**3", ("cm**3", 2), ("floz", 4))
MINUTES = measure("minute", ("minute", 0), ("minute", 0))
MEASURES: Mapping[str, Measure] = {
    "inHg": VACUUM,
    "psi": PRESSURE,
    "inH2O": SMALL_PRESSURE,
    "mm": LENGTH,
    "ml": VOLUME,
    "rpm": SPEED,
    "": RATIO,
}
"""How a bench shows what a check is read in."""


def readings(found: Found) -> tuple[Reading, ...]:
    """Return what was read; a test that was not made shows nothing."""
    checks = [find(name) for name in found.tests]
    shown = (
        Reading(check.label, found.read.get(check.name, nan), MEASURES[check.unit])
        for check in checks
    )
    return (Reading("Time spent", found.spent[-1], MINUTES), *shown)


def alarm(found: Found) -> bool:
    """Return whether no suspect is left."""
    return not found.remaining


def verdict(found: Found, _system: System) -> str:
    """Return in a sentence or two where the search stands."""
    if found.told:
        *first, last = (find(name).label.lower() for name in found.proof)
        tests = f"{', '.join(first)} and {last}" if first else last
        said = f"{_where(found.told)}{find_fault(found.told).meaning}"
        return f"{said} Cheapest proof: {tests}, {found.least:g} min."
    if not found.read:
        return f"“{found.complaint}” Choose the first test."
    remaining = found.remaining
    if len(remaining) == 1:
        where = " (around the carburettor)" if remaining[0] in AROUND else ""
        return f"Only one suspect fits all readings: {_words(remaining[0])}{where}."
    if not remaining:
        return "No suspect fits all the readings."
    return f"{len(remaining)} suspects still fit all the readings."


def drawn(found: Found, _system: System) -> str:
    """Return the drawing in words."""
    far = dict(zip(found.suspects, found.off, strict=True))
    bars = {name: f"{_words(name)} {by:.1f}" for name, by in far.items()}
    inner = ", ".join(said for name, said in bars.items() if name not in AROUND)
    outer = ", ".join(said for name, said in bars.items() if name in AROUND)
    return (
        f"A bar for each suspect shows by how many uncertainties its readings are off: {inner}; "
        f"around the carburettor: {outer}. Beyond {APART:g} a suspect is ruled out."
    )


def plotted(found: Found, _system: System) -> str:
    """Return the plot in words."""
    return (
        f"Suspects left against minutes spent: {found.left[-1]} are left after "
        f"{found.spent[-1]:g} min."
    )


def _where(name: str) -> str:
    """Return a sentence that says that it was not the carburettor, if it was not."""
    return "It is not the carburettor. " if name in AROUND else ""


def _words(name: str) -> str:
    return name.replace("-", " ")
