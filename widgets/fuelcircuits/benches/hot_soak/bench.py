"""The hot-soak bench: minutes after the engine stops, where the fuel goes, and the next start."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, ClassVar, NamedTuple

import numpy as np

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
from fuelcircuits.benches.hot_soak.words import drawn, moments, plotted, readings, verdict
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.bowl_vents import Openings, Vents
from fuelcircuits.physics.circuits.canister import Canister
from fuelcircuits.physics.circuits.hot_soak import outlets
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.soak_run import Restart, SoakRun, restart, soak_run
from fuelcircuits.physics.network.rig import ABSENT, Rig

__all__ = ["HARD", "HotSoakBench", "Soak"]

END, COUNT = 3600.0, 61
"""Length of the run [s], and its points [1]."""
HARD = 4.0
"""Cranking time from which an owner complains [s] (common practice, no source)."""
VENTS: Mapping[str, str] = {
    "inside": "inside vent only",
    "outside": "outside vent too",
    "canister": "two-way, to canister",
}
FITTED = Vents(inside_bore=5e-3, outside_bore=8e-3, canister_bore=6e-3)
BED = Canister(capacity=60e-3)
"""What the bench fits where the card has no such opening and no canister (sizes invented)."""


class Soak(NamedTuple):
    """A soak in time with the start that would follow at each of its moments."""

    kind: str
    capacity: float  # kg
    run: SoakRun
    start: Restart
    ways: Openings  # share of the vapour by each opening


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
        rig = self._rig(values)
        soak = _soak(
            rig, values["vents"], values["outside"], values["reid"], values["canister_load"]
        )
        return State(
            readings=readings(soak),
            numbers=place(soak),
            chart=_chart(soak),
            verdict=verdict(soak, system),
            drawn=drawn(soak, system),
            plotted=plotted(soak, system),
            alarm=bool(np.max(soak.start.cranking) > HARD),
            times=soak.run.times,
            moments=moments(soak),
        )

    def _rig(self, values: Mapping[str, Any]) -> Rig:
        """Return the rig with the vents that have been fitted, and its insulation."""
        own, kind = self.card.vents, values["vents"]
        lift = values["outside_setting"] if kind == "outside" else 0.0
        vents = replace(
            own,
            outside_bore=own.outside_bore or FITTED.outside_bore,
            outside_setting=lift,
            canister_bore=(own.canister_bore or FITTED.canister_bore) * (kind == "canister"),
            switched_share=float(kind == "canister"),
        )
        heat = self.card.hot_soak
        soak = replace(heat, block_to_bowl=heat.block_to_bowl * values["flange_heat"])
        bed = (self.card.canister or BED) if kind == "canister" else ABSENT
        return replace(self.card, vents=vents, hot_soak=soak, canister=bed)


@lru_cache(maxsize=256)
def _soak(rig: Rig, kind: str, outside: float, reid: float, load: float) -> Soak:
    """Return the soak of this rig on a day and a fuel; `load` is the canister's share."""
    weather, fuel = Weather.at(temperature=outside), Fuel(reid_vapour_pressure=reid)
    capacity = BED.capacity if rig.canister is None else rig.canister.capacity
    times = np.linspace(0, END, COUNT)
    run = soak_run(rig, weather, fuel, times, load=load * capacity)
    start = restart(rig, weather, fuel, run)
    return Soak(kind, capacity, run, start, outlets(rig.vents))


def _chart(soak: Soak) -> Chart:
    """Return temperatures, fuel by place and cranking time in time."""
    run, times = soak.run, soak.run.times
    heat = Panel(
        y=Axis("Temperature", TEMPERATURE, 273.15, 383.15),
        curves=(
            Curve("lead", times, run.bowl, "bowl"),
            Curve("other", times, run.block, "block"),
        ),
        dot=Dot(times, run.bowl),
        share=1.4,
    )
    fuel = Panel(
        y=Axis("Fuel", SMALL_MASS, 0, 20e-3),
        curves=(
            Curve("third", times, run.intake, "in the bore"),
            Curve("fourth", times, run.outside + run.lost, "gone outside"),
            Curve("mark", times, run.stored, "in canister"),
        ),
        dot=Dot(times, run.intake),
    )
    crank = Panel(
        y=Axis("Cranking", SECONDS, 0, 8),
        curves=(Curve("lead", times, soak.start.cranking),),
        dot=Dot(times, soak.start.cranking),
    )
    return Chart(Axis("After the stop", MINUTES, 0, END), (heat, fuel, crank))
