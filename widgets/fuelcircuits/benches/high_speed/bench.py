"""The high-speed bench: the mixture curve, what each circuit adds, and the air-bled well."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, ClassVar

import numpy as np

from fuelcircuits.benches.carburettor.mixture_curve import (
    ALTITUDE,
    curve,
    fuel_density,
    point,
    shares,
)
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    AIR_FLOW,
    ANGLE,
    FLOW,
    LENGTH,
    RATIO,
    SHARE,
    SMALL_LENGTH,
    SMALL_PRESSURE,
    System,
)
from fuelcircuits.benches.frame.state import Axis, Band, Chart, Curve, Dot, Panel, Reading, State
from fuelcircuits.benches.high_speed.drawing import place
from fuelcircuits.benches.high_speed.words import drawn, plotted, verdict
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.high_speed import hole_depths, level_drop
from fuelcircuits.physics.circuits.nozzle_slope import SLOPES, drip_angle, starting_depression
from fuelcircuits.physics.network import state as physics
from fuelcircuits.physics.network.rig import Rig

__all__ = ["HighSpeedBench"]

LEANEST, RICHEST = 1.12, 0.72
"""Lambda beyond which an engine hesitates, and below which it smokes (common practice)."""
BLEED = 1.0e-3
"""Main air bleed of a rig that has none, once one is fitted [m]."""


class HighSpeedBench(Bench):
    """The mixture from idle to wide open, for the high-speed circuit of a rig."""

    title = "Mixture curve of the high-speed circuit"
    picture = "high_speed.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"throttle": 31, "nozzle": 2, "jet_bore": 5}

    throttle = Control("Throttle opened", SHARE, 0, 1, steps=(1, 1), start=0.08)
    jet_bore = Control("Main jet", SMALL_LENGTH, 1.4e-3, 1.9e-3, steps=(0.01, 0.0005), start=1.6e-3)
    nozzle = Choice("Main nozzle", {"bled": "air-bled well", "plain": "plain tube"}, "bled")
    air_bleed = Control(
        "Main air bleed", SMALL_LENGTH, 0.4e-3, 2e-3, steps=(0.02, 0.001), start=BLEED
    )
    slope = Choice("Nozzle slopes", SLOPES, "up")
    lip = Control("Nozzle lip over fuel", LENGTH, 0, 8e-3, steps=(0.2, 0.01), start=4e-3)
    altitude = Control("Altitude", ALTITUDE, 0, 3000, steps=(100, 250), start=0)
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {"slope": ("plot",)}

    def __init__(self, rig: Rig) -> None:
        if rig.high_speed is None:
            raise CardError(f"{rig.name}: high_speed must be given for this bench, got nothing")
        self.rig, high = rig, rig.high_speed
        bled = float(high.air_bleed_bore) > 0
        super().__init__(
            jet_bore=float(high.jet_bore),
            nozzle="bled" if bled else "plain",
            air_bleed=float(high.air_bleed_bore) if bled else BLEED,
            lip=float(high.lip),
        )

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return where the engine runs, and the curve of all it could do."""
        bled, height = values["nozzle"] == "bled", values["altitude"]
        slope = values["slope"]
        rig, plain = (self._changed(values, each) for each in (bled, False))
        along, bare = curve(self.rig, rig, height), curve(self.rig, plain, height)
        now = point(self.rig, rig, height, values["throttle"])
        clear = open_holes(rig, now) if bled else 0
        alarm = not RICHEST <= now.mixture <= LEANEST
        return State(
            readings=_readings(rig, now, slope),
            numbers=place(rig, now, fuel_density(), bled=bled, slope=slope),
            chart=_chart(along, bare, now),
            verdict=verdict(rig, now, clear, bled, alarm),
            drawn=drawn(rig, now, system, clear=clear, bled=bled, slope=slope),
            plotted=plotted(along, bare, now, system),
            alarm=alarm,
        )

    def _changed(self, values: Mapping[str, Any], bled: bool) -> Rig:
        """Return the rig with this jet, lip and bleed."""
        high = replace(
            self.rig.high_speed,
            jet_bore=values["jet_bore"],
            lip=values["lip"],
            air_bleed_bore=values["air_bleed"] if bled else 0.0,
        )
        return replace(self.rig, high_speed=high)


def open_holes(rig: Rig, now: physics.State) -> int:
    """Return how many bleed holes the fuel in the tube has uncovered."""
    p = now.pressures
    fallen = level_drop(float(p.tube[0]), float(p.well[0]), fuel_density())
    return int(np.sum(hole_depths(rig.high_speed) < fallen))


def _readings(rig: Rig, now: physics.State, slope: str) -> tuple[Reading, ...]:
    parts, whole = shares(now), float(now.fuel_flow)
    p, high = now.pressures, rig.high_speed
    fallen = float(level_drop(float(p.tube[0]), float(p.well[0]), fuel_density()))
    stands = min(max(fallen, 0.0), float(high.well_depth))
    return (
        Reading("Mixture (lambda)", float(now.mixture), RATIO),
        Reading("Main nozzle's share", float(parts["main"]) / whole, SHARE),
        Reading("Power rod's share", float(parts["power"]) / whole, SHARE),
        Reading("Transfer slot's share", float(parts["transfer"]) / whole, SHARE),
        Reading("Idle screw's share", float(parts["idle"]) / whole, SHARE),
        Reading("Fuel, all barrels", whole, FLOW),
        Reading("Booster depression", float(now.booster_depression[0]), SMALL_PRESSURE),
        Reading("Level in bleed tube, down", stands, LENGTH),
        Reading("Depression to start", starting_depression(high, fuel_density()), SMALL_PRESSURE),
        Reading("Drips when parked at", drip_angle(high, slope), ANGLE),
    )


def _chart(along: physics.State, bare: physics.State, now: physics.State) -> Chart:
    """Return mixture and fuel by circuit against air flow."""
    air, parts = along.air_flow, shares(along)
    most = 10e-3 * np.ceil(105 * float(np.max(air)))
    mixture = Panel(
        y=Axis("Lambda", RATIO, 0.6, 1.3),
        curves=(
            Curve("lead", air, along.mixture, "mixture"),
            Curve("mark", bare.air_flow, bare.mixture, "plain nozzle"),
        ),
        dot=Dot(float(now.air_flow), float(now.mixture)),
        band=Band(LEANEST, "hesitates"),
        share=1.5,
    )
    fuel = Panel(
        y=Axis("Fuel", FLOW, 0, most / 10),
        curves=(
            Curve("lead", air, parts["main"], "main"),
            Curve("other", air, parts["idle"], "idle"),
            Curve("third", air, parts["transfer"], "transfer"),
            Curve("fourth", air, parts["power"], "power"),
        ),
    )
    return Chart(Axis("Air flow", AIR_FLOW, 0, most), (mixture, fuel))
