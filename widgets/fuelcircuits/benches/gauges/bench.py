"""The gauge bench: one pressure, temperature or drill, in every unit that a shop meets."""

from collections.abc import Mapping
from typing import Any, ClassVar

import numpy as np

from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    AREA,
    NUMBER,
    PRESSURE,
    SMALL_LENGTH,
    SMALL_PRESSURE,
    TEMPERATURE,
    VACUUM,
    Measure,
    System,
    measure,
)
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, Reading, State
from fuelcircuits.benches.gauges.drawing import place
from fuelcircuits.quantities.drills import diameter_of

__all__ = ["GaugesBench", "only"]


def only(si: str, unit: str, digits: int) -> Measure:
    """Return a measure that shows `unit` on both sides of the units switch."""
    return measure(si, (unit, digits), (unit, digits))


KILOPASCAL, PASCAL = only("Pa", "kPa", 1), only("Pa", "Pa", 0)
MERCURY, WATER = only("Pa", "inch_Hg", 1), only("Pa", "inch_H2O", 2)
PSI, CELSIUS = only("Pa", "psi", 2), only("K", "degC", 0)
FAHRENHEIT = only("K", "degF", 0)
HIGHEST = 90e3
"""End of the vacuum gauges [Pa]."""
PLOTS: Mapping[str, tuple[str, Measure, Measure, float, float]] = {
    "vacuum": ("Vacuum", KILOPASCAL, MERCURY, 0, HIGHEST),
    "pump": ("Fuel pressure", KILOPASCAL, PSI, 0, 60e3),
    "port": ("Idle-port vacuum", PASCAL, WATER, 0, 2500),
    "heat": ("Temperature", CELSIUS, FAHRENHEIT, 233.15, 393.15),
}
"""Name, the unit along and the unit up, and the ends of each plot."""


class GaugesBench(Bench):
    """Pressures, a temperature and a drill in the units of both sides; no rig is needed."""

    title = "Gauges and their units"
    picture = "gauges.svg"
    needs_rig = False
    page_grid: ClassVar[Mapping[str, int]] = {"vacuum": 9, "barometer": 5, "converted": 4}
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {
        "fuel_pressure": ("plot",),
        "port": ("plot",),
        "temperature": ("drawing", "plot"),
        "drill": ("drawing", "plot"),
        "barometer": ("plot",),
        "converted": ("drawing", "readings"),
    }

    vacuum = Control("Manifold vacuum", VACUUM, 0, 90e3, steps=(0.5, 0.1), start=60e3)
    barometer = Control("Barometer", VACUUM, 70e3, 106e3, steps=(0.5, 0.1), start=101.325e3)
    fuel_pressure = Control("Fuel pressure", PRESSURE, 0, 60e3, steps=(0.5, 0.1), start=35e3)
    port = Control("Idle-port vacuum", SMALL_PRESSURE, 0, 2500, steps=(10, 0.05), start=1000)
    temperature = Control("Temperature", TEMPERATURE, 233.15, 393.15, steps=(1, 1), start=293.15)
    drill = Control("Drill number", NUMBER, 40, 80, steps=(1, 1), start=53)
    converted = Choice(
        "Conversion plotted", {key: plot[0] for key, plot in PLOTS.items()}, "vacuum"
    )

    def __init__(self) -> None:
        super().__init__()

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return every quantity in every unit."""
        absolute = values["barometer"] - values["vacuum"]
        where = {"vacuum": "vacuum", "pump": "fuel_pressure", "port": "port", "heat": "temperature"}
        shown = values["converted"]
        return State(
            readings=_readings(values, absolute),
            numbers=place(values),
            chart=_chart(shown, values[where[shown]]),
            verdict=_verdict(values, absolute, system),
            drawn=_drawn(values, absolute, system),
            plotted=_plotted(shown, values[where[shown]]),
            alarm=absolute < 0,
            gauges=_gauges(values),
        )


def _readings(values: Mapping[str, Any], absolute: float) -> tuple[Reading, ...]:
    bore = float(diameter_of(round(values["drill"])))
    return (
        Reading("Vacuum, metric", values["vacuum"], KILOPASCAL),
        Reading("Vacuum, mercury", values["vacuum"], MERCURY),
        Reading("Vacuum, water", values["vacuum"], WATER),
        Reading("Absolute in the manifold", absolute, VACUUM),
        Reading("Idle-port vacuum, water", values["port"], WATER),
        Reading("Idle-port vacuum, mercury", values["port"], only("Pa", "inch_Hg", 3)),
        Reading("Fuel pressure, metric", values["fuel_pressure"], KILOPASCAL),
        Reading("Fuel pressure, shop", values["fuel_pressure"], PSI),
        Reading("Drill, across", bore, SMALL_LENGTH),
        Reading("Drill, area", np.pi / 4 * bore**2, AREA),
    )


def _gauges(values: Mapping[str, Any]) -> tuple[Gauge, ...]:
    """Return each quantity on two dials, one a unit; their accuracy is common practice."""
    vacuum, pump, port = values["vacuum"], values["fuel_pressure"], values["port"]
    heat = values["temperature"]
    return (
        Gauge("Vacuum", vacuum, KILOPASCAL, 0, HIGHEST, accuracy=2e3, noise=500),
        Gauge("Vacuum, mercury", vacuum, MERCURY, 0, 101.59e3, accuracy=2e3, noise=500),
        Gauge("Fuel pressure", pump, KILOPASCAL, 0, 60e3, accuracy=1e3, noise=200),
        Gauge("Fuel pressure, shop", pump, PSI, 0, 68947.57, accuracy=1e3, noise=200),
        Gauge("Idle port", port, PASCAL, 0, 2500, accuracy=25, noise=10, column=True),
        Gauge("Idle port, water", port, WATER, 0, 2490.89, accuracy=25, noise=10, column=True),
        Gauge("Temperature", heat, CELSIUS, 233.15, 393.15, accuracy=1, noise=0.2, column=True),
        Gauge("Temperature, US", heat, FAHRENHEIT, 233.15, 394.26, accuracy=1, column=True),
    )


def _chart(shown: str, value: float) -> Chart:
    """Return one unit against the other: a straight line, with the value on it."""
    name, along, up, low, high = PLOTS[shown]
    ends = np.array([low, high])
    panel = Panel(
        y=Axis(name, up, low, high),
        curves=(
            Curve("mark", np.array([value, value, low]), np.array([low, value, value]), "read off"),
            Curve("lead", ends, ends, "the same quantity"),
        ),
        dot=Dot(value, value),
    )
    return Chart(Axis(name, along, low, high), (panel,))


def _verdict(values: Mapping[str, Any], absolute: float, system: System) -> str:
    if absolute < 0:
        return (
            f"No engine can do that: {VACUUM.text(values['vacuum'], system)} is more vacuum than "
            f"the {VACUUM.text(values['barometer'], system)} of air that there is."
        )
    return (
        f"A vacuum of {VACUUM.text(values['vacuum'], system)} below a barometer of "
        f"{VACUUM.text(values['barometer'], system)} leaves "
        f"{VACUUM.text(absolute, system)} absolute."
    )


def _drawn(values: Mapping[str, Any], absolute: float, system: System) -> str:
    """Return the drawing in words."""
    return (
        "On the left a ladder of absolute pressure from nothing upwards: the manifold stands at "
        f"{VACUUM.text(max(absolute, 0), system)}, the air outside at "
        f"{VACUUM.text(values['barometer'], system)}, and the fuel pump above it. The vacuum is "
        "the step down from the air outside, the fuel pressure the step up. On the right a bent "
        f"tube of water: the idle port's {SMALL_PRESSURE.text(values['port'], system)} lifts one "
        f"leg {WATER.text(values['port'], system)} above the other."
    )


def _plotted(shown: str, value: float) -> str:
    """Return the plot in words."""
    name, along, up, *_ = PLOTS[shown]
    return (
        f"{name}: a straight line from one unit to the other. "
        f"{along.text(value, 'SI')} along is {up.text(value, 'SI')} up."
    )
