"""The low-speed bench: jet, air bleeds, economizer and mixture screw, and the idle they give."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, ClassVar, NamedTuple

import numpy as np

from fuelcircuits.benches.carburettor.idle_measures import TURNS
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import FINE_SHARE, RATIO, SMALL_LENGTH, System
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.low_speed.drawing import place
from fuelcircuits.benches.low_speed.screw_turns import (
    FEWEST,
    KINDS,
    MOST,
    at_turns,
    fitted,
    held,
    over_turns,
)
from fuelcircuits.benches.low_speed.words import (
    LEANEST,
    RICHEST,
    drawn,
    gauges,
    monoxide,
    plotted,
    readings,
    verdict,
)
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.low_speed import LowSpeed
from fuelcircuits.physics.network import state as solved
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Idle", "LowSpeedBench"]

RICH, LEAN = 0.6, 1.4
"""Ends of the plot of lambda [1]."""


class Idle(NamedTuple):
    """What the bench has worked out at one setting."""

    kind: str
    low: LowSpeed  # as changed, with its kind of screw
    turns: float  # where the screw stands
    clockwise: float  # turns made from the card's setting
    state: solved.State


class LowSpeedBench(Bench):
    """Idle mixture against turns of the mixture screw, for the low-speed circuit of a rig.

    Throttle stop and engine speed stay where the card's own idle has them.
    """

    title = "Idle mixture against the screw's turns"
    picture = "low_speed.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"screw_turns": 33, "kind": 5}
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {"kind": {"screw_turns": 4.5}}

    screw_turns = Control(
        "Screw off its seat", TURNS, FEWEST, MOST, steps=(0.125, 0.125), start=2.4
    )
    jet_bore = Control(
        "Low-speed jet", SMALL_LENGTH, 0.4e-3, 1.1e-3, steps=(0.02, 0.001), start=0.72e-3
    )
    bypass_bore = Control(
        "By-pass bleed", SMALL_LENGTH, 0.1e-3, 1.3e-3, steps=(0.02, 0.001), start=0.76e-3
    )
    air_bleed_bore = Control(
        "Idle air bleed", SMALL_LENGTH, 0.1e-3, 1.3e-3, steps=(0.02, 0.001), start=0.87e-3
    )
    economizer_bore = Control(
        "Economizer", SMALL_LENGTH, 0.8e-3, 3e-3, steps=(0.05, 0.002), start=1.86e-3
    )
    kind = Choice("Mixture screw", KINDS, "plain")

    def __init__(self, rig: Rig) -> None:
        for name in ("low_speed", "air_path", "engine"):
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.card, low = rig, rig.low_speed
        super().__init__(
            screw_turns=low.screw_turns,
            jet_bore=low.jet_bore,
            bypass_bore=low.bypass_bore,
            air_bleed_bore=low.air_bleed_bore,
            economizer_bore=low.economizer_bore,
        )

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the idle with this circuit, with the curve over the screw's turns."""
        names = ("jet_bore", "bypass_bore", "air_bleed_bore", "economizer_bore")
        changed = replace(self.card.low_speed, **{name: values[name] for name in names})
        low = fitted(changed, values["kind"])
        turns, clockwise = held(low, values["screw_turns"])
        now = Idle(values["kind"], low, turns, clockwise, at_turns(self.card, low, turns))
        return State(
            readings=readings(now, self.card),
            numbers=place(now),
            chart=self._chart(now),
            verdict=verdict(now, system),
            drawn=drawn(now, system),
            plotted=plotted(now, system),
            alarm=not RICHEST < now.state.mixture < LEANEST,
            gauges=gauges(now.state),
        )

    def _chart(self, now: Idle) -> Chart:
        """Return lambda and carbon monoxide against the screw's turns."""
        turns, along = over_turns(self.card, now.low)
        mixture = np.where(np.isfinite(along.mixture), along.mixture, np.nan)
        ends = np.clip(np.array([now.low.fewest_turns, now.low.most_turns]), FEWEST, MOST)
        stops = np.repeat(ends, 3)
        upright = np.array([RICH, LEAN, np.nan, RICH, LEAN, np.nan])
        capped = now.kind in ("limited", "sealed")
        lambda_panel = Panel(
            y=Axis("Lambda", RATIO, RICH, LEAN),
            curves=(
                Curve("lead", turns, mixture, "this circuit"),
                Curve("other", turns, np.ones_like(turns), "just burns"),
                Curve("mark", stops, upright if capped else np.full(6, np.nan), "stops"),
            ),
            dot=Dot(now.turns, float(np.clip(now.state.mixture, RICH, LEAN))),
            share=1.6,
        )
        co = np.array([monoxide(each) for each in mixture])
        co_panel = Panel(
            y=Axis("CO", FINE_SHARE, 0, 0.1),
            curves=(Curve("lead", turns, co),),
            dot=Dot(now.turns, monoxide(float(now.state.mixture))),
        )
        return Chart(Axis("Screw off its seat", TURNS, FEWEST, MOST), (lambda_panel, co_panel))
