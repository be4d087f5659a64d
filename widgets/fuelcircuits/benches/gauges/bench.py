"""The gauge bench: one pressure, temperature or drill, in every unit that a shop meets."""

from collections.abc import Mapping
from typing import Any, ClassVar

from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    NUMBER,
    PRESSURE,
    SMALL_PRESSURE,
    TEMPERATURE,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.gauges import words
from fuelcircuits.benches.gauges.drawing import place
from fuelcircuits.benches.gauges.found import Found, whole
from fuelcircuits.benches.gauges.units import PLOTS

__all__ = ["GaugesBench"]


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
        "Conversion plotted", {key: plot.name for key, plot in PLOTS.items()}, "vacuum"
    )

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return every quantity in every unit."""
        return SHOWN.state(whole(values), system)


def _chart(found: Found) -> Chart:
    """Return one unit against the other: a straight line, with the value on it."""
    name, along, up, low, high = PLOTS[found.plot]
    value = found.plotted
    panel = Panel(
        y=Axis(name, up, low, high),
        curves=(
            Curve("mark", [value, value, low], [low, value, value], "read off"),
            Curve("lead", [low, high], [low, high], "the same quantity"),
        ),
        dot=Dot(value, value),
    )
    return Chart(Axis(name, along, low, high), (panel,))


SHOWN = Shown(words, place, _chart)
