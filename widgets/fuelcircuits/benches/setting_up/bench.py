"""The setting bench: level, vent, idle and fast idle set by gauges that are not quite true."""

from collections.abc import Mapping
from typing import Any, ClassVar

import numpy as np

from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    FINE_SHARE,
    LENGTH,
    PRESSURE,
    SMALL_LENGTH,
    SMALL_PRESSURE,
    SPEED,
    TEMPERATURE,
    VACUUM,
    System,
    measure,
)
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, Reading, State
from fuelcircuits.benches.setting_up.drawing import place
from fuelcircuits.benches.setting_up.idle_setting import TURNS, Adjusted, Idle, card_settings, idle
from fuelcircuits.errors import CardError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["LIMITS", "SettingUpBench"]

COUNT = measure("dimensionless", ("dimensionless", 0), ("dimensionless", 0))
TURN_COUNT = measure("dimensionless", ("dimensionless", 2), ("dimensionless", 2))
RPM = np.pi / 30
LIMITS: Mapping[str, float] = {
    "level": 0.8e-3,
    "vent": 0.2e-3,
    "idle": 30 * RPM,
    "mixture": 0.5e-2,
    "fast idle": 75 * RPM,
}
"""How far each may be off the card; widths that are common practice, no source."""


class SettingUpBench(Bench):
    """A badly set carburettor on a warm engine, to be set by its gauges.

    The gauges have errors of their own and scatter, drawn from `seed`; another "Reading no."
    reads everything once more. `measured()` gives what the gauges show.
    """

    title = "Setting up by the gauges"
    picture = "setting_up.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"idle_screw": 12, "mixture_screw": 9, "cam": 2}
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {
        "reading": ("drawing", "plot", "readings"),
        "fast_screw": ("drawing", "plot", "readings"),
        "float_setting": ("readings",),
        "mixture_screw": ("readings",),
        "cam": ("plot",),
    }

    float_setting = Control("Float setting", LENGTH, 5e-3, 14e-3, steps=(0.25, 0.01), start=9e-3)
    vent_setting = Control(
        "Outside vent set", SMALL_LENGTH, 0, 3e-3, steps=(0.1, 0.004), start=1.5e-3
    )
    idle_screw = Control("Idle speed, turns in", TURN_COUNT, -0.5, 5, steps=(0.1, 0.1), start=0)
    mixture_screw = Control(
        "Mixture, turns out", TURN_COUNT, 1.9, 4.5, steps=(0.05, 0.05), start=2.4
    )
    fast_screw = Control("Fast idle, turns in", TURN_COUNT, -3, 3, steps=(0.1, 0.1), start=0)
    cam = Choice("Throttle rests", {"stop": "on the idle stop", "cam": "on cam step 2"}, "stop")
    reading = Control("Reading no.", COUNT, 1, 12, steps=(1, 1), start=1)

    def __init__(self, rig: Rig, seed: int = 11) -> None:
        for name in ("float_bowl", "vents", "low_speed", "choke"):
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.rig, self.card = rig, card_settings(rig)
        super().__init__(
            float_setting=self.card.float_setting - 2.5e-3,
            vent_setting=self.card.vent_setting * 0.4,
            idle_screw=2.4,
            mixture_screw=min(self.card.mixture_screw + 0.8, 4.5),
            fast_screw=1.2,
        )
        self.seed = seed

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return what the engine does, and what the gauges would show if they were true."""
        names = ("float_setting", "vent_setting", "idle_screw", "mixture_screw", "fast_screw")
        setting = Adjusted(**{name: values[name] for name in names})
        now, card, on_cam = (
            idle(self.rig, setting),
            idle(self.rig, self.card),
            values["cam"] == "cam",
        )
        right = within(self.rig, now, card)
        stalls = now.speed[-1 if on_cam else -2] == 0
        return State(
            readings=_readings(self.rig, now, card, on_cam),
            numbers=place(self.rig, setting, now, on_cam),
            chart=_chart(now, card, values["idle_screw"]),
            verdict=_verdict(right, bool(stalls)),
            drawn=_drawn(setting, now, on_cam, system),
            plotted=_plotted(now, card, system),
            alarm=bool(stalls) or not all(right.values()),
            gauges=_gauges(self.rig, now, card, on_cam),
        )


def within(rig: Rig, now: Idle, card: Idle) -> dict[str, bool]:
    """Return for each setting whether it is within the card, by what is truly there."""
    off = {
        "level": now.level - card.level,
        "vent": now.lift - card.lift,
        "idle": now.speed[-2] - card.speed[-2],
        "mixture": now.co[-2] - card.co[-2],
        "fast idle": now.speed[-1] - card.speed[-1],
    }
    if rig.vents.outside_bore == 0:
        del off["vent"]
    return {name: bool(abs(far) <= LIMITS[name]) for name, far in off.items()}


def _gauges(rig: Rig, now: Idle, card: Idle, on_cam: bool) -> tuple[Gauge, ...]:
    """Return the instruments, each with its accuracy, its scatter and the card's range."""
    place = -1 if on_cam else -2
    rpm, wide = float(card.speed[place]), LIMITS["fast idle" if on_cam else "idle"]
    co, pump = float(card.co[-2]), rig.float_bowl.fuel_pressure
    signal = float(card.state.chamber_vacuum[0, -2])
    at_idle = not on_cam
    vacuum = float(card.state.manifold_vacuum[-2])
    return (
        Gauge("Engine speed", float(now.speed[place]), SPEED, 0, 2000 * RPM, 8 * RPM, 4 * RPM,
              good=(rpm - wide, rpm + wide)),
        Gauge("CO", float(now.co[place]), FINE_SHARE, 0, 0.1, 1.5e-3, 1e-3,
              good=(co - LIMITS["mixture"], co + LIMITS["mixture"]) if at_idle else None),
        Gauge("Fuel under the face", now.below, LENGTH, 5e-3, 30e-3, 0.3e-3, 0.2e-3,
              good=(card.below - LIMITS["level"], card.below + LIMITS["level"]), column=True),
        Gauge("Idle-port vacuum", float(now.state.chamber_vacuum[0, place]), SMALL_PRESSURE,
              0, 5000, 25.0, 20.0,
              good=(0.8 * signal, 1.2 * signal) if at_idle else None, column=True),
        Gauge("Manifold vacuum", float(now.state.manifold_vacuum[place]), VACUUM, 0, 100e3,
              1.6e3, 0.5e3, good=(vacuum - 3.4e3, vacuum + 3.4e3) if at_idle else None),
        Gauge("Fuel pressure", pump, PRESSURE, 0, 103e3, 2.6e3, 0.7e3,
              good=(pump - 3.5e3, pump + 3.5e3)),
        Gauge("Engine temperature", rig.hot_soak.block_temperature if rig.hot_soak else 363.15,
              TEMPERATURE, 293.15, 393.15, 2.0, 0.5, good=(353.15, 373.15)),
    )  # fmt: skip


def _readings(rig: Rig, now: Idle, card: Idle, on_cam: bool) -> tuple[Reading, ...]:
    """Return what is seen without a gauge, and the card."""
    return (
        Reading("Throttle stands at", float(now.throttle[-1 if on_cam else -2]), ANGLE),
        Reading("Outside vent open", now.lift, SMALL_LENGTH),
        Reading("Card: fuel under the face", card.below, LENGTH),
        Reading("Card: outside vent open", card.lift, SMALL_LENGTH),
        Reading("Card: idle speed", float(card.speed[-2]), SPEED),
        Reading("Card: CO at idle", float(card.co[-2]), FINE_SHARE),
        Reading("Card: fast idle, step 2", float(card.speed[-1]), SPEED),
    )


def _chart(now: Idle, card: Idle, screw: float) -> Chart:
    """Return speed and CO against the idle speed screw."""
    speed = Panel(
        y=Axis("Idle speed", SPEED, 0, 1600 * RPM),
        curves=(
            Curve("lead", TURNS, now.speed[:-2], "as it is set"),
            Curve("mark", TURNS, card.speed[:-2], "by the card"),
        ),
        dot=Dot(screw, float(now.speed[-2])),
    )
    gas = Panel(
        y=Axis("CO", FINE_SHARE, 0, 0.12),
        curves=(
            Curve("lead", TURNS, now.co[:-2], "as it is set"),
            Curve("mark", TURNS, card.co[:-2], "by the card"),
        ),
        dot=Dot(screw, float(now.co[-2])),
    )
    return Chart(Axis("Idle speed screw, turns in", TURN_COUNT, -0.5, 5), (speed, gas))


def _verdict(right: Mapping[str, bool], stalls: bool) -> str:
    """Return in one sentence how far the work has come; which setting is off is for the gauges."""
    if stalls:
        return "The engine stalls."
    good = sum(right.values())
    if good == len(right):
        return f"Well done: all {good} settings are within the card."
    return f"The engine runs, but only {good} of {len(right)} settings are within the card."


def _drawn(setting: Adjusted, now: Idle, on_cam: bool, system: System) -> str:
    """Return the drawing in words."""
    stands = ANGLE.text(float(now.throttle[-1 if on_cam else -2]), system)
    rests = "the second step of the fast-idle cam" if on_cam else "the idle speed screw"
    return (
        "Section through bowl and one barrel. The fuel stands "
        f"{LENGTH.text(now.below, system)} under the gasket face; a dashed line marks the card's "
        f"level. The outside vent is {SMALL_LENGTH.text(now.lift, system)} open. The throttle's "
        f"lever rests on {rests}, at {stands}. The mixture screw is "
        f"{setting.mixture_screw:.2f} turns off its seat."
    )


def _plotted(now: Idle, card: Idle, system: System) -> str:
    """Return the plot in words."""
    speeds = [SPEED.text(float(each.speed[-2]), system) for each in (now, card)]
    gases = [FINE_SHARE.text(float(each.co[-2]), system) for each in (now, card)]
    return (
        "Two plots against the turns of the idle speed screw, each with the line of the engine as "
        f"it is set and a dashed one by the card. Above, idle speed, now {speeds[0]}; the card "
        f"says {speeds[1]}. Below, carbon monoxide, now {gases[0]}; the card says {gases[1]}."
    )
