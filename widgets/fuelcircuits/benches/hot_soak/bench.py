"""The hot-soak bench: minutes after the engine stops, where the fuel goes, and the next start."""

from collections.abc import Mapping
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
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.frame.time_bench import TimeBench
from fuelcircuits.benches.hot_soak.drawing import place
from fuelcircuits.benches.hot_soak.found import END, Found, whole
from fuelcircuits.benches.hot_soak.words import (
    HARD,
    drawn,
    moments,
    plotted,
    readings,
    verdict,
)
from fuelcircuits.errors import CardError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["HotSoakBench"]

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
        for name in ("hot_soak", "vents", "float_bowl", "high_speed", "air_path", "engine"):
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.card, own = rig, rig.vents
        lifts = own.outside_bore > 0 and own.outside_setting > 0
        kind = "canister" if own.canister_bore > 0 else "outside" if lifts else "inside"
        start = {"outside_setting": own.outside_setting} if lifts else {}
        super().__init__(vents=kind, **start)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the run, with the start that would follow at each moment."""
        found = whole(self.card, values)
        return State(
            readings=readings(found),
            numbers=place(found),
            chart=_chart(found),
            verdict=verdict(found, system),
            drawn=drawn(found, system),
            plotted=plotted(found, system),
            alarm=max(found.cranking) > HARD,
            times=found.times,
            moments=moments(found),
        )


def _chart(found: Found) -> Chart:
    """Return temperatures, fuel by place and cranking time in time."""
    times = found.times
    heat = Panel(
        y=Axis("Temperature", TEMPERATURE, 273.15, 383.15),
        curves=(
            Curve("lead", times, found.bowl, "bowl"),
            Curve("other", times, found.block, "block"),
        ),
        dot=Dot(times, found.bowl),
        share=1.4,
    )
    fuel = Panel(
        y=Axis("Fuel", SMALL_MASS, 0, 20e-3),
        curves=(
            Curve("third", times, found.intake, "in the bore"),
            Curve("fourth", times, found.gone, "gone outside"),
            Curve("mark", times, found.stored, "in canister"),
        ),
        dot=Dot(times, found.intake),
    )
    crank = Panel(
        y=Axis("Cranking", SECONDS, 0, 8),
        curves=(Curve("lead", times, found.cranking),),
        dot=Dot(times, found.cranking),
    )
    return Chart(Axis("After the stop", MINUTES, 0, END), (heat, fuel, crank))
