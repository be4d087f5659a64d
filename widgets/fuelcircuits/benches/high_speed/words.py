"""What the high-speed bench says: its verdict, its drawing and its plot in words."""

from math import degrees

from fuelcircuits.benches.frame.measure import (
    AIR_FLOW,
    ANGLE,
    FLOW,
    LENGTH,
    RATIO,
    SHARE,
    SMALL_MASS,
    SMALL_PRESSURE,
    System,
)
from fuelcircuits.benches.frame.shown import no_gauges as gauges
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.benches.high_speed.found import Found

__all__ = ["LEANEST", "alarm", "drawn", "gauges", "plotted", "readings", "verdict"]

LEANEST, RICHEST = 1.15, 0.72
"""Lambda beyond which an engine hesitates, and below which it smokes (common practice)."""
SILENT, RUNS = 1e-3, 1e-7
"""Share of the fuel below which a nozzle is called silent [1], and flow from which it sprays."""
CIRCUITS = {
    "idle": "the idle screw",
    "transfer": "the transfer slot",
    "main": "the main nozzle",
    "power": "the power rod",
}


def readings(found: Found) -> tuple[Reading, ...]:
    """Return the table."""
    shares = found.shares
    return (
        Reading("Mixture (lambda)", found.mixture, RATIO),
        Reading("Main nozzle's share", shares["main"], SHARE),
        Reading("Power rod's share", shares["power"], SHARE),
        Reading("Transfer slot's share", shares["transfer"], SHARE),
        Reading("Idle screw's share", shares["idle"], SHARE),
        Reading("Fuel, all barrels", found.fuel, FLOW),
        Reading("Booster depression", found.booster, SMALL_PRESSURE),
        Reading("Level in bleed tube, down", _tube_level(found), LENGTH),
        Reading("Depression to start", found.start, SMALL_PRESSURE),
        Reading("Drips when parked at", found.drip, ANGLE),
    )


def _tube_level(found: Found) -> float:
    """Return how far down the fuel in the tube stands, which ends at the well's floor [m]."""
    return min(max(found.well.tube_level, 0.0), found.well.depth)


def alarm(found: Found) -> bool:
    """Return whether the engine runs badly on this mixture."""
    return not RICHEST <= found.mixture <= LEANEST


def verdict(found: Found, _system: System) -> str:
    """Return in one sentence what the circuit does."""
    shares, mixture = found.shares, RATIO.text(found.mixture, "SI")
    if alarm(found) and found.mixture > 1:
        return f"Too lean at lambda {mixture}: the engine hesitates and surges here."
    if alarm(found):
        return f"Too rich at lambda {mixture}: the exhaust smokes black and fuel is wasted."
    most = max(shares, key=lambda name: shares[name])
    start = "The main nozzle is silent; " if shares["main"] < SILENT else ""
    share = SHARE.text(shares[most], "SI")
    said = f"{start}{CIRCUITS[most]} gives {share} of the fuel, lambda is {mixture}"
    holes = f", and {found.clear} of {len(found.well.holes)} bleed holes stand clear"
    return f"{said[0].upper()}{said[1:]}{holes if found.bled else ''}."


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    flows = "sprays fuel" if found.streams.spray > RUNS else "gives no fuel"
    return (
        "Section through one barrel. Fuel leaves the bowl by the main jet, past the metering rod, "
        f"and stands in the main well. {_well(found, system)} {_nozzle(found, system)} The "
        f"nozzle {flows} now. The throttle plate stands at "
        f"{degrees(found.throttle):.0f} degrees."
    )


def _well(found: Found, system: System) -> str:
    """Return the well in words: its tube, and the holes that stand clear."""
    if not found.bled:
        return "The well holds fuel alone: no tube and no air bleed."
    return (
        "A tube hangs in the well; the main air bleed lets air into it from the air horn, and "
        f"{found.clear} of its {len(found.well.holes)} holes let that air into the fuel. The fuel "
        f"in the tube stands {LENGTH.text(_tube_level(found), system)} below the set level."
    )


def _nozzle(found: Found, system: System) -> str:
    """Return the nozzle in words: where its lip is, and when fuel passes that."""
    lip = f"its lip, {LENGTH.text(found.well.lip, system)} above the set level,"
    left = SMALL_MASS.text(found.left, system)
    way = (
        f"The nozzle slopes up from the well to {lip} at its mouth in the throat of the booster; "
        "what has not passed the lip falls back into the well."
        if found.slope == "up"
        else f"The nozzle slopes down from the well to the throat of the booster. It has {lip} at "
        f"its inner end; what is past the lip runs out, at most {left} after the stop."
    )
    return (
        f"{way} Fuel passes the lip from a depression of "
        f"{SMALL_PRESSURE.text(found.start, system)} on, or when the car is parked "
        f"barrel low at {ANGLE.text(found.drip, system)}: a slanting line shows the level of the "
        "fuel then."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words; where its curves end is told once they are there."""
    ends, told, joins = found.ends, "", ""
    if ends:
        told = (
            f": the curve of this well ends at {RATIO.text(ends.mixture, system)} with the "
            "throttle wide open, that of a plain nozzle with the same jet at "
            f"{RATIO.text(ends.plain, system)}"
        )
        joins = f" at about {AIR_FLOW.text(ends.joins, system)}"
    return (
        f"Two plots against air flow. Above, lambda{told}. The dot is the state now, lambda "
        f"{RATIO.text(found.mixture, system)} at {AIR_FLOW.text(found.streams.air, system)}. "
        "Below, the fuel by circuit: idle and transfer first; the main nozzle joins"
        f"{joins}, and the metering rods add theirs near wide open."
    )
