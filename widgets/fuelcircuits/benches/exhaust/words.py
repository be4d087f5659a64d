"""What the exhaust bench says: readings, dials, the verdict, and drawing and plot in words."""

from fuelcircuits.benches.exhaust.found import BEST_TORQUE, MISFIRE, THRIFTY, Found
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import AIR_FUEL_RATIO, FINE_SHARE, RATIO, System, measure
from fuelcircuits.benches.frame.state import Reading

__all__ = ["alarm", "drawn", "gauges", "plotted", "readings", "verdict"]

GAS = measure("dimensionless", ("percent", 2), ("percent", 2))


def readings(found: Found) -> tuple[Reading, ...]:
    """Return the table, the mixture first."""
    return (
        Reading("Lambda", found.mixture, RATIO),
        Reading("Lambda the analyser works out", found.shown, RATIO),
        Reading("Air to fuel by mass", found.ratio, AIR_FUEL_RATIO),
        Reading("Air that just burns it", found.need, AIR_FUEL_RATIO),
        Reading("Carbon dioxide", found.gas.co2, FINE_SHARE),
        Reading("Hydrogen", found.gas.h2, FINE_SHARE),
        Reading("Torque, of the most", found.torque, FINE_SHARE),
        Reading("Fuel for the work, of the least", found.consumption, FINE_SHARE),
    )


def gauges(found: Found) -> tuple[Gauge, ...]:
    """Return the analyser's dials.

    Accuracy: OIML R 99, class I, maximum permissible errors (from memory).
    """
    return (
        Gauge("CO", found.gas.co, GAS, 0, 0.1, accuracy=0.6e-3, noise=0.2e-3),
        Gauge("O₂", found.gas.o2, GAS, 0, 0.25, accuracy=1e-3, noise=0.3e-3),
        Gauge("Lambda shown", found.shown, RATIO, 0.6, 1.6, accuracy=0.01, noise=2e-3),
    )


def alarm(found: Found) -> bool:
    """Return whether cylinders misfire."""
    return found.mixture > MISFIRE


def verdict(found: Found, _system: System) -> str:
    """Return in one sentence what the mixture is."""
    if found.mixture > MISFIRE:
        return "So lean that the engine misfires: cylinders fire now and then only."
    left = f"{FINE_SHARE.text(found.gas.co, 'SI')} CO"
    if found.mixture < 0.995:
        return f"Rich: air is lacking, and the exhaust holds {left}, which is poison."
    if found.mixture <= 1.005:
        return f"Air and fuel just match; uneven cylinders still leave {left}."
    return f"Lean: air is left over, and the exhaust holds {left}."


def drawn(found: Found, _system: System) -> str:
    """Return the drawing in words."""
    gas = {"CO₂": found.gas.co2, "CO": found.gas.co, "O₂": found.gas.o2, "H₂": found.gas.h2}
    shares = ", ".join(f"{name} {FINE_SHARE.text(of, 'SI')}" for name, of in gas.items())
    return (
        f"A bar shows {AIR_FUEL_RATIO.text(found.ratio, 'SI')} parts of air to one of fuel by "
        f"mass, with a mark at the {AIR_FUEL_RATIO.text(found.need, 'SI')} parts that just burn "
        "it. Below, a cylinder draws in the mixture and sends the burnt gas along a pipe, past a "
        f"leak that may draw in air, to an analyser. Its four columns stand at {shares}."
    )


def plotted(found: Found, _system: System) -> str:
    """Return the plot in words."""
    return (
        "Two plots against lambda. Above, the dry exhaust: CO falls to almost nothing as lambda "
        "nears 1, O₂ rises from there on, CO₂ is highest in between. Below, torque is most at a "
        f"lambda of {BEST_TORQUE:.2f} and falls to both sides; the fuel for the work is least at "
        f"{THRIFTY:.2f}. "
        f"The line across stands at a lambda of {RATIO.text(found.mixture, 'SI')}, where torque is "
        f"{FINE_SHARE.text(found.torque, 'SI')} of the most."
    )
