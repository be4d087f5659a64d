"""The pump bench: a tip-in with and without the pump's shot, in time."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, ClassVar

import numpy as np

from fuelcircuits.benches.carburettor.mixture_curve import held
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    FLOW,
    LENGTH,
    RATIO,
    SECONDS,
    SHARE,
    SMALL_LENGTH,
    SPEED,
    TEMPERATURE,
    VOLUME,
    Measure,
    System,
    measure,
)
from fuelcircuits.benches.frame.state import (
    Axis,
    Band,
    Chart,
    Curve,
    Dot,
    Moment,
    Panel,
    Reading,
    State,
)
from fuelcircuits.benches.frame.time_bench import TimeBench
from fuelcircuits.benches.pump.drawing import place
from fuelcircuits.benches.pump.tip_in import BEGIN, END, Opening, TipIn, angle_at, tip_in
from fuelcircuits.errors import CardError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["PumpBench"]

STUMBLES, CHOKES = 1.15, 0.6
"""Lambda beyond which the engine stumbles, and below which it bogs (common practice, no source)."""
BEFORE = 0.02
"""Throttle opening before the tip-in [1]."""
RATE = measure("N/m", ("N/m", 0), ("lbf/inch", 2))
FILM = measure("kg", ("g", 2), ("oz", 3))
FAULTS: Mapping[str, dict[str, float]] = {
    "good": {},
    "cup": {"cup_leak": 0.3e-6},
    "check": {"inlet_leak": 0.3e-6},
    "none": {"linkage_start": 1.2},
}
"""What each state of the pump changes on the card."""


class PumpBench(TimeBench):
    """A tip-in in time, for the accelerator pump of a rig."""

    title = "Tip-in with and without the pump shot"
    picture = "pump.svg"
    pace = 0.5
    clock: ClassVar[Measure] = SECONDS
    page_grid: ClassVar[Mapping[str, int]] = {"pump": 3, "coolant": 3}

    opened = Control("Throttle opened to", SHARE, 0.1, 1, steps=(5, 5), start=0.5)
    duration = Control("Time to open it", SECONDS, 0.1, 2, steps=(0.1, 0.1), start=0.3)
    pump = Choice(
        "Pump",
        {
            "good": "in order",
            "cup": "cup or diaphragm worn",
            "check": "inlet check leaks",
            "none": "disconnected",
        },
        "good",
    )
    jet = Control("Pump jet", SMALL_LENGTH, 0.3e-3, 0.8e-3, steps=(0.02, 0.001), start=0.5e-3)
    spring = Control("Duration spring", RATE, 100, 1500, steps=(20, 0.1), start=300)
    lost = Control("Rod starts at", ANGLE, 0.16, 0.6, steps=(1, 1), start=0.227)
    speed = Control("Engine speed", SPEED, 105, 250, steps=(50, 50), start=157.08)
    coolant = Control("Coolant", TEMPERATURE, 253.15, 363.15, steps=(5, 10), start=363.15)

    def __init__(self, rig: Rig) -> None:
        for name in ("pump", "wall_film"):
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.rig, card = rig, rig.pump
        super().__init__(jet=card.jet_bore, spring=card.spring_rate, lost=card.linkage_start)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the run from light throttle through the tip-in to its end."""
        settings = {
            "jet_bore": values["jet"],
            "spring_rate": values["spring"],
            "linkage_start": values["lost"],
        }
        pump = replace(self.rig.pump, **settings | FAULTS[values["pump"]])
        rig, speed = replace(self.rig, pump=pump), values["speed"]
        before, after = (angle_at(self.rig, speed, share) for share in (BEFORE, values["opened"]))
        opening = Opening(before, after, values["duration"])
        run = tip_in(self.rig, rig, speed, opening, values["coolant"])
        worst = [float(each) for each in run.mixture.max(axis=0)]
        return State(
            readings=_readings(run),
            numbers=place(pump, run),
            chart=_chart(run, self._most(speed)),
            verdict=_verdict(run, worst),
            drawn=_drawn(pump.jet_bore, run, system),
            plotted=_plotted(run, worst, system),
            alarm=worst[0] > STUMBLES or bool(run.mixture[:, 0].min() < CHOKES),
            times=run.times,
            moments=_moments(run, opening),
        )

    def _most(self, speed: float) -> float:
        """Return the end of the axis of fuel flow: a little more than wide open draws [kg/s]."""
        return float(1e-3 * np.ceil(1.2e3 * np.max(held(self.rig, self.rig, speed).fuel_flow)))


def _readings(run: TipIn) -> tuple[Reading, ...]:
    return (
        Reading("Lambda, with the shot", run.mixture[:, 0], RATIO),
        Reading("Lambda, without it", run.mixture[:, 1], RATIO),
        Reading("Pump flow", run.shot, FLOW),
        Reading("Shot so far", run.delivered, VOLUME),
        Reading("Plunger down", run.plunger, LENGTH),
        Reading("Spring squeezed by", np.maximum(run.rod - run.plunger, 0.0), LENGTH),
        Reading("Fuel on the wall", run.film[:, 0], FILM),
        Reading("Throttle angle", run.throttle, ANGLE),
    )


def _chart(run: TipIn, most: float) -> Chart:
    """Return mixture and fuel flows against time."""
    mixture = Panel(
        y=Axis("Lambda", RATIO, 0.5, 1.5),
        curves=(
            Curve("lead", run.times, run.mixture[:, 0], "with the shot"),
            Curve("mark", run.times, run.mixture[:, 1], "without it"),
        ),
        dot=Dot(run.times, run.mixture[:, 0]),
        band=Band(STUMBLES, "stumbles"),
        share=1.4,
    )
    fuel = Panel(
        y=Axis("Fuel", FLOW, 0, most),
        curves=(
            Curve("other", run.times, run.circuits, "by the circuits"),
            Curve("third", run.times, run.shot, "by the pump"),
            Curve("fourth", run.times, run.reached[:, 0], "at cylinders"),
        ),
        dot=Dot(run.times, run.shot),
    )
    return Chart(Axis("Time", SECONDS, 0, END), (mixture, fuel))


def _verdict(run: TipIn, worst: list[float]) -> str:
    """Return in one sentence how the tip-in ends."""
    best, bare = (RATIO.text(each, "SI") for each in worst)
    if run.mixture[:, 0].min() < CHOKES:
        least = RATIO.text(float(run.mixture[:, 0].min()), "SI")
        return f"The engine bogs: the shot is too large and lambda falls to {least}."
    if run.delivered[-1] < 1e-9:
        return f"No shot: lambda rises to {best} as the throttle opens" + (
            ", and the engine stumbles." if worst[0] > STUMBLES else "."
        )
    if worst[0] > STUMBLES:
        return f"The engine stumbles: with the shot lambda still rises to {best}."
    return f"The shot covers the tip-in: lambda peaks at {best}, without it at {bare}."


def _moments(run: TipIn, opening: Opening) -> tuple[Moment, ...]:
    """Return what happens when."""
    stop = BEGIN + opening.duration
    told = [
        Moment(0.0, "The throttle stands nearly shut."),
        Moment(BEGIN, "The throttle opens; part of the fuel wets the wall."),
        Moment(stop, "The throttle stands; the spring still pushes."),
    ]
    left = run.rod - run.plunger
    over = run.times[(run.times > stop) & (left < 0.02 * run.rod[-1] + 1e-5)]
    if run.delivered[-1] > 1e-9 and over.size:
        told.append(Moment(float(over[0]), "The shot is over."))
    return tuple(told)


def _drawn(jet: float, run: TipIn, system: System) -> str:
    """Return the drawing in words."""
    return (
        "Section through the accelerator pump, the bowl and one barrel. The throttle's lever moves "
        "the pump rod down; its collar squeezes the duration spring, and the spring pushes the "
        "plunger. Fuel lifts the discharge check and leaves by the pump jet, bore "
        f"{SMALL_LENGTH.text(jet, system)}, into the barrel; the inlet check keeps it from the "
        f"bowl. In this run the rod goes {LENGTH.text(float(run.rod[-1]), system)} down and "
        f"{VOLUME.text(float(run.delivered[-1]), system)} leaves the jets. On the manifold's wall "
        "lies a film of fuel, which grows."
    )


def _plotted(run: TipIn, worst: list[float], system: System) -> str:
    """Return the plot in words."""
    most = FLOW.text(float(np.max(run.shot)), system)
    best, bare = (RATIO.text(each, system) for each in worst)
    return (
        f"Two plots against time, {END:g} s long; the throttle begins to open at {BEGIN:g} s. "
        f"Above, lambda at the cylinders: it peaks at {best} with the shot and at {bare} without. "
        f"Below, fuel flows: the circuits rise with the throttle, the pump gives up to {most} and "
        "dies away, and what reaches the cylinders lags behind both."
    )
