"""What the vents bench says: its readings, its verdict, and its pictures in words."""

from typing import TYPE_CHECKING

from fuelcircuits.benches.carburettor.running import RUNNING, lambda_shown
from fuelcircuits.benches.frame.measure import (
    AIR_FUEL_RATIO,
    LENGTH,
    RATIO,
    SMALL_PRESSURE,
    System,
    measure,
)
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.physics.circuits.bowl_vents import outside_lift
from fuelcircuits.physics.motion.soak_run import LEANEST, RICHEST

if TYPE_CHECKING:
    from fuelcircuits.benches.bowl_vents.bench import Found

__all__ = ["FELT", "VENT_FLOW", "drawn", "far", "plotted", "readings", "verdict"]

VENT_FLOW = measure("kg/s", ("mg/s", 0), ("lb/hour", 2))
FELT = 0.04
"""Change of the mixture that a driver feels [1] (common practice, no source)."""
WAYS = ("above", "below")


def readings(found: "Found") -> tuple[Reading, ...]:
    """Return the table."""
    state, inward = found.state, found.inward
    lift = float(outside_lift(found.vents, state.throttle_angle))
    return (
        Reading("Bowl against outside", found.bowl, SMALL_PRESSURE, ways=WAYS),
        Reading("Lambda", lambda_shown(state), RATIO),
        Reading("Air-fuel ratio", float(state.ratio), AIR_FUEL_RATIO),
        Reading("Air horn against outside", found.horn, SMALL_PRESSURE, ways=WAYS),
        Reading("Outside vent lift", lift, LENGTH),
        Reading("In by inside vent", float(inward.inside), VENT_FLOW),
        Reading("In by outside vent", float(inward.outside), VENT_FLOW),
        Reading("In by hose and gasket", float(inward.canister + inward.gasket), VENT_FLOW),
        Reading("Vapour made", found.vapour, VENT_FLOW),
    )


def far(found: "Found") -> float:
    """Return how much richer than with the card's vents the mixture is [1]."""
    return found.card / lambda_shown(found.state) - 1


def verdict(found: "Found", system: System) -> str:
    """Return in one sentence what the vents do to the mixture."""
    share, mixture = far(found), lambda_shown(found.state)
    where = f"{RUNNING[found.way].capitalize()}, the bowl stands {_against(found.bowl, system)}"
    stands = f"{where} the pressure outside, and lambda is {RATIO.text(mixture, system)}"
    if mixture * RICHEST < 1:
        return f"{stands}: the engine floods."
    if mixture * LEANEST > 1:
        return f"{stands}: too lean to fire."
    if abs(share) > FELT:
        way = "richer" if share > 0 else "leaner"
        return f"{stands}: {100 * abs(share):.0f} % {way} than the card's."
    return f"{stands}: within {100 * FELT:.0f} % of the card's."


def _against(gauge: float, system: System) -> str:
    return f"{SMALL_PRESSURE.text(abs(gauge), system)} {WAYS[0] if gauge > 0 else WAYS[1]}"


def drawn(found: "Found", system: System) -> str:
    """Return the drawing in words."""
    lift = float(outside_lift(found.vents, found.state.throttle_angle))
    pull = 100 * found.vents.solenoid_pull
    return (
        "Section through air cleaner, one bore and the float bowl beside it. A passage in the "
        "cover, the inside vent, joins the bowl to the air horn; a valve on a solenoid shuts "
        "either this passage or a hose to a charcoal canister, and is "
        f"{pull:.0f} % pulled over to the hose. A cap above the cover, the outside vent, is "
        f"lifted {LENGTH.text(lift, system)} by the throttle linkage. Dotted lines are air, "
        "dashes are fuel. Two columns show pressure: "
        f"the air horn {_against(found.horn, system)} and the bowl {_against(found.bowl, system)} "
        "the pressure outside."
    )


def plotted(found: "Found", system: System) -> str:
    """Return the plot in words."""
    return (
        "Two plots against bowl pressure less that outside. Above, lambda: the higher the bowl "
        f"pressure, the richer. Upright lines mark the pressure outside and, "
        f"{_against(found.horn, system)} it, the air horn. The dot is the state now: bowl "
        f"{_against(found.bowl, system)} outside, lambda "
        f"{RATIO.text(lambda_shown(found.state), system)}; the card's vents give "
        f"{RATIO.text(found.card, system)}. Below, the gas that the bowl gains at each pressure: "
        "it falls through nought where the bowl settles. Vapour makes up "
        f"{VENT_FLOW.text(found.vapour, system)} of it."
    )
