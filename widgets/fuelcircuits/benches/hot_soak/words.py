"""What the hot-soak bench says: readings, moments, verdict, and its pictures in words."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from fuelcircuits.benches.frame.measure import (
    MINUTES,
    RATIO,
    SECONDS,
    SMALL_MASS,
    TEMPERATURE,
    System,
)
from fuelcircuits.benches.frame.state import Moment, Reading

if TYPE_CHECKING:
    from fuelcircuits.benches.hot_soak.bench import Soak

__all__ = ["BOILS", "drawn", "moments", "plotted", "readings", "verdict"]

BOILS = 2e-6
"""Vapour made above which the bowl is said to boil [kg/s]; spreading alone makes less."""
VENTED = {
    "inside": "Only the inside vent is open, and all vapour goes into the bore.",
    "outside": "Vapour goes by the inside vent into the bore, and by the outside vent, as far as "
    "it is lifted, to the air outside.",
    "canister": "The two-way valve has shut the inside vent, and vapour goes to the canister.",
}


def readings(soak: "Soak") -> tuple[Reading, ...]:
    """Return the table, each line in time."""
    run = soak.run
    return (
        Reading("Cranking to start now", soak.start.cranking, SECONDS),
        Reading("Fuel in the bore", run.intake, SMALL_MASS),
        Reading("Fuel over stoichiometric", soak.start.equivalence, RATIO),
        Reading("Fuel in the bowl", run.bowl, TEMPERATURE),
        Reading("Block and coolant", run.block, TEMPERATURE),
        Reading("Fuel left in the bowl", run.fuel_left, SMALL_MASS),
        Reading("Vapour in the canister", run.stored, SMALL_MASS),
        Reading("Gone outside", run.outside + run.lost, SMALL_MASS),
    )


def moments(soak: "Soak") -> tuple[Moment, ...]:
    """Return what happens when, each sentence at its time."""
    found = sorted(_moments(soak), key=lambda each: each.time)
    return (Moment(0.0, "The engine has just stopped, and heat creeps up."), *found)


def _moments(soak: "Soak") -> Iterator[Moment]:
    run = soak.run
    boiling = np.flatnonzero(run.vapour > BOILS)
    hard, hot = int(np.argmax(soak.start.cranking)), int(np.argmax(run.bowl))
    if boiling.size:
        yield Moment(float(run.times[max(boiling[0], 1)]), "The fuel in the bowl boils.")
        if boiling[-1] + 1 < run.times.size:
            yield Moment(float(run.times[boiling[-1] + 1]), "The boiling has died down.")
    if 0 < hard != hot:
        yield Moment(float(run.times[hard]), "Now a start is hardest.")
    if hot > 0:
        yield Moment(float(run.times[hot]), "The bowl is at its hottest and cools from here on.")


def verdict(soak: "Soak", system: System) -> str:
    """Return in one sentence what the soak does to the next start."""
    run, cranking = soak.run, soak.start.cranking
    worst = int(np.argmax(cranking))
    gone = SMALL_MASS.text(float(run.outside[-1] + run.lost[-1]), system)
    if cranking[worst] < 1.05 * cranking[0]:
        return f"The engine starts at once all the hour; {gone} of fuel is gone outside."
    return (
        f"The start is hardest {MINUTES.text(float(run.times[worst]), system)} after the stop, "
        f"with {SECONDS.text(float(cranking[worst]), system)} of cranking and "
        f"{SMALL_MASS.text(float(run.intake[worst]), system)} of fuel in the bore; "
        f"in all {gone} is gone outside."
    )


def drawn(soak: "Soak", system: System) -> str:
    """Return the drawing in words."""
    run = soak.run
    return (
        "Section of bowl and bore on a hot engine that has stopped. Heat rises from the block "
        "through the flange into the bowl; two thermometers stand at bowl and block. Bubbles "
        f"rise when the fuel boils. {VENTED[soak.kind]} What gets into the bore lies as a puddle "
        f"on the floor of the manifold: at most {SMALL_MASS.text(float(run.intake.max()), system)} "
        f"in this hour, while the bowl gets as hot as {TEMPERATURE.text(run.bowl.max(), system)}. "
        "Short dashes are fuel vapour."
    )


def plotted(soak: "Soak", system: System) -> str:
    """Return the plot in words."""
    run, cranking = soak.run, soak.start.cranking
    return (
        "Three plots over an hour. Above, temperature: the block cools slowly, and the bowl climbs "
        f"from {TEMPERATURE.text(float(run.bowl[0]), system)} to "
        f"{TEMPERATURE.text(float(run.bowl.max()), system)}. In the middle, fuel: in the bore up "
        f"to {SMALL_MASS.text(float(run.intake.max()), system)}, drying off later; gone outside "
        f"{SMALL_MASS.text(float(run.outside[-1] + run.lost[-1]), system)}; in the canister "
        f"{SMALL_MASS.text(float(run.stored[-1]), system)}. Below, cranking time for a start at "
        f"that minute, at most {SECONDS.text(float(cranking.max()), system)}."
    )
