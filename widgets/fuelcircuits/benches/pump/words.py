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
from fuelcircuits.benches.frame.shown import no_gauges as gauges
from fuelcircuits.benches.frame.state import AWAITED, Moment, Reading
from fuelcircuits.benches.pump.found import BEGIN, END, Found, Move

__all__ = [
    "CHOKES",
    "STUMBLES",
    "alarm",
    "bogs",
    "drawn",
    "gauges",
    "moments",
    "plotted",
    "readings",
    "stumbles",
    "verdict",
]

STUMBLES, CHOKES = 1.15, 0.6
"""Lambda beyond which the engine stumbles, and below which it bogs (common practice, no source)."""
OPENS = "The throttle opens; part of the fuel wets the wall."
CLOSES = "The throttle closes; the wall gives fuel back."
FILM = measure("kg", ("g", 2), ("oz", 3))
LINES = {
    "Lambda, with the shot": RATIO,
    "Lambda, without it": RATIO,
    "Manifold vacuum": PRESSURE,
    "Fuel that lands on the wall": SHARE,
    "Fuel on the wall": FILM,
    "Cycles that fire": SHARE,
    "Pump flow": FLOW,
    "Shot so far": VOLUME,
    "Plunger down": LENGTH,
    "Spring squeezed by": LENGTH,
    "Throttle angle": ANGLE,
}
"""The lines of the table, with what each is measured in."""


def stumbles(found: Found) -> bool:
    """Return whether the tip-in goes too lean."""
    return max(found.helped.mixture) > STUMBLES


def bogs(found: Found) -> bool:
    """Return whether it goes too rich."""
    return min(found.helped.mixture) < CHOKES


def readings(move: Move, found: Found | None) -> tuple[Reading, ...]:
    """Return the table; before the run is marched, only what pedal and rod do."""
    told: dict[str, list[float]] = {"Throttle angle": move.throttle}
    if found is not None:
        told |= {
            "Lambda, with the shot": found.helped.mixture,
            "Lambda, without it": found.bare.mixture,
            "Manifold vacuum": found.vacuum,
            "Fuel that lands on the wall": found.lands,
            "Fuel on the wall": found.helped.film,
            "Cycles that fire": found.helped.fires,
            "Pump flow": found.shot,
            "Shot so far": found.delivered,
            "Plunger down": found.plunger,
            "Spring squeezed by": found.squeezed,
        }
    return tuple(Reading(label, told.get(label), each) for label, each in LINES.items())


def alarm(found: Found) -> bool:
    """Return whether the engine stumbles or bogs as the throttle opens."""
    return not found.move.closes and (stumbles(found) or bogs(found))


def verdict(found: Found, _system: System) -> str:
    """Return in one sentence how the tip-in ends."""
    if found.move.closes:
        last = RATIO.text(found.helped.mixture[-1], "SI")
        return f"The throttle closes, so no shot is wanted; lambda ends at {last}."
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


def moments(move: Move, found: Found | None) -> tuple[Moment, ...]:
    """Return what happens when; the shot's end only once the run is marched."""
    told = (
        Moment(0.0, "The throttle stands nearly shut."),
        Moment(BEGIN, CLOSES if move.closes else OPENS),
        Moment(move.still, "The throttle stands; the spring still pushes."),
    )
    over = found and found.over
    return told if over is None else (*told, Moment(over, "The shot is over."))


def drawn(move: Move, found: Found | None, system: System) -> str:
    """Return the drawing in words; the shot only once the run is marched."""
    leaves = AWAITED if found is None else VOLUME.text(found.delivered[-1], system)
    return (
        "Section through the accelerator pump, the bowl and one barrel. The throttle's lever moves "
        "the pump rod down; its collar squeezes the duration spring, and the spring pushes the "
        "plunger. Fuel lifts the discharge check and leaves by the pump jet, bore "
        f"{SMALL_LENGTH.text(move.sizes.jet, system)}, into the barrel; the inlet check keeps it "
        f"from the bowl. In this run the rod goes {LENGTH.text(move.rod[-1], system)} down and "
        f"{leaves} leaves the jets. On the manifold's wall lies a film of fuel, which grows."
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
