"""What the high-speed bench says: its verdict, its drawing and its plot in words."""

import numpy as np

from fuelcircuits.benches.carburettor.mixture_curve import fuel_density, shares
from fuelcircuits.benches.frame.measure import (
    AIR_FLOW,
    ANGLE,
    LENGTH,
    RATIO,
    SHARE,
    SMALL_MASS,
    SMALL_PRESSURE,
    System,
)
from fuelcircuits.physics.circuits.high_speed import level_drop
from fuelcircuits.physics.circuits.nozzle_slope import drip_angle, run_out, starting_depression
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State

__all__ = ["drawn", "plotted", "verdict"]

CIRCUITS = {
    "idle": "the idle screw",
    "transfer": "the transfer slot",
    "main": "the main nozzle",
    "power": "the power rod",
}


def verdict(rig: Rig, now: State, clear: int, bled: bool, alarm: bool) -> str:
    """Return in one sentence what the circuit does."""
    parts, mixture = shares(now), RATIO.text(float(now.mixture), "SI")
    most = max(parts, key=lambda name: float(parts[name]))
    share = SHARE.text(float(parts[most] / now.fuel_flow), "SI")
    if alarm and now.mixture > 1:
        return f"Too lean at lambda {mixture}: the engine hesitates and surges here."
    if alarm:
        return f"Too rich at lambda {mixture}: the exhaust smokes black and fuel is wasted."
    holes = f", and {clear} of {int(rig.high_speed.hole_count)} bleed holes stand clear"
    start = "The main nozzle is silent; " if parts["main"] < 1e-3 * now.fuel_flow else ""
    said = f"{start}{CIRCUITS[most]} gives {share} of the fuel, lambda is {mixture}"
    return f"{said[0].upper()}{said[1:]}{holes if bled else ''}."


def drawn(rig: Rig, now: State, system: System, *, clear: int, bled: bool, slope: str) -> str:
    """Return the drawing in words."""
    p, high = now.pressures, rig.high_speed
    fallen = float(level_drop(p.tube[0], p.well[0], fuel_density()))
    fallen = min(max(fallen, 0.0), float(high.well_depth))
    well = (
        "A tube hangs in the well; the main air bleed lets air into it from the air horn, and "
        f"{clear} of its {int(high.hole_count)} holes let that air into the fuel. The fuel in "
        f"the tube stands {LENGTH.text(fallen, system)} below the set level."
        if bled
        else "The well holds fuel alone: no tube and no air bleed."
    )
    flows = "sprays fuel" if now.flows.nozzle.fuel[0] > 1e-7 else "gives no fuel"
    return (
        "Section through one barrel. Fuel leaves the bowl by the main jet, past the metering rod, "
        f"and stands in the main well. {well} {_nozzle(rig, slope, system)} The "
        f"nozzle {flows} now. The throttle plate stands at "
        f"{np.degrees(float(now.throttle_angle)):.0f} degrees."
    )


def _nozzle(rig: Rig, slope: str, system: System) -> str:
    """Return the nozzle in words: where its lip is, and when fuel passes that."""
    high, density = rig.high_speed, fuel_density()
    lip = f"its lip, {LENGTH.text(float(high.lip), system)} above the set level,"
    steep = ANGLE.text(drip_angle(high, slope), system)
    left = SMALL_MASS.text(run_out(high, slope, density), system)
    way = (
        f"The nozzle slopes up from the well to {lip} at its mouth in the throat of the booster; "
        "what has not passed the lip falls back into the well."
        if slope == "up"
        else f"The nozzle slopes down from the well to the throat of the booster. It has {lip} at "
        f"its inner end; what is past the lip runs out, at most {left} after the stop."
    )
    start = SMALL_PRESSURE.text(starting_depression(high, density), system)
    return (
        f"{way} Fuel passes the lip from a depression of {start} on, or when the car is parked "
        f"barrel low at {steep}: a slanting line shows the level of the fuel then."
    )


def plotted(along: State, bare: State, now: State, system: System) -> str:
    """Return the plot in words."""
    ends = [RATIO.text(float(each.mixture[-1]), system) for each in (along, bare)]
    main = shares(along)["main"] > 0.01 * along.fuel_flow
    first = float(along.air_flow[int(np.argmax(main))])
    return (
        "Two plots against air flow. Above, lambda: the curve of this well ends at "
        f"{ends[0]} with the throttle wide open, that of a plain nozzle with the same jet at "
        f"{ends[1]}. The dot is the state now, lambda {RATIO.text(float(now.mixture), system)} at "
        f"{AIR_FLOW.text(float(now.air_flow), system)}. Below, the fuel by circuit: idle and "
        f"transfer first; the main nozzle joins at about {AIR_FLOW.text(first, system)}, and the "
        "metering rods add theirs near wide open."
    )
