"""The idle-port bench: how much of the slot the throttle uncovers, and what comes out of it."""

from collections.abc import Mapping
from typing import Any, ClassVar

from fuelcircuits.benches.carburettor.measures import TURNS, height
from fuelcircuits.benches.carburettor.running import card_state
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
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.off_idle import words
from fuelcircuits.benches.off_idle.drawing import place
from fuelcircuits.benches.off_idle.found import NARROWEST, WIDEST, Found, point, whole
from fuelcircuits.physics.network.rig import Rig

__all__ = ["OffIdleBench"]

BALL: Mapping[str, str] = {"free": "works", "shut": "stuck shut", "ajar": "stuck ajar"}
CHOKE: Mapping[str, str] = {"open": "open", "shut": "nearly shut"}
RICH, LEAN = 0.6, 1.4
"""Ends of the plot of lambda [1]."""


class OffIdleBench(Bench):
    """Idle port uncovered against throttle angle, for the low-speed circuit of a rig.

    The engine runs as on the flow stand: its speed rises with the throttle.
    """

    title = "Idle port against throttle angle"
    picture = "off_idle.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"throttle": 24, "slot_width": 5, "ball": 3}
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = dict.fromkeys(
        ("slot_width", "altitude"), ("drawing",)
    )
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {
        "valve_opening": {"throttle": 0.35},
        "ball": {"throttle": 0.35},
        "choke": {"throttle": 0.35},
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
    choke = Choice("Choke plate", CHOKE, "open")
    altitude = height()

    def __init__(self, rig: Rig) -> None:
        self.card = with_sections(rig, "low_speed", "air_path")
        low = rig.low_speed
        super().__init__(
            throttle=card_state(rig, "idle").throttle_angle,
            slot_width=low.slot_width,
            slot_height=low.slot_height,
            slot_start=low.slot_start,
            screw_turns=low.screw_turns,
            valve_opening=low.valve_opening,
        )

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return what the slot passes at this angle."""
        return SHOWN.state(point(self.card, values), system)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return what the slot passes at this angle, with the curves over all angles."""
        return SHOWN.state(whole(self.card, values), system)


def _chart(found: Found) -> Chart:
    """Return areas, fuel and mixture against throttle angle."""
    along, angle = found.curves, found.throttle
    areas = Panel(
        y=Axis("Slot", AREA, 0, found.most),
        curves=(
            Curve("lead", along.angle, along.below, "slot below edge"),
            Curve("other", along.angle, along.above, "slot above edge"),
        ),
        dot=Dot(angle, found.below),
    )
    flows = Panel(
        y=Axis("Fuel", FLOW, 0, 0.8e-3),
        curves=(
            Curve("lead", along.angle, along.slot),
            Curve("third", along.angle, along.screw, "mixture screw"),
            Curve("fourth", along.angle, along.nozzle, "main nozzle"),
        ),
        dot=Dot(angle, found.slot),
    )
    mixture = Panel(
        y=Axis("Lambda", RATIO, RICH, LEAN),
        curves=(Curve("lead", along.angle, along.mixture),),
        dot=Dot(angle, min(max(found.mixture, RICH), LEAN)),
    )
    return Chart(Axis("Throttle angle", ANGLE, NARROWEST, WIDEST), (areas, flows, mixture))


SHOWN = Shown(words, place, _chart)
