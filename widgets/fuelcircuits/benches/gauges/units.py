"""The units that the gauge bench shows each quantity in, the same on both sides of the switch."""

from collections.abc import Mapping
from typing import NamedTuple

from fuelcircuits.benches.frame.measure import Measure, measure

__all__ = [
    "CELSIUS",
    "FAHRENHEIT",
    "FINE_MERCURY",
    "KILOPASCAL",
    "MERCURY",
    "PASCAL",
    "PLOTS",
    "PSI",
    "VACUUM_END",
    "WATER",
    "Plot",
]


def _only(si: str, unit: str, digits: int) -> Measure:
    return measure(si, (unit, digits), (unit, digits))


KILOPASCAL, PASCAL = _only("Pa", "kPa", 1), _only("Pa", "Pa", 0)
MERCURY, FINE_MERCURY = _only("Pa", "inch_Hg", 1), _only("Pa", "inch_Hg", 3)
WATER, PSI = _only("Pa", "inch_H2O", 2), _only("Pa", "psi", 2)
CELSIUS, FAHRENHEIT = _only("K", "degC", 0), _only("K", "degF", 0)
VACUUM_END = 90e3
"""End of the vacuum gauges [Pa]."""


class Plot(NamedTuple):
    """One unit of a quantity against another, between two ends in SI."""

    name: str
    along: Measure
    up: Measure
    low: float
    high: float


PLOTS: Mapping[str, Plot] = {
    "vacuum": Plot("Vacuum", KILOPASCAL, MERCURY, 0, VACUUM_END),
    "fuel_pressure": Plot("Fuel pressure", KILOPASCAL, PSI, 0, 60e3),
    "port": Plot("Idle-port vacuum", PASCAL, WATER, 0, 2500),
    "temperature": Plot("Temperature", CELSIUS, FAHRENHEIT, 233.15, 393.15),
}
"""What may be plotted, by the name of its control."""
