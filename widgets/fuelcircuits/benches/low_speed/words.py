"""What the low-speed bench says: readings, gauges, verdict, and its pictures in words."""

from typing import TYPE_CHECKING

import numpy as np

from fuelcircuits.benches.carburettor.idle_measures import CHAMBER, INCH, TURNS, WATER
from fuelcircuits.benches.carburettor.running import PETROL, lambda_shown
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    FINE_SHARE,
    FLOW,
    RATIO,
    SMALL_LENGTH,
    TORQUE,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.physics.engine.torque import brake_torque, torque_factor
from fuelcircuits.physics.matter.exhaust import dry, products
from fuelcircuits.physics.matter.stoichiometry import composition
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State

if TYPE_CHECKING:
    from fuelcircuits.benches.low_speed.bench import Idle

__all__ = ["LEANEST", "RICHEST", "drawn", "gauges", "monoxide", "plotted", "readings", "verdict"]

RICHEST, LEANEST = 0.85, 1.05
"""Lambda between which an engine of this kind idles well [1] (common practice, no source)."""


def monoxide(mixture: float) -> float:
    """Return carbon monoxide by volume of the dried exhaust [1]; the model takes 0.4 to 20."""
    if not np.isfinite(mixture):
        return 0.0
    fuel = composition(PETROL)
    gas = products(
        float(np.clip(mixture, 0.4, 20.0)), fuel.hydrogen_per_carbon, fuel.oxygen_per_carbon
    )
    return float(dry(gas).co)


def readings(now: "Idle", card: Rig) -> tuple[Reading, ...]:
    """Return the table."""
    state = now.state
    factor = torque_factor(min(float(state.mixture), 3.0))
    spare = brake_torque(
        card.engine,
        state.speed,
        state.air_flow,
        state.pressures.manifold,
        state.ambient_pressure,
        mixture_factor=factor,
    )
    return (
        Reading("Lambda", lambda_shown(state), RATIO),
        Reading("Carbon monoxide", monoxide(float(state.mixture)), FINE_SHARE),
        Reading("Chamber vacuum", float(state.chamber_vacuum[0]), CHAMBER),
        Reading("Manifold vacuum", float(state.manifold_vacuum), VACUUM),
        Reading("Screw off its seat", now.turns, TURNS),
        Reading("Turned clockwise", now.clockwise, TURNS),
        Reading("Fuel by the low-speed jets", float(state.fuel_flow), FLOW),
        Reading("Torque to spare", float(spare), TORQUE),
    )


def gauges(state: State) -> tuple[Gauge, ...]:
    """Return the water column, the manifold's gauge and the carbon-monoxide meter."""
    return (
        Gauge(
            "Idle-port vacuum",
            float(state.chamber_vacuum[0]),
            WATER,
            0,
            12 * INCH,
            accuracy=0.2 * INCH,
            noise=0.05 * INCH,
            column=True,
        ),
        Gauge("Manifold vacuum", float(state.manifold_vacuum), VACUUM, 0, 100e3, 1.5e3, 0.3e3),
        Gauge("CO meter", monoxide(float(state.mixture)), FINE_SHARE, 0, 0.1, 0.002, 0.0005),
    )


def verdict(now: "Idle", system: System) -> str:
    """Return in one sentence how the engine idles."""
    mixture = lambda_shown(now.state)
    gas = FINE_SHARE.text(monoxide(float(now.state.mixture)), system)
    told = f"lambda {RATIO.text(mixture, system)}, carbon monoxide {gas}"
    if mixture >= LEANEST:
        return f"The idle is too lean, and the engine shakes or dies: {told}."
    if mixture <= RICHEST:
        return f"The idle is too rich, and the engine soots and hunts: {told}."
    return f"The engine idles well: {told}."


def drawn(now: "Idle", system: System) -> str:
    """Return the drawing in words."""
    low = now.low
    sizes = (
        f"low-speed jet {SMALL_LENGTH.text(float(np.asarray(low.jet_bore)), system)}",
        f"by-pass {SMALL_LENGTH.text(float(np.asarray(low.bypass_bore)), system)}",
        f"idle air bleed {SMALL_LENGTH.text(float(np.asarray(low.air_bleed_bore)), system)}",
        f"economizer {SMALL_LENGTH.text(float(np.asarray(low.economizer_bore)), system)}",
    )
    screws = {
        "plain": "The mixture screw is plain.",
        "limited": "A cap with a tab stops the mixture screw at either side.",
        "restricted": "A restrictor stands in line behind the mixture screw.",
        "sealed": "A plug hides the mixture screw, and it cannot be turned.",
        "air": "The screw stands in the idle air bleed and has a left-hand thread.",
    }
    return (
        "Section from the float bowl to the throttle. Fuel passes the main jet into the well, "
        "rises in a tube through the low-speed jet, and is joined by air from the by-pass and "
        "from the idle air bleed. The froth passes the economizer and falls to the chamber behind "
        "the idle port; it leaves by the mixture screw below the throttle plate. Bores: "
        f"{', '.join(sizes)}. {screws[now.kind]} It stands {TURNS.text(now.turns, system)} off "
        "its seat. Dots are air, dashes are fuel."
    )


def plotted(now: "Idle", system: System) -> str:
    """Return the plot in words."""
    way = "out" if now.kind != "air" else "in"
    return (
        "Two plots against the screw's turns off its seat. Above, lambda: turning the screw "
        f"{way} is richer. Below, carbon monoxide, which rises as lambda falls under one. The "
        f"dots are the state now: {TURNS.text(now.turns, system)}, lambda "
        f"{RATIO.text(lambda_shown(now.state), system)}, carbon monoxide "
        f"{FINE_SHARE.text(monoxide(float(now.state.mixture)), system)}."
    )
