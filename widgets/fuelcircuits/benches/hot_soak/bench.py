"""The hot-soak bench: minutes after the engine stops, where the fuel goes, and the next start."""

from collections.abc import Mapping
from math import nan
from typing import Any, ClassVar

from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    LENGTH,
    MINUTES,
    PRESSURE,
    SECONDS,
    SHARE,
    SMALL_MASS,
    TEMPERATURE,
    Measure,
    System,
)
from fuelcircuits.benches.frame.pieces import Pieces, finished
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Run
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.frame.time_bench import TimeBench
from fuelcircuits.benches.hot_soak import words
from fuelcircuits.benches.hot_soak.drawing import place
from fuelcircuits.benches.hot_soak.found import END, Found, Soaked, pieces, point
from fuelcircuits.physics.motion.restart import LONGEST
from fuelcircuits.physics.network.rig import Rig

__all__ = ["HotSoakBench"]

NEEDED = (
    *("hot_soak", "vents", "float_bowl", "high_speed", "low_speed", "pump", "wall_film"),
    *("air_path", "engine"),
)
"""The sections of the card that soak and start ask for."""
VENTS: Mapping[str, str] = {
    "inside": "inside vent only",
    "outside": "outside vent too",
    "canister": "two-way, to canister",
}


class HotSoakBench(TimeBench):
    """An hour after a hot engine was stopped, for a rig with its heat stores.

    Any of the three kinds of vent can be fitted; the bench starts with the card's own.
    """

    title = "Hot soak and the next start"
    picture = "hot_soak.svg"
    pace = 180.0
    clock: ClassVar[Measure] = MINUTES
    page_grid: ClassVar[Mapping[str, int]] = {"vents": 3, "outside": 4}
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {"canister_load": {"vents": "canister"}}

    vents = Choice("Bowl vents", VENTS, "outside")
    outside_setting = Control("Outside vent set", LENGTH, 0, 5e-3, steps=(0.25, 0.01), start=1.5e-3)
    outside = Control("Air outside", TEMPERATURE, 278.15, 313.15, steps=(1, 2), start=298.15)
    reid = Control("Reid pressure", PRESSURE, 48e3, 95e3, steps=(1, 0.2), start=62e3)
    flange_heat = Control("Heat from flange", SHARE, 0.5, 2, steps=(10, 10), start=1)
    canister_load = Control("Canister full", SHARE, 0, 1, steps=(10, 10), start=0)

    def __init__(self, rig: Rig) -> None:
        self.card = with_sections(rig, *NEEDED)
        own = rig.vents
        lifts = own.outside_bore > 0 and own.outside_setting > 0
        kind = "canister" if own.canister_bore > 0 else "outside" if lifts else "inside"
        start = {"outside_setting": own.outside_setting} if lifts else {}
        super().__init__(vents=kind, **start)

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return the run; the starts that would follow are marched after."""
        return SHOWN.state(point(self.card, values), None, system)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the run, with the start that would follow at each moment."""
        return finished(self.pieces(values, system))

    def pieces(self, values: Mapping[str, Any], system: System) -> Pieces[State]:
        """Work the same out piece by piece."""
        found = yield from pieces(self.card, values)
        return SHOWN.state(found.soaked, found, system)


def _chart(soaked: Soaked, found: Found | None) -> Chart:
    """Return temperatures, fuel by place and cranking time in time."""
    times = soaked.times
    heat = Panel(
        y=Axis("Temperature", TEMPERATURE, 273.15, 383.15),
        curves=(
            Curve("lead", times, soaked.bowl, "bowl"),
            Curve("other", times, soaked.block, "block"),
        ),
        dot=Dot(times, soaked.bowl),
        share=1.4,
    )
    fuel = Panel(
        y=Axis("Fuel", SMALL_MASS, 0, 20e-3),
        curves=(
            Curve("third", times, soaked.intake, "in the bore"),
            Curve("fourth", times, soaked.gone, "gone outside"),
            Curve("mark", times, soaked.stored, "in canister"),
        ),
        dot=Dot(times, soaked.intake),
    )
    crank = Panel(
        y=Axis("Cranking", SECONDS, 0, LONGEST),
        curves=(Curve("lead", times, found.cranking) if found else Curve("lead"),),
        dot=Dot(times, found.cranking if found else [nan] * len(times)),
    )
    return Chart(Axis("After the stop", MINUTES, 0, END), (heat, fuel, crank))


SHOWN = Run(words, place, _chart)
