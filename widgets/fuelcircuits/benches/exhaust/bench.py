"""The exhaust bench: one mixture, and all that it shows itself in."""

from collections.abc import Mapping
from typing import Any, ClassVar

from fuelcircuits.benches.exhaust import words
from fuelcircuits.benches.exhaust.drawing import place
from fuelcircuits.benches.exhaust.found import Found, point, whole, work
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import RATIO, SHARE, System
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State

__all__ = ["ExhaustBench"]


class ExhaustBench(Bench):
    """Lambda against the gases of the exhaust, torque and consumption; no rig is needed."""

    title = "The mixture, and what the exhaust tells of it"
    picture = "exhaust.svg"
    needs_rig = False
    page_grid: ClassVar[Mapping[str, int]] = {"petrol_lambda": 31, "ethanol": 4, "false_air": 4}

    petrol_lambda = Control("Lambda on petrol", RATIO, 0.7, 1.3, steps=(0.01, 0.01), start=0.95)
    ethanol = Control("Ethanol in fuel", SHARE, 0, 0.3, steps=(1, 1), start=0)
    spread = Control("Spread of cylinders", SHARE, 0, 0.1, steps=(0.5, 0.5), start=0.03)
    false_air = Control("False air at probe", SHARE, 0, 0.4, steps=(1, 1), start=0)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return what leaves the engine, with the curves over every lambda."""
        return SHOWN.state(whole(values), system)

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return what leaves the engine, the gases at other mixtures still to come."""
        return SHOWN.state(point(values), system)


def _chart(found: Found) -> Chart:
    """Return gases, torque and consumption against the true lambda."""
    return Chart(Axis("Lambda", RATIO, 0.65, 1.5), (_gases(found), _work(found)))


def _gases(found: Found) -> Panel:
    x, co, o2, co2 = found.gases or (None,) * 4
    return Panel(
        y=Axis("Dry exhaust by volume", SHARE, 0, 0.16),
        curves=(
            Curve("mark", [found.mixture] * 2, [0, 0.16]),
            Curve("lead", x, co, "CO"),
            Curve("other", x, o2, "O₂"),
            Curve("third", x, co2, "CO₂"),
        ),
        dot=Dot(found.mixture, found.gas.co),
        share=1.6,
    )


def _work(found: Found) -> Panel:
    along = work()
    return Panel(
        y=Axis("Of the best", SHARE, 0.6, 1.5),
        curves=(
            Curve("mark", [found.mixture] * 2, [0.6, 1.5]),
            Curve("fourth", along.mixture, along.torque, "torque"),
            Curve("fifth", along.mixture, along.consumption, "fuel for the work"),
        ),
        dot=Dot(found.mixture, found.torque),
    )


SHOWN = Shown(words, place, _chart)
