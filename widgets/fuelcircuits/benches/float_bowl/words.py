"""What the float bench says: readings, the verdict, and drawing and plot in words."""

from fuelcircuits.benches.float_bowl.found import Found
from fuelcircuits.benches.frame.measure import (
    DENSITY,
    FLOW,
    FORCE,
    LENGTH,
    SMALL_LENGTH,
    System,
)
from fuelcircuits.benches.frame.shown import no_gauges as gauges
from fuelcircuits.benches.frame.state import Reading

__all__ = ["alarm", "drawn", "gauges", "plotted", "readings", "verdict"]


def readings(found: Found) -> tuple[Reading, ...]:
    """Return the table, the level first."""
    now = found.settled
    return (
        Reading("Fuel below gasket face", found.below, LENGTH),
        Reading("Against the card's level", found.high, LENGTH, ways=("high", "low")),
        Reading("Float drop", now.drop, LENGTH),
        Reading("Needle lift", now.needle_lift, SMALL_LENGTH),
        Reading("Inlet flow", now.inlet_flow, FLOW),
        Reading("Most it can pass", found.most, FLOW),
        Reading("Force on the needle", now.needle_force, FORCE),
        Reading("Fuel density", found.density, DENSITY),
    )


def alarm(found: Found) -> bool:
    """Return whether the bowl starves or floods."""
    return found.settled.starved or found.settled.flooded


def verdict(found: Found, system: System) -> str:
    """Return in one sentence what the bowl does."""
    now, flow = found.settled, FLOW.text(found.settled.inlet_flow, system)
    if now.starved:
        return (
            f"The bowl starves: the engine draws {FLOW.text(found.demand, system)}, and with the "
            f"float fully dropped the inlet passes only {FLOW.text(found.most, system)}. "
            "It runs empty."
        )
    if now.flooded:
        return (
            f"The bowl floods: the float cannot push the needle shut, {flow} comes in, "
            "and fuel runs over the brim."
        )
    where = f"{_against_card(found, system)} the card's"
    if now.inlet_flow <= 0:
        return f"The needle is shut, and the bowl holds its level {where}."
    return f"The bowl holds its level {where}; the inlet passes the {flow} that the engine draws."


def _against_card(found: Found, system: System) -> str:
    return f"{LENGTH.text(abs(found.high), system)} {'above' if found.high > 0 else 'below'}"


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    lift = SMALL_LENGTH.text(found.settled.needle_lift, system)
    return (
        "Section through the float bowl. Fuel comes from the pump through the cover and down past "
        "needle and seat; a twin float on a lever, hinged at the fulcrum beside the needle, pushes "
        f"the needle up. The fuel stands {LENGTH.text(found.below, system)} below the gasket face; "
        f"the float hangs {LENGTH.text(found.settled.drop, system)} below its shut position and "
        f"the needle is {lift} off its seat. A dashed line marks the level on the card."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    now = found.settled
    return (
        "Two plots against float drop. Above, inlet flow: it rises from nought with the needle "
        f"shut to {FLOW.text(found.most, system)} at the drop stop, "
        f"{LENGTH.text(found.parts.drop_stop, system)} down; beyond that the bowl starves. A level "
        f"line marks the {FLOW.text(found.demand, system)} that the engine draws; the dot is the "
        f"state now, {FLOW.text(now.inlet_flow, system)} at a drop of "
        f"{LENGTH.text(now.drop, system)}. Below, the fuel level that holds the float there: now "
        f"{_against_card(found, system)} the card's."
    )
