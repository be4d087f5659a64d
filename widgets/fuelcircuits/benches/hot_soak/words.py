"""What the hot-soak bench says: readings, moments, verdict, and its pictures in words."""

from collections.abc import Iterator

from fuelcircuits.benches.frame.measure import (
    MINUTES,
    RATIO,
    SECONDS,
    SMALL_MASS,
    TEMPERATURE,
    System,
)
from fuelcircuits.benches.frame.shown import no_gauges as gauges
from fuelcircuits.benches.frame.state import Moment, Reading
from fuelcircuits.benches.hot_soak.found import Found, Soaked

__all__ = ["HARD", "alarm", "drawn", "gauges", "moments", "plotted", "readings", "verdict"]

HARD = 4.0
"""Cranking time from which an owner complains [s] (common practice, no source)."""
AT_ONCE = 2.0
"""Cranking time up to which nobody minds [s] (common practice, no source)."""
VENTED = {
    "inside": "Only the inside vent is open, and all vapour goes into the bore.",
    "outside": "Vapour goes by the inside vent into the bore, and by the outside vent, as far as "
    "it is lifted, to the air outside.",
    "canister": "The two-way valve has shut the inside vent, and vapour goes to the canister.",
}


LINES = {
    "Cranking to start now": SECONDS,
    "Fuel in the bore": SMALL_MASS,
    "Fuel over stoichiometric": RATIO,
    "Fuel in the bowl": TEMPERATURE,
    "Block and coolant": TEMPERATURE,
    "Fuel left in the bowl": SMALL_MASS,
    "Vapour in the canister": SMALL_MASS,
    "Gone outside": SMALL_MASS,
}
"""The lines of the table, with what each is measured in."""


def readings(soaked: Soaked, found: Found | None) -> tuple[Reading, ...]:
    """Return the table, each line in time; before starts are marched, without them."""
    told = {
        "Fuel in the bore": soaked.intake,
        "Fuel in the bowl": soaked.bowl,
        "Block and coolant": soaked.block,
        "Fuel left in the bowl": soaked.left,
        "Vapour in the canister": soaked.stored,
        "Gone outside": soaked.gone,
    }
    if found is not None:
        told |= {
            "Cranking to start now": found.cranking,
            "Fuel over stoichiometric": found.equivalence,
        }
    return tuple(Reading(label, told.get(label), each) for label, each in LINES.items())


def moments(soaked: Soaked, found: Found | None) -> tuple[Moment, ...]:
    """Return what happens when, each sentence at its time."""
    told = sorted(_moments(soaked, found), key=lambda each: each.time)
    return (Moment(0.0, "The engine has just stopped, and heat creeps up."), *told)


def _moments(soaked: Soaked, found: Found | None) -> Iterator[Moment]:
    times, boiling = soaked.times, [n for n, boils in enumerate(soaked.boils) if boils]
    hard, hot = found and _highest(found.cranking), _highest(soaked.bowl)
    if boiling:
        yield Moment(times[max(boiling[0], 1)], "The fuel in the bowl boils.")
        if boiling[-1] + 1 < len(times):
            yield Moment(times[boiling[-1] + 1], "The boiling has died down.")
    if hard and hard != hot:
        yield Moment(times[hard], "Now a start is hardest.")
    if hot > 0:
        yield Moment(times[hot], "The bowl is at its hottest and cools from here on.")


def _highest(row: list[float]) -> int:
    """Return the place of the highest, the first of equals."""
    return row.index(max(row))


def alarm(found: Found) -> bool:
    """Return whether a start within the hour is hard."""
    return max(found.cranking) > HARD


def verdict(found: Found, system: System) -> str:
    """Return in one sentence what the soak does to the next start."""
    soaked, worst = found.soaked, _highest(found.cranking)
    cranking, gone = found.cranking[worst], SMALL_MASS.text(soaked.gone[-1], system)
    if cranking < AT_ONCE:
        longest = SECONDS.text(cranking, system)
        return f"The engine starts within {longest} all the hour; {gone} of fuel is gone outside."
    return (
        f"The start is hardest {MINUTES.text(soaked.times[worst], system)} after the stop, "
        f"with {SECONDS.text(cranking, system)} of cranking and "
        f"{SMALL_MASS.text(soaked.intake[worst], system)} of fuel in the bore; "
        f"in all {gone} is gone outside."
    )


def drawn(soaked: Soaked, _found: Found | None, system: System) -> str:
    """Return the drawing in words."""
    puddle, hottest = max(soaked.intake), max(soaked.bowl)
    return (
        "Section of bowl and bore on a hot engine that has stopped. Heat rises from the block "
        "through the flange into the bowl; two thermometers stand at bowl and block. Bubbles "
        f"rise when the fuel boils. {VENTED[soaked.kind]} What gets into the bore lies as a puddle "
        f"on the floor of the manifold: at most {SMALL_MASS.text(puddle, system)} "
        f"in this hour, while the bowl gets as hot as {TEMPERATURE.text(hottest, system)}. "
        "Short dashes are fuel vapour."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    soaked = found.soaked
    return (
        "Three plots over an hour. Above, temperature: the block cools slowly, and the bowl climbs "
        f"from {TEMPERATURE.text(soaked.bowl[0], system)} to "
        f"{TEMPERATURE.text(max(soaked.bowl), system)}. In the middle, fuel: in the bore up "
        f"to {SMALL_MASS.text(max(soaked.intake), system)}, drying off later; gone outside "
        f"{SMALL_MASS.text(soaked.gone[-1], system)}; in the canister "
        f"{SMALL_MASS.text(soaked.stored[-1], system)}. Below, cranking time for a start at "
        f"that minute, at most {SECONDS.text(max(found.cranking), system)}."
    )
