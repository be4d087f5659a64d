"""The high-speed bench: the mixture curve, what each circuit adds, and the air-bled well."""

from collections.abc import Mapping
from math import ceil
from typing import Any, ClassVar

from fuelcircuits.benches.carburettor.measures import ALTITUDE
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    AIR_FLOW,
    FLOW,
    LENGTH,
    RATIO,
    SHARE,
    SMALL_LENGTH,
    System,
)
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Band, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.high_speed import words
from fuelcircuits.benches.high_speed.drawing import place
from fuelcircuits.benches.high_speed.found import BLEED, Found, point, whole
from fuelcircuits.benches.high_speed.words import LEANEST
from fuelcircuits.physics.circuits.nozzle_slope import SLOPES
from fuelcircuits.physics.network.rig import Rig

__all__ = ["HighSpeedBench"]


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
        self.card = with_sections(rig, "high_speed")
        high = rig.high_speed
        bled = high.air_bleed_bore > 0
        super().__init__(
            jet_bore=high.jet_bore,
            nozzle="bled" if bled else "plain",
            air_bleed=high.air_bleed_bore if bled else BLEED,
            lip=high.lip,
        )

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return where the engine runs."""
        return SHOWN.state(point(self.card, values), system)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return where the engine runs, and the curve of all it could do."""
        return SHOWN.state(whole(self.card, values), system)


def _chart(found: Found) -> Chart:
    """Return mixture and fuel by circuit against air flow."""
    along, air = found.curves, found.streams.air
    most = 10e-3 * ceil(105 * found.most)
    mixture = Panel(
        y=Axis("Lambda", RATIO, 0.6, 1.3),
        curves=(
            Curve("lead", along.air, along.mixture, "mixture"),
            Curve("mark", along.plain_air, along.plain_mixture, "plain nozzle"),
        ),
        dot=Dot(air, found.mixture),
        band=Band(LEANEST, "hesitates"),
        share=1.5,
    )
    fuel = Panel(
        y=Axis("Fuel", FLOW, 0, most / 10),
        curves=(
            Curve("fifth", along.air, along.main, "main"),
            Curve("other", along.air, along.idle, "idle"),
            Curve("third", along.air, along.transfer, "transfer"),
            Curve("fourth", along.air, along.power, "power"),
        ),
    )
    return Chart(Axis("Air flow", AIR_FLOW, 0, most), (mixture, fuel))


SHOWN = Shown(words, place, _chart)
