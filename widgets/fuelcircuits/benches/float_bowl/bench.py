"""The float bench: how far the float drops, and how much fuel the inlet then lets in."""

from collections.abc import Mapping
from typing import Any, ClassVar

from fuelcircuits.benches.float_bowl import words
from fuelcircuits.benches.float_bowl.drawing import place
from fuelcircuits.benches.float_bowl.found import Found, point, whole
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    FLOW,
    LENGTH,
    PRESSURE,
    SHARE,
    SMALL_LENGTH,
    System,
)
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Band, Chart, Curve, Dot, Panel, State
from fuelcircuits.physics.network.rig import Rig

__all__ = ["FloatBowlBench"]


class FloatBowlBench(Bench):
    """Float drop against inlet flow, for the float circuit of a rig."""

    title = "Float drop against inlet flow"
    picture = "float_bowl.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"fuel_pressure": 21, "demand": 25}

    fuel_pressure = Control("Fuel pressure", PRESSURE, 2e3, 60e3, steps=(0.5, 0.1), start=34.5e3)
    seat_bore = Control("Seat bore", SMALL_LENGTH, 1e-3, 4e-3, steps=(0.05, 0.002), start=2.3e-3)
    float_setting = Control("Float setting", LENGTH, 2e-3, 20e-3, steps=(0.25, 0.01), start=9e-3)
    soaked = Control("Float soaked", SHARE, 0, 0.5, steps=(1, 1), start=0)
    ethanol = Control("Ethanol in fuel", SHARE, 0, 0.85, steps=(5, 5), start=0)
    demand = Control("Fuel drawn", FLOW, 0, 12e-3, steps=(0.1, 1), start=3e-3)

    def __init__(self, rig: Rig) -> None:
        self.card = with_sections(rig, "float_bowl").float_bowl
        super().__init__(
            fuel_pressure=self.card.fuel_pressure,
            seat_bore=self.card.seat_bore,
            float_setting=self.card.float_setting,
            soaked=self.card.soaked,
        )

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return where the bowl settles, with the curve of all it could do."""
        return SHOWN.state(whole(self.card, values), system)

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return where the bowl settles."""
        return SHOWN.state(point(self.card, values), system)


def _chart(found: Found) -> Chart:
    """Return inlet flow and level against float drop, with what they are held against."""
    now, along, (end, top) = found.settled, found.along, found.ends
    inlet = Panel(
        y=Axis("Inlet flow", FLOW, 0, top),
        curves=(
            Curve("lead", along.drop, along.flow, "inlet and bowl"),
            Curve("other", [0, end], [found.demand, found.demand], "engine draws"),
        ),
        dot=Dot(now.drop, now.inlet_flow),
        band=Band(found.most, "bowl starves"),
        share=2.0,
    )
    level = Panel(
        y=Axis("Level from card", LENGTH, -16e-3, 16e-3),
        curves=(
            Curve("lead", along.drop, along.high, "inlet and bowl"),
            Curve("mark", [0, end], [0, 0], "card's level"),
        ),
        dot=Dot(now.drop, found.high),
    )
    return Chart(Axis("Float drop", LENGTH, 0, end), (inlet, level))


SHOWN = Shown(words, place, _chart)
