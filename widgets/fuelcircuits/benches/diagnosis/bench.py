"""The fault bench: a car with something wrong, tests that take time, and suspects to rule out."""

from collections.abc import Mapping
from typing import Any, ClassVar

import numpy as np

from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice, Switch
from fuelcircuits.benches.frame.measure import (
    LENGTH,
    PRESSURE,
    RATIO,
    SMALL_PRESSURE,
    VACUUM,
    Measure,
    System,
    measure,
)
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, Reading, State
from fuelcircuits.diagnosis.car import Garage, garage
from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.plan import APART, cheapest
from fuelcircuits.diagnosis.ranking import away
from fuelcircuits.faults import FAULTS
from fuelcircuits.physics.network.rig import Rig

__all__ = ["DiagnosisBench"]

CARS = ("1", "2", "3", "4", "5", "6")
VOLUME = measure("m**3", ("centimeter**3", 2), ("floz", 4))
MINUTES = measure("minute", ("minute", 0), ("minute", 0))
COUNT = measure("dimensionless", ("dimensionless", 0), ("dimensionless", 0))
MEASURES: Mapping[str, Measure] = {
    "inHg": VACUUM,
    "psi": PRESSURE,
    "inH2O": SMALL_PRESSURE,
    "mm": LENGTH,
    "ml": VOLUME,
    "": RATIO,
}
"""How a bench shows what a check is read in."""
WIDEST = 2 * APART
"""Uncertainties at which the bars of the drawing end."""
BAR = 300.0


def _ticked(name: str) -> Switch:
    """Return the switch that makes a test, with the minutes it takes."""
    check = find(name)
    return Switch(f"{check.label} ({check.minutes:g}\u00a0min)")


class DiagnosisBench(Bench):
    """A car with something wrong, and tests that rule suspects out for so many minutes each."""

    title = "What is wrong with this car?"
    picture = "diagnosis.svg"
    page_grid: ClassVar[Mapping[str, int]] = {
        "car": len(CARS),
        "idle_vacuum": 2,
        "port_vacuum": 2,
        "fuel_pressure": 2,
    }
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {"car": {"port_vacuum": True}}
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {"look": ("drawing", "readings")}

    car = Choice("Car in the shop", {each: f"car {each}" for each in CARS}, "1")
    idle_vacuum = _ticked("idle-vacuum")
    port_vacuum = _ticked("port-vacuum")
    fuel_pressure = _ticked("fuel-pressure")
    shot = _ticked("shot")
    idle_mixture = _ticked("idle-mixture")
    vent_gap_open = _ticked("vent-gap-open")
    level_at_idle = _ticked("level-at-idle")
    cruise_mixture = _ticked("cruise-mixture")
    full_load_mixture = _ticked("full-load-mixture")
    full_load_vacuum = _ticked("full-load-vacuum")
    look = Switch("Open it and look")

    def __init__(self, rig: Rig | None = None) -> None:
        """Make the bench; the cars are the teaching garage's, whatever `rig` is."""
        super().__init__()

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return what the tests made so far leave of the suspects."""
        job = garage(int(values["car"]))
        made = [each for each in job.table.checks if values[each.name.replace("-", "_")]]
        off = _off(job, made)
        remaining = [
            name for name, far in zip(job.table.suspects, off, strict=True) if far <= APART
        ]
        minutes = sum(check.minutes for check in made)
        return State(
            readings=_readings(job, made, minutes),
            numbers=_numbers(off),
            chart=_chart(job, made, bool(values["look"])),
            verdict=_verdict(job, made, remaining, bool(values["look"])),
            drawn=_drawn(job, off),
            plotted=f"Suspects left against minutes spent: {len(remaining)} are left after "
            f"{minutes:g} min.",
            alarm=not remaining,
        )


def _off(job: Garage, made: list[Check]) -> list[float]:
    """Return by how many uncertainties each suspect is off where it is furthest off."""
    if not made:
        return [0.0] * len(job.table.suspects)
    off, _ = away(job.table, {check.name: job.readings[check.name] for check in made})
    return [float(far) for far in np.abs(off).max(axis=2).min(axis=1)]


def _readings(job: Garage, made: list[Check], minutes: float) -> tuple[Reading, ...]:
    """Return what was read; a test that was not made shows nothing."""
    shown = [
        Reading(
            check.label,
            job.readings[check.name] if check in made else np.nan,
            MEASURES[check.unit],
        )
        for check in job.table.checks
    ]
    return (Reading("Time spent", minutes, MINUTES), *shown)


def _numbers(off: list[float]) -> dict[str, float]:
    """Return where the bars of the drawing end, and who is ruled out."""
    bars = {f"bar{at}": BAR * min(far, WIDEST) / WIDEST for at, far in enumerate(off)}
    return bars | {f"out{at}": float(far > APART) for at, far in enumerate(off)}


def _chart(job: Garage, made: list[Check], look: bool) -> Chart:
    """Return the suspects left after each test, the quickest first."""
    tests = len(job.table.checks)
    minutes, count = np.full(tests + 1, np.nan), np.full(tests + 1, np.nan)
    minutes[0], count[0] = 0.0, len(job.table.suspects)
    for at, check in enumerate(made, start=1):
        minutes[at] = minutes[at - 1] + check.minutes
        count[at] = sum(far <= APART for far in _off(job, made[:at]))
    best = cheapest(job.table, job.readings).minutes if look else np.nan
    whole = sum(check.minutes for check in job.table.checks)
    panel = Panel(
        y=Axis("Suspects left", COUNT, 0, len(job.table.suspects) + 1),
        curves=(
            Curve("lead", np.repeat(minutes, 2)[1:], np.repeat(count, 2)[:-1], "your tests"),
            Curve("mark", np.array([0.0, whole]), np.ones(2), "one suspect"),
            Curve(
                "other",
                np.full(2, best),
                np.array([0.0, len(job.table.suspects)]),
                "cheapest proof",
            ),
        ),
        dot=Dot(minutes[len(made)], count[len(made)]),
    )
    return Chart(Axis("Time spent", MINUTES, 0, 10 * np.ceil(whole / 10)), (panel,))


def _verdict(job: Garage, made: list[Check], remaining: list[str], look: bool) -> str:
    """Return in a sentence or two where the search stands."""
    if look and job.told:
        plan = cheapest(job.table, job.readings)
        tests = " and ".join(find(name).label.lower() for name in plan.checks)
        return f"{FAULTS[job.told[0]].meaning} Cheapest proof: {tests}, {plan.minutes:g} min."
    if not made:
        return f"“{job.complaint}” Choose the first test."
    if len(remaining) == 1:
        return f"Only one suspect fits all readings: {_words(remaining[0])}."
    if not remaining:
        return "No suspect fits all the readings."
    return f"{len(remaining)} suspects still fit all the readings."


def _drawn(job: Garage, off: list[float]) -> str:
    """Return the drawing in words."""
    rows = [f"{_words(name)} {far:.1f}" for name, far in zip(job.table.suspects, off, strict=True)]
    return (
        "A bar for each suspect shows by how many uncertainties its readings are off: "
        f"{', '.join(rows)}. Beyond {APART:g} a suspect is ruled out."
    )


def _words(name: str) -> str:
    return name.replace("-", " ")
