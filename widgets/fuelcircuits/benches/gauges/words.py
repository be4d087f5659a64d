"""What the gauge bench says: readings, dials, the verdict, and drawing and plot in words."""

from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    AREA,
    SMALL_LENGTH,
    SMALL_PRESSURE,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.benches.gauges.found import Found
from fuelcircuits.benches.gauges.units import (
    CELSIUS,
    FAHRENHEIT,
    FINE_MERCURY,
    KILOPASCAL,
    MERCURY,
    PASCAL,
    PLOTS,
    PSI,
    VACUUM_END,
    WATER,
)

__all__ = ["alarm", "drawn", "gauges", "plotted", "readings", "verdict"]


def readings(found: Found) -> tuple[Reading, ...]:
    """Return each quantity in each of its units."""
    return (
        Reading("Vacuum, metric", found.vacuum, KILOPASCAL),
        Reading("Vacuum, mercury", found.vacuum, MERCURY),
        Reading("Vacuum, water", found.vacuum, WATER),
        Reading("Absolute in the manifold", found.absolute, VACUUM),
        Reading("Idle-port vacuum, water", found.port, WATER),
        Reading("Idle-port vacuum, mercury", found.port, FINE_MERCURY),
        Reading("Fuel pressure, metric", found.fuel_pressure, KILOPASCAL),
        Reading("Fuel pressure, shop", found.fuel_pressure, PSI),
        Reading("Drill, across", found.bore, SMALL_LENGTH),
        Reading("Drill, area", found.area, AREA),
    )


def gauges(found: Found) -> tuple[Gauge, ...]:
    """Return each quantity on two dials, one a unit; their accuracy is common practice."""
    vacuum, pump, port, heat = found.vacuum, found.fuel_pressure, found.port, found.temperature
    return (
        Gauge("Vacuum", vacuum, KILOPASCAL, 0, VACUUM_END, accuracy=2e3, noise=500),
        Gauge("Vacuum, mercury", vacuum, MERCURY, 0, 101.59e3, accuracy=2e3, noise=500),
        Gauge("Fuel pressure", pump, KILOPASCAL, 0, 60e3, accuracy=1e3, noise=200),
        Gauge("Fuel pressure, shop", pump, PSI, 0, 68947.57, accuracy=1e3, noise=200),
        Gauge("Idle port", port, PASCAL, 0, 2500, accuracy=25, noise=10, column=True),
        Gauge("Idle port, water", port, WATER, 0, 2490.89, accuracy=25, noise=10, column=True),
        Gauge("Temperature", heat, CELSIUS, 233.15, 393.15, accuracy=1, noise=0.2, column=True),
        Gauge("Temperature, US", heat, FAHRENHEIT, 233.15, 394.26, accuracy=1, column=True),
    )


def alarm(found: Found) -> bool:
    """Return whether there is more vacuum than air."""
    return found.absolute < 0


def verdict(found: Found, system: System) -> str:
    """Return in one sentence what the vacuum leaves."""
    vacuum, air = VACUUM.text(found.vacuum, system), VACUUM.text(found.barometer, system)
    if found.absolute < 0:
        return (
            f"No engine can do that: {vacuum} is more vacuum than the {air} of air that there is."
        )
    left = VACUUM.text(found.absolute, system)
    return f"A vacuum of {vacuum} below a barometer of {air} leaves {left} absolute."


def drawn(found: Found, system: System) -> str:
    """Return the drawing in words."""
    return (
        "On the left a ladder of absolute pressure from nothing upwards: the manifold stands at "
        f"{VACUUM.text(max(found.absolute, 0), system)}, the air outside at "
        f"{VACUUM.text(found.barometer, system)}, and the fuel pump above it. The vacuum is "
        "the step down from the air outside, the fuel pressure the step up. On the right a bent "
        f"tube of water: the idle port's {SMALL_PRESSURE.text(found.port, system)} lifts one "
        f"leg {WATER.text(found.port, system)} above the other."
    )


def plotted(found: Found, _system: System) -> str:
    """Return the plot in words."""
    name, along, up, *_ = PLOTS[found.plot]
    return (
        f"{name}: a straight line from one unit to the other. "
        f"{along.text(found.plotted, 'SI')} along is {up.text(found.plotted, 'SI')} up."
    )
