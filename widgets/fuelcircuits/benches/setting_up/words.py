"""What the setting bench says: readings, gauges, verdict, and its pictures in words."""

from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    FINE_SHARE,
    LENGTH,
    PRESSURE,
    SMALL_LENGTH,
    SMALL_PRESSURE,
    SPEED,
    TEMPERATURE,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.benches.setting_up.found import LIMITS, RPM, Found

__all__ = ["alarm", "drawn", "gauges", "plotted", "readings", "verdict"]


def readings(found: Found) -> tuple[Reading, ...]:
    """Return what is seen without a gauge, and the card."""
    card = found.card
    return (
        Reading("Throttle stands at", found.resting.throttle, ANGLE),
        Reading("Outside vent open", found.now.lift, SMALL_LENGTH),
        Reading("Card: fuel under the face", card.below, LENGTH),
        Reading("Card: outside vent open", card.lift, SMALL_LENGTH),
        Reading("Card: idle speed", card.stop.speed, SPEED),
        Reading("Card: CO at idle", card.stop.co, FINE_SHARE),
        Reading("Card: fast idle, step 2", card.fast.speed, SPEED),
    )


def gauges(found: Found) -> tuple[Gauge, ...]:
    """Return the instruments, each with its accuracy, its scatter and the card's range."""
    now, card, at_idle = found.resting, found.card, not found.on_cam
    speed = card.fast.speed if found.on_cam else card.stop.speed
    wide = LIMITS["fast idle" if found.on_cam else "idle"]
    co, below, pump = card.stop.co, card.below, found.fuel_pressure
    signal, vacuum = card.stop.port, card.stop.vacuum
    return (
        Gauge("Engine speed", now.speed, SPEED, 0, 2000 * RPM, 8 * RPM, 4 * RPM,
              good=(speed - wide, speed + wide)),
        Gauge("CO", now.co, FINE_SHARE, 0, 0.1, 1.5e-3, 1e-3,
              good=(co - LIMITS["mixture"], co + LIMITS["mixture"]) if at_idle else None),
        Gauge("Fuel under the face", found.now.below, LENGTH, 5e-3, 30e-3, 0.3e-3, 0.2e-3,
              good=(below - LIMITS["level"], below + LIMITS["level"]), column=True),
        Gauge("Idle-port vacuum", now.port, SMALL_PRESSURE, 0, 5000, 25.0, 20.0,
              good=(0.8 * signal, 1.2 * signal) if at_idle else None, column=True),
        Gauge("Manifold vacuum", now.vacuum, VACUUM, 0, 100e3, 1.6e3, 0.5e3,
              good=(vacuum - 3.4e3, vacuum + 3.4e3) if at_idle else None),
        Gauge("Fuel pressure", pump, PRESSURE, 0, 103e3, 2.6e3, 0.7e3,
              good=(pump - 3.5e3, pump + 3.5e3)),
        Gauge("Engine temperature", found.warmth, TEMPERATURE, 293.15, 393.15, 2.0, 0.5,
              good=(353.15, 373.15)),
    )  # fmt: skip


def alarm(found: Found) -> bool:
    """Return whether something is not yet set."""
    return found.stalls or not all(found.right.values())


def verdict(found: Found, _system: System) -> str:
    """Return in one sentence how far the work has come; which setting is off is for the gauges."""
    if found.stalls:
        return "The engine stalls."
    good, all_ = sum(found.right.values()), len(found.right)
    if good == all_:
        return f"Well done: all {good} settings are within the card."
    return f"The engine runs, but only {good} of {all_} settings are within the card."


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    rests = "the second step of the fast-idle cam" if found.on_cam else "the idle speed screw"
    return (
        "Section through bowl and one barrel. The fuel stands "
        f"{LENGTH.text(found.now.below, system)} under the gasket face; a dashed line marks the "
        f"card's level. The outside vent is {SMALL_LENGTH.text(found.now.lift, system)} open. The "
        f"throttle's lever rests on {rests}, at {ANGLE.text(found.resting.throttle, system)}. The "
        f"mixture screw is {found.setting.mixture_screw:.2f} turns off its seat."
    )


def plotted(found: Found, system: System) -> str:
    """Return the plot in words."""
    stops = found.now.stop, found.card.stop
    speeds = [SPEED.text(each.speed, system) for each in stops]
    gases = [FINE_SHARE.text(each.co, system) for each in stops]
    return (
        "Two plots against the turns of the idle speed screw, each with the line of the engine as "
        f"it is set and a dashed one by the card. Above, idle speed, now {speeds[0]}; the card "
        f"says {speeds[1]}. Below, carbon monoxide, now {gases[0]}; the card says {gases[1]}."
    )
