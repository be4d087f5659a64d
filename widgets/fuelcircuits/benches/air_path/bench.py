"""The air-path bench: how deep a depression the engine's air makes in venturi and booster."""

from collections.abc import Mapping
from typing import Any, ClassVar

from fuelcircuits.benches.air_path import words
from fuelcircuits.benches.air_path.drawing import place
from fuelcircuits.benches.air_path.found import Found, whole
from fuelcircuits.benches.air_path.words import VELOCITY
from fuelcircuits.benches.carburettor.measures import ALTITUDE
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    AIR_FLOW,
    ANGLE,
    LENGTH,
    PRESSURE,
    SHARE,
    SPEED,
    System,
)
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["AirPathBench"]


class AirPathBench(Bench):
    """Booster depression against air flow, for the air path and the engine of a rig."""

    title = "Booster depression against air flow"
    picture = "air_path.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"throttle": 48, "venturi_bore": 8}

    throttle = Control("Throttle angle", ANGLE, 0.21, OPEN, steps=(1, 1), start=0.45)
    speed = Control("Engine speed", SPEED, 52.4, 481.7, steps=(50, 50), start=220)
    venturi_bore = Control(
        "Main venturi bore", LENGTH, 22e-3, 34e-3, steps=(0.25, 0.01), start=25.5e-3
    )
    cleaner_blocked = Control("Air cleaner blocked", SHARE, 0, 0.7, steps=(5, 5), start=0)
    choke_angle = Control("Choke plate angle", ANGLE, 0.44, OPEN, steps=(1, 1), start=OPEN)
    altitude = Control("Height above sea", ALTITUDE, 0, 3000, steps=(100, 500), start=0)

    def __init__(self, rig: Rig) -> None:
        self.card = with_sections(rig, "air_path", "engine")
        super().__init__(venturi_bore=rig.air_path.venturi_bore)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return flows and depressions, with the curve over all air flows."""
        return SHOWN.state(whole(self.card, values), system)


def _chart(found: Found) -> Chart:
    """Return depressions, and the air's speed, against air flow."""
    along, (most, deepest) = found.curves, found.ends
    deep = Panel(
        y=Axis("Depression", PRESSURE, 0, deepest),
        curves=(
            Curve("lead", along.flow, along.booster, "booster"),
            Curve("other", along.flow, along.plain, "if incompressible"),
            Curve("third", along.flow, along.venturi, "main venturi"),
        ),
        dot=Dot(found.flow, found.booster),
        share=1.7,
    )
    fast = Panel(
        y=Axis("Air in booster", VELOCITY, 0, 200),
        curves=(Curve("lead", along.flow, along.velocity),),
        dot=Dot(found.flow, found.velocity),
    )
    return Chart(Axis("Air flow", AIR_FLOW, 0, most), (deep, fast))


SHOWN = Shown(words, place, _chart)
