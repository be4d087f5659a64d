"""The idle-port bench: how much of the slot the throttle uncovers, and what comes out of it."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, ClassVar, NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.benches.carburettor.idle_measures import TURNS
from fuelcircuits.benches.carburettor.mixture_curve import curve
from fuelcircuits.benches.carburettor.running import AIR, PETROL, card_state
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    AREA,
    FLOW,
    RATIO,
    SMALL_LENGTH,
    SMALL_PRESSURE,
    System,
)
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.off_idle.drawing import place
from fuelcircuits.benches.off_idle.words import LEANEST, drawn, gauges, plotted, readings, verdict
from fuelcircuits.errors import CardError, ConvergenceError
from fuelcircuits.physics.circuits.low_speed import LowSpeed
from fuelcircuits.physics.network import state as solved
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import solve

__all__ = ["OffIdleBench"]

Floats = NDArray[np.float64]

NARROWEST, WIDEST = 0.21, 0.5
"""Throttle angles between which the bench works [rad]: below the stop, and past the slot."""
COUNT = 36
AJAR = 0.2
"""Share of its lift at which a ball that is stuck ajar stands [1]."""
BALL: Mapping[str, str] = {"free": "works", "shut": "stuck shut", "ajar": "stuck ajar"}
RICH, LEAN = 0.6, 1.4
"""Ends of the plot of lambda [1]."""


class Along(NamedTuple):
    """What is plotted at each angle [rad]: areas of one slot [m2], fuel [kg/s], lambda [1]."""

    angle: Floats
    below: Floats
    above: Floats
    slot: Floats
    screw: Floats
    nozzle: Floats
    mixture: Floats


class OffIdleBench(Bench):
    """Idle port uncovered against throttle angle, for the low-speed circuit of a rig.

    The engine runs as on the flow stand: its speed rises with the throttle.
    """

    title = "Idle port against throttle angle"
    picture = "off_idle.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"throttle": 24, "slot_width": 5, "ball": 3}
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {"slot_width": ("drawing",)}
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {
        "valve_opening": {"throttle": 0.35},
        "ball": {"throttle": 0.35},
    }

    throttle = Control("Throttle angle", ANGLE, NARROWEST, WIDEST, steps=(0.25, 0.25), start=0.233)
    slot_width = Control(
        "Slot width", SMALL_LENGTH, 0.24e-3, 1.2e-3, steps=(0.02, 0.001), start=0.72e-3
    )
    slot_height = Control(
        "Slot height", SMALL_LENGTH, 2.5e-3, 6e-3, steps=(0.1, 0.005), start=4.75e-3
    )
    slot_start = Control(
        "Slot foot above shaft", SMALL_LENGTH, 2.5e-3, 4.5e-3, steps=(0.05, 0.002), start=3.1e-3
    )
    screw_turns = Control("Mixture screw open", TURNS, 0.5, 5, steps=(0.125, 0.125), start=2.4)
    valve_opening = Control(
        "Bleed valve opens at", SMALL_PRESSURE, 1000, 4000, steps=(50, 0.25), start=2240
    )
    ball = Choice("Bleed valve's ball", BALL, "free")

    def __init__(self, rig: Rig) -> None:
        for name in ("low_speed", "air_path"):
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.card, low = rig, rig.low_speed
        super().__init__(
            throttle=float(card_state(rig, "idle").throttle_angle),
            slot_width=low.slot_width,
            slot_height=low.slot_height,
            slot_start=low.slot_start,
            screw_turns=low.screw_turns,
            valve_opening=low.valve_opening,
        )

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return what the slot passes at this angle, with the curve over all angles."""
        low = _changed(self.card.low_speed, values)
        rig, angle = replace(self.card, low_speed=low), values["throttle"]
        now, stop = _at(self.card, rig, angle), card_state(self.card, "idle").throttle_angle
        return State(
            readings=readings(now),
            numbers=place(rig, angle, now),
            chart=self._chart(_along(self.card, rig), angle, now),
            verdict=verdict(now, float(stop), system),
            drawn=drawn(rig, angle, now, system),
            plotted=plotted(now, angle, system),
            alarm=bool(now.mixture > LEANEST),
            gauges=gauges(now),
        )

    def _chart(self, along: Along, angle: float, now: solved.State) -> Chart:
        """Return areas, fuel and mixture against throttle angle."""
        card, x = self.card.low_speed, along.angle
        by = now.fuel_by_circuit
        areas = Panel(
            y=Axis("Slot", AREA, 0, float(1.5 * card.slot_width * card.slot_height)),
            curves=(
                Curve("lead", x, along.below, "slot below edge"),
                Curve("other", x, along.above, "slot above edge"),
            ),
            dot=Dot(angle, float(now.slot_below[0])),
        )
        flows = Panel(
            y=Axis("Fuel", FLOW, 0, 0.8e-3),
            curves=(
                Curve("lead", x, along.slot),
                Curve("third", x, along.screw, "mixture screw"),
                Curve("fourth", x, along.nozzle, "main nozzle"),
            ),
            dot=Dot(angle, float(by["slot"])),
        )
        mixture = Panel(
            y=Axis("Lambda", RATIO, RICH, LEAN),
            curves=(Curve("lead", x, along.mixture),),
            dot=Dot(angle, float(np.clip(now.mixture, RICH, LEAN))),
        )
        return Chart(Axis("Throttle angle", ANGLE, NARROWEST, WIDEST), (areas, flows, mixture))


def _changed(card: LowSpeed, values: Mapping[str, Any]) -> LowSpeed:
    """Return the circuit as it has been changed; a limiter's stops are off on the bench."""
    names = ("slot_width", "slot_height", "slot_start", "screw_turns", "valve_opening")
    ball = {"shut": {"valve_most": 0.0}, "ajar": {"valve_least": AJAR}}.get(values["ball"], {})
    stops = {"fewest_turns": 0.0, "most_turns": 12.0}
    return replace(card, **{name: values[name] for name in names}, **stops, **ball)


def _speed(card: Rig, angle: Any) -> Floats:
    """Return the engine speed that goes with a throttle angle on the flow stand [rad/s]."""
    home = curve(card, card)
    return np.asarray(np.interp(angle, home.throttle_angle, home.speed))


@lru_cache(maxsize=16)
def _home(card: Rig) -> solved.State:
    angle = np.linspace(NARROWEST, WIDEST, COUNT)
    return solve(card, AIR, PETROL, _speed(card, angle), angle)


@lru_cache(maxsize=128)
def _along(card: Rig, rig: Rig) -> Along:
    """Return what is plotted at all angles; a gap where there is no balance."""
    home = _home(card)
    try:
        return _shown(solve(rig, AIR, PETROL, home.speed, home.throttle_angle, start=home))
    except ConvergenceError:
        each = [_alone(card, rig, float(angle)) for angle in home.throttle_angle]
        return Along(home.throttle_angle, *np.array(each).T)


def _shown(found: solved.State) -> Along:
    fuel = found.fuel_by_circuit
    mixture = np.where(np.isfinite(found.mixture), found.mixture, np.nan)
    by = (fuel["slot"], fuel["screw"], fuel["nozzle"])
    return Along(
        found.throttle_angle, *np.array([found.slot_below[0], found.slot_above[0], *by, mixture])
    )


def _alone(card: Rig, rig: Rig, angle: float) -> list[float]:
    try:
        return [float(each) for each in _shown(_at(card, rig, angle))[1:]]
    except ConvergenceError:
        return [np.nan] * 6


@lru_cache(maxsize=256)
def _at(card: Rig, rig: Rig, angle: float) -> solved.State:
    """Return the state at one angle, found from that of the card next to it."""
    home = _home(card)
    nearest = int(np.argmin(np.abs(home.throttle_angle - angle)))
    start = home._replace(unknowns=home.unknowns[:, nearest : nearest + 1])
    speed = _speed(card, angle)
    try:
        return solve(rig, AIR, PETROL, speed, angle, start=start)
    except ConvergenceError:
        return solve(rig, AIR, PETROL, speed, angle)
