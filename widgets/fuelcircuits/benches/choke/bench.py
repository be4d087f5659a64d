"""The choke bench: a warm-up with coil, plate, pull-off and fast-idle cam, in time."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, ClassVar

import numpy as np

from fuelcircuits.benches.choke.drawing import place
from fuelcircuits.benches.choke.warm_up import END, WarmUp, warm_up
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    LENGTH,
    MINUTES,
    RATIO,
    SHARE,
    SPEED,
    TEMPERATURE,
    VACUUM,
    Measure,
    System,
)
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Moment, Panel, Reading, State
from fuelcircuits.benches.frame.time_bench import TimeBench
from fuelcircuits.errors import CardError
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["ChokeBench"]

FLOODS, WIDE = 0.3, np.radians(75)
"""Lambda below which plugs get wet (common practice), and the angle that counts as open [rad]."""


class ChokeBench(TimeBench):
    """A warm-up in time, for the choke of a rig."""

    title = "Choke and fast idle in the warm-up"
    picture = "choke.svg"
    pace = 20.0
    clock: ClassVar[Measure] = MINUTES
    page_grid: ClassVar[Mapping[str, int]] = {"outside": 3, "pull_off": 2, "heat": 2}
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {
        "offset": {"pedal": "left"},
        "pull_off": {"heat": "off"},
        "speed": {"pedal": "left"},
    }

    outside = Control(
        "Outside temperature", TEMPERATURE, 248.15, 298.15, steps=(5, 10), start=268.15
    )
    turned = Control("Housing turned", ANGLE, -0.35, 0.35, steps=(2, 2), start=0)
    offset = Control("Offset of the shaft", LENGTH, 0, 6e-3, steps=(0.5, 0.02), start=3e-3)
    heat = Choice("Heat of the coil", {"on": "in order", "off": "missing"}, "on")
    pull_off = Choice("Pull-off diaphragm", {"good": "in order", "torn": "torn"}, "good")
    pedal = Choice("Pedal", {"tapped": "tapped now and then", "left": "left alone"}, "tapped")
    speed = Control("Engine speed held", SPEED, 73, 160, steps=(50, 50), start=104.72)

    def __init__(self, rig: Rig) -> None:
        for name in ("choke", "hot_soak"):
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.rig = rig
        super().__init__(offset=rig.choke.plate_offset)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return eight minutes of warm-up."""
        choke = replace(
            self.rig.choke,
            slack=self.rig.choke.slack + values["turned"],
            plate_offset=values["offset"],
            pull_off_leak=1.0 if values["pull_off"] == "torn" else 0.0,
        )
        rig = replace(self.rig, choke=choke)
        heated, tapped = values["heat"] == "on", values["pedal"] == "tapped"
        run = warm_up(
            self.rig, rig, values["outside"], values["speed"], heated=heated, tapped=tapped
        )
        opens, first = _opens(run), float(run.state.mixture[0])
        return State(
            readings=_readings(run),
            numbers=place(rig, run, heated),
            chart=_chart(run),
            verdict=_verdict(run, opens, first, system),
            drawn=_drawn(rig, run, system),
            plotted=_plotted(run, opens, system),
            alarm=first < FLOODS or opens is None,
            times=run.times,
            moments=_moments(run, opens),
        )


def _opens(run: WarmUp) -> float | None:
    """Return when the choke is open [s], or None if it never is."""
    there = run.times[run.plate >= WIDE]
    return float(there[0]) if there.size else None


def _readings(run: WarmUp) -> tuple[Reading, ...]:
    burns = run.state.mixture / np.maximum(run.vapour, 0.01)
    return (
        Reading("Choke plate", run.plate, ANGLE),
        Reading("Lambda delivered", run.state.mixture, RATIO),
        Reading("Lambda that can burn", burns, RATIO),
        Reading("Fuel that evaporates", run.vapour, SHARE),
        Reading("Coil", run.coil, TEMPERATURE),
        Reading("Coolant", run.coolant, TEMPERATURE),
        Reading("Throttle opened by cam", run.cam, ANGLE),
        Reading("Manifold vacuum", run.state.manifold_vacuum, VACUUM),
    )


def _chart(run: WarmUp) -> Chart:
    """Return plate angle and mixture against time."""
    burns = run.state.mixture / np.maximum(run.vapour, 0.01)
    plate = Panel(
        y=Axis("Plate angle", ANGLE, 0, np.radians(95)),
        curves=(
            Curve("lead", run.times, run.plate, "choke plate"),
            Curve("mark", run.times, np.clip(run.rest, 0, OPEN), "coil alone"),
        ),
        dot=Dot(run.times, run.plate),
    )
    mixture = Panel(
        y=Axis("Lambda", RATIO, 0, 1.6),
        curves=(
            Curve("other", run.times, run.state.mixture, "delivered"),
            Curve("third", run.times, np.minimum(burns, 1.6), "can burn"),
        ),
        dot=Dot(run.times, run.state.mixture),
    )
    return Chart(Axis("Time", MINUTES, 0, END), (plate, mixture))


def _verdict(run: WarmUp, opens: float | None, first: float, system: System) -> str:
    """Return in one sentence how the warm-up goes."""
    start = RATIO.text(first, system)
    if first < FLOODS:
        return f"The engine floods: nothing pulls the plate off, and lambda starts at {start}."
    if opens is None:
        left = ANGLE.text(float(run.plate[-1]), system)
        return f"The choke does not open: after 8 min the plate stands at {left}, still rich."
    when = MINUTES.text(opens, system)
    return f"The engine starts at lambda {start}, and the choke is open after {when}."


def _moments(run: WarmUp, opens: float | None) -> tuple[Moment, ...]:
    """Return what happens when."""
    told = [Moment(0.0, "The engine fires; vacuum pulls the plate off.")]
    falls = np.nonzero(np.diff(run.cam) < -1e-6)[0]
    for step, index in enumerate(falls):
        gone = run.cam[index + 1] < 1e-6
        word = "The cam lets go; the choke is open." if gone else f"Cam step {step + 2}."
        told.append(Moment(float(run.times[index + 1]), word))
    if opens is not None and opens > told[-1].time:
        told.append(Moment(opens, "The choke is open."))
    return tuple(told)


def _drawn(rig: Rig, run: WarmUp, system: System) -> str:
    """Return the drawing in words."""
    return (
        "Section through the air horn. The choke plate turns on a shaft "
        f"{LENGTH.text(rig.choke.plate_offset, system)} off its middle, so the air pushes the "
        "larger wing down and open. On the same shaft sits the coil of two metals, which shuts the "
        "plate when cold. The pull-off diaphragm opens it a little as soon as there is vacuum, and "
        "the steps of the fast-idle cam hold the throttle open. The plate stands at "
        f"{ANGLE.text(float(run.plate[0]), system)} just after the start and at "
        f"{ANGLE.text(float(run.plate[-1]), system)} after 8 min."
    )


def _plotted(run: WarmUp, opens: float | None, system: System) -> str:
    """Return the plot in words."""
    ends = [RATIO.text(float(run.state.mixture[place]), system) for place in (0, -1)]
    coils = [TEMPERATURE.text(float(run.coil[place]), system) for place in (0, -1)]
    wide = "never opens" if opens is None else f"is open after {MINUTES.text(opens, system)}"
    return (
        f"Two plots against time, 8 min long. Above, the plate's angle: the choke {wide}, while "
        f"the coil warms from {coils[0]} to {coils[1]}; a dashed line shows where the coil alone "
        f"would hold the plate. Below, lambda: the carburettor delivers {ends[0]} at the start "
        f"and {ends[1]} at the end; less of the fuel evaporates while the engine is cold, so the "
        "mixture that can burn is leaner."
    )
