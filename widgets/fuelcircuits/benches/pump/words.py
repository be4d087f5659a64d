"""What the pump bench says: readings, verdict, moments, and its pictures in words."""

from fuelcircuits.benches.frame.measure import (
    ANGLE,
    FLOW,
    LENGTH,
    PRESSURE,
    RATIO,
    SHARE,
    SMALL_LENGTH,
    VOLUME,
    System,
    measure,
)
from fuelcircuits.benches.frame.state import Moment, Reading
from fuelcircuits.benches.pump.found import BEGIN, END, Found

__all__ = [
    "CHOKES",
    "STUMBLES",
    "bogs",
    "drawn",
    "moments",
    "plotted",
    "readings",
    "stumbles",
    "verdict",
]

STUMBLES, CHOKES = 1.15, 0.6
"""Lambda beyond which the engine stumbles, and below which it bogs (common practice, no source)."""
FILM = measure("kg", ("g", 2), ("oz", 3))


def stumbles(found: Found) -> bool:
    """Return whether the tip-in goes too lean."""
    return max(found.helped.mixture) > STUMBLES


def bogs(found: Found) -> bool:
    """Return whether it goes too rich."""
    return min(found.helped.mixture) < CHOKES


def readings(found: Found) -> tuple[Reading, ...]:
    """Return the table."""
    return (
        Reading("Lambda, with the shot", found.helped.mixture, RATIO),
        Reading("Lambda, without it", found.bare.mixture, RATIO),
        Reading("Manifold vacuum", found.vacuum, PRESSURE),
        Reading("Fuel that lands on the wall", found.lands, SHARE),
        Reading("Fuel on the wall", found.helped.film, FILM),
        Reading("Cycles that fire", found.helped.fires, SHARE),
        Reading("Pump flow", found.shot, FLOW),
        Reading("Shot so far", found.delivered, VOLUME),
        Reading("Plunger down", found.plunger, LENGTH),
        Reading("Spring squeezed by", found.squeezed, LENGTH),
        Reading("Throttle angle", found.throttle, ANGLE),
    )


def verdict(found: Found) -> str:
    """Return in one sentence how the tip-in ends."""
    best, bare = (RATIO.text(max(each.mixture), "SI") for each in (found.helped, found.bare))
    if bogs(found):
        least = RATIO.text(min(found.helped.mixture), "SI")
        return f"The engine bogs: the shot is too large and lambda falls to {least}."
    if not found.given:
        end = ", and the engine stumbles." if stumbles(found) else "."
        return f"No shot: lambda rises to {best} as the throttle opens{end}"
    if stumbles(found):
        return f"The engine stumbles: with the shot lambda still rises to {best}."
    return f"The shot covers the tip-in: lambda peaks at {best}, without it at {bare}."


def moments(found: Found) -> tuple[Moment, ...]:
    """Return what happens when."""
    told = (
        Moment(0.0, "The throttle stands nearly shut."),
        Moment(BEGIN, "The throttle opens; part of the fuel wets the wall."),
        Moment(found.still, "The throttle stands; the spring still pushes."),
    )
    return told if found.over is None else (*told, Moment(found.over, "The shot is over."))


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    return (
        "Section through the accelerator pump, the bowl and one barrel. The throttle's lever moves "
        "the pump rod down; its collar squeezes the duration spring, and the spring pushes the "
        "plunger. Fuel lifts the discharge check and leaves by the pump jet, bore "
        f"{SMALL_LENGTH.text(found.sizes.jet, system)}, into the barrel; the inlet check keeps it "
        f"from the bowl. In this run the rod goes {LENGTH.text(found.rod[-1], system)} down and "
        f"{VOLUME.text(found.delivered[-1], system)} leaves the jets. On the manifold's wall "
        "lies a film of fuel, which grows."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    best, bare = (RATIO.text(max(each.mixture), system) for each in (found.helped, found.bare))
    return (
        f"Two plots against time, {END:g} s long; the throttle begins to open at {BEGIN:g} s. "
        f"Above, lambda at the cylinders: it peaks at {best} with the shot and at {bare} without. "
        "Below, fuel flows: the circuits rise with the throttle, the pump gives up to "
        f"{FLOW.text(max(found.shot), system)} and dies away, and what reaches the cylinders lags "
        "behind both."
    )
