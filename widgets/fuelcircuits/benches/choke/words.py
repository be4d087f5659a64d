"""What the choke bench says: readings, verdict, moments, and its pictures in words."""

from itertools import pairwise

from fuelcircuits.benches.choke.found import Found, Warming
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    LENGTH,
    MINUTES,
    RATIO,
    SHARE,
    TEMPERATURE,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.shown import no_gauges as gauges
from fuelcircuits.benches.frame.state import AWAITED, Moment, Reading

__all__ = ["alarm", "drawn", "floods", "gauges", "moments", "plotted", "readings", "verdict"]

LINES = {
    "Choke plate": ANGLE,
    "Lambda delivered": RATIO,
    "Lambda that can burn": RATIO,
    "Fuel that burns in time": SHARE,
    "Coil": TEMPERATURE,
    "Coolant": TEMPERATURE,
    "Throttle opened by cam": ANGLE,
    "Manifold vacuum": VACUUM,
}
"""The lines of the table, with what each is measured in."""
FLOODS = 0.3
"""Lambda below which plugs get wet (common practice)."""


def floods(found: Found) -> bool:
    """Return whether the engine is flooded as it starts."""
    return found.mixture[0] < FLOODS


def readings(warming: Warming, found: Found | None) -> tuple[Reading, ...]:
    """Return the table; before the run is marched, only what coil and coolant do."""
    told: dict[str, list[float]] = {"Coil": warming.coil, "Coolant": warming.coolant}
    if found is not None:
        told |= {
            "Choke plate": found.plate,
            "Lambda delivered": found.mixture,
            "Lambda that can burn": found.burns,
            "Fuel that burns in time": found.share,
            "Throttle opened by cam": found.cam,
            "Manifold vacuum": found.vacuum,
        }
    return tuple(Reading(label, told.get(label), each) for label, each in LINES.items())


def alarm(found: Found) -> bool:
    """Return whether the engine floods or its choke stays shut."""
    return floods(found) or found.opens is None


def verdict(found: Found, system: System) -> str:
    """Return in one sentence how the warm-up goes."""
    start = RATIO.text(found.mixture[0], system)
    if floods(found):
        return f"The engine floods: nothing pulls the plate off, and lambda starts at {start}."
    if found.opens is None:
        left = ANGLE.text(found.plate[-1], system)
        return f"The choke does not open: after 8 min the plate stands at {left}, still rich."
    when = MINUTES.text(found.opens, system)
    return f"The engine starts at lambda {start}, and the choke is open after {when}."


def moments(_warming: Warming, found: Found | None) -> tuple[Moment, ...]:
    """Return what happens when; before the run is marched, only how it begins."""
    told = [Moment(0.0, "The engine fires; vacuum pulls the plate off.")]
    if found is None:
        return tuple(told)
    for at, (before, now) in enumerate(pairwise(found.cam), 1):
        if now < before - 1e-6:
            gone = now < 1e-6
            word = "The cam lets go; the choke is open." if gone else f"Cam step {len(told) + 1}."
            told.append(Moment(found.warming.times[at], word))
    if found.opens is not None and found.opens > told[-1].time:
        told.append(Moment(found.opens, "The choke is open."))
    return tuple(told)


def drawn(warming: Warming, found: Found | None, system: System) -> str:
    """Return the drawing in words; the plate's angles only once the run is marched."""
    first, last = (
        AWAITED if found is None else ANGLE.text(found.plate[at], system) for at in (0, -1)
    )
    return (
        "Section through the air horn. The choke plate turns on a shaft "
        f"{LENGTH.text(warming.sizes.offset, system)} off its middle, so the air pushes the "
        "larger wing down and open. On the same shaft sits the coil of two metals, which shuts the "
        "plate when cold. The pull-off diaphragm opens it a little as soon as there is vacuum, and "
        f"the steps of the fast-idle cam hold the throttle open. The plate stands at {first} just "
        f"after the start and at {last} after 8 min."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    ends = [RATIO.text(found.mixture[place], system) for place in (0, -1)]
    coils = [TEMPERATURE.text(found.warming.coil[place], system) for place in (0, -1)]
    opens = found.opens
    wide = "never opens" if opens is None else f"is open after {MINUTES.text(opens, system)}"
    return (
        f"Two plots against time, 8 min long. Above, the plate's angle: the choke {wide}, while "
        f"the coil warms from {coils[0]} to {coils[1]}; a dashed line shows where the coil alone "
        f"would hold the plate. Below, lambda: the carburettor delivers {ends[0]} at the start "
        f"and {ends[1]} at the end; less of the fuel evaporates while the engine is cold, so the "
        "mixture that can burn is leaner."
    )
