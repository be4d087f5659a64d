"""What the idle-port bench says: readings, gauges, verdict, and its pictures in words."""

from fuelcircuits.benches.carburettor.idle_measures import CHAMBER, INCH, WATER
from fuelcircuits.benches.carburettor.running import lambda_shown
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    AREA,
    FLOW,
    RATIO,
    SHARE,
    SPEED,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State

__all__ = ["LEANEST", "drawn", "gauges", "plotted", "readings", "verdict"]

LEANEST = 1.15
"""Lambda above which an engine under light load stumbles [1] (common practice, no source)."""


def readings(now: State) -> tuple[Reading, ...]:
    """Return the table."""
    by = now.fuel_by_circuit
    return (
        Reading("Lambda", lambda_shown(now), RATIO),
        Reading("Slot below the edge", float(now.slot_below[0]), AREA),
        Reading("Slot above the edge", float(now.slot_above[0]), AREA),
        Reading("Chamber vacuum", float(now.chamber_vacuum[0]), CHAMBER),
        Reading("Bleed valve lifted", float(now.valve_lift[0]), SHARE),
        Reading("Fuel by the slot", float(by["slot"]), FLOW),
        Reading("Fuel by the screw", float(by["screw"]), FLOW),
        Reading("Fuel by the main nozzle", float(by["nozzle"]), FLOW),
        Reading("Engine speed", float(now.speed), SPEED),
    )


def gauges(now: State) -> tuple[Gauge, ...]:
    """Return the water column on the idle-port chamber and the manifold's gauge."""
    return (
        Gauge(
            "Idle-port vacuum",
            float(now.chamber_vacuum[0]),
            WATER,
            0,
            20 * INCH,
            accuracy=0.2 * INCH,
            noise=0.05 * INCH,
            column=True,
        ),
        Gauge(
            "Manifold vacuum",
            float(now.manifold_vacuum),
            VACUUM,
            0,
            100e3,
            accuracy=1.5e3,
            noise=0.3e3,
        ),
    )


def verdict(now: State, stop: float, system: System) -> str:
    """Return in one sentence what the slot does at this angle."""
    mixture, angle = lambda_shown(now), float(now.throttle_angle)
    told = f"lambda is {RATIO.text(mixture, system)}"
    if mixture > LEANEST:
        return f"Off idle the ports give too little fuel: {told}, and the engine stumbles."
    below, above = float(now.slot_below[0]), float(now.slot_above[0])
    if angle < stop - 1e-3:
        return f"The throttle is shut beyond its stop, the slot bleeds air only, and {told}."
    if below < 0.03e-6:
        return f"All of the slot stands above the plate's edge and bleeds air in; {told}."
    lift = float(now.valve_lift[0])
    valve = "the bleed valve is shut" if lift < 0.01 else "the bleed valve lets air in"
    if above < 0.03e-6:
        return f"All of the slot gives mixture, {valve}, and {told}."
    return (
        f"{AREA.text(below, system)} of slot gives mixture, {AREA.text(above, system)} bleeds "
        f"air in, {valve}; {told}."
    )


def drawn(rig: Rig, angle: float, now: State, system: System) -> str:
    """Return the drawing in words."""
    return (
        "Section through one bore at the throttle plate. In the wall beside the plate's rising "
        "edge stands an upright slot, the idle port; behind it lies a chamber, which gets froth "
        "from the economizer, and below it the mixture screw's port opens under the plate. A "
        "spring-loaded ball can let air from below the choke into the chamber. An enlarged detail "
        f"shows slot and edge to scale: with the plate at {ANGLE.text(angle, system)}, "
        f"{AREA.text(float(now.slot_below[0]), system)} lies open to the manifold below the edge "
        f"and {AREA.text(float(now.slot_above[0]), system)} to the bore above it. The ball is "
        f"lifted by {SHARE.text(float(now.valve_lift[0]), system)} of its way. Dots are air, "
        "dashes are fuel."
    )


def plotted(now: State, angle: float, system: System) -> str:
    """Return the plot in words."""
    by = now.fuel_by_circuit
    return (
        "Three plots against throttle angle. Above, the slot: as the plate opens, the part below "
        "its edge grows and the part above it shrinks. In the middle, fuel: the mixture screw's "
        "falls as the slot's rises, and then the main nozzle takes over. Below, lambda. The dots "
        f"are the state now, at {ANGLE.text(angle, system)}: "
        f"{AREA.text(float(now.slot_below[0]), system)} below the edge, "
        f"{FLOW.text(float(by['slot']), system)} of fuel by the slot, lambda "
        f"{RATIO.text(lambda_shown(now), system)}."
    )
