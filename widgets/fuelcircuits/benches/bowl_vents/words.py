"""What the vents bench says: its readings, its verdict, and its pictures in words."""

from collections.abc import Mapping

from fuelcircuits.benches.bowl_vents.found import Found
from fuelcircuits.benches.frame.measure import (
    AIR_FUEL_RATIO,
    LENGTH,
    RATIO,
    SMALL_PRESSURE,
    System,
    measure,
)
from fuelcircuits.benches.frame.shown import no_gauges as gauges
from fuelcircuits.benches.frame.state import Reading

__all__ = [
    "FELT",
    "RUNNING",
    "VENT_FLOW",
    "alarm",
    "drawn",
    "gauges",
    "plotted",
    "readings",
    "verdict",
]

RUNNING: Mapping[str, str] = {"idle": "at idle", "cruise": "cruising", "full": "at full load"}
"""Words for the ways of running, as the choice shows them."""
VENT_FLOW = measure("kg/s", ("mg/s", 0), ("lb/hour", 2))
FELT = 0.04
"""Change of the mixture that a driver feels [1] (common practice, no source)."""
WAYS = ("above", "below")


def readings(found: Found) -> tuple[Reading, ...]:
    """Return the table."""
    inward = found.inward
    return (
        Reading("Bowl against outside", found.bowl, SMALL_PRESSURE, ways=WAYS),
        Reading("Lambda", found.mixture, RATIO),
        Reading("Air-fuel ratio", found.ratio, AIR_FUEL_RATIO),
        Reading("Air horn against outside", found.horn, SMALL_PRESSURE, ways=WAYS),
        Reading("Outside vent lift", found.lift, LENGTH),
        Reading("In by inside vent", inward.inside, VENT_FLOW),
        Reading("In by outside vent", inward.outside, VENT_FLOW),
        Reading("In by hose and gasket", inward.canister + inward.gasket, VENT_FLOW),
        Reading("Vapour made", found.vapour, VENT_FLOW),
    )


def alarm(found: Found) -> bool:
    """Return whether a driver feels what the vents do to the mixture."""
    return abs(found.richer) > FELT


def verdict(found: Found, system: System) -> str:
    """Return in one sentence what the vents do to the mixture."""
    share, mixture = found.richer, found.mixture
    where = f"{RUNNING[found.way].capitalize()}, the bowl stands {_against(found.bowl, system)}"
    stands = f"{where} the pressure outside, and lambda is {RATIO.text(mixture, system)}"
    if not found.fires:
        return f"{stands}: {'too lean to fire' if mixture > 1 else 'the engine floods'}."
    if abs(share) > FELT:
        way = "richer" if share > 0 else "leaner"
        return f"{stands}: {100 * abs(share):.0f} % {way} than the card's."
    return f"{stands}: within {100 * FELT:.0f} % of the card's."


def _against(gauge: float, system: System) -> str:
    return f"{SMALL_PRESSURE.text(abs(gauge), system)} {WAYS[0] if gauge > 0 else WAYS[1]}"


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    pull, lift = 100 * found.pull, LENGTH.text(found.lift, system)
    return (
        "Section through air cleaner, one bore and the float bowl beside it. A passage in the "
        "cover, the inside vent, joins the bowl to the air horn; a valve on a solenoid shuts "
        "either this passage or a hose to a charcoal canister, and is "
        f"{pull:.0f} % pulled over to the hose. A cap above the cover, the outside vent, is "
        f"lifted {lift} by the throttle linkage. Dotted lines are air, "
        "dashes are fuel. Two columns show pressure: "
        f"the air horn {_against(found.horn, system)} and the bowl {_against(found.bowl, system)} "
        "the pressure outside."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    return (
        "Two plots against bowl pressure less that outside. Above, lambda: the higher the bowl "
        f"pressure, the richer. Upright lines mark the pressure outside and, "
        f"{_against(found.horn, system)} it, the air horn. The dot is the state now: bowl "
        f"{_against(found.bowl, system)} outside, lambda "
        f"{RATIO.text(found.mixture, system)}; the card's vents give "
        f"{RATIO.text(found.card, system)}. Below, the gas that the bowl gains at each pressure: "
        "it falls through nought where the bowl settles. Vapour makes up "
        f"{VENT_FLOW.text(found.vapour, system)} of it."
    )
