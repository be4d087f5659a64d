"""The low-speed bench: jet, air bleeds, economizer and mixture screw, and the idle they give."""

from collections.abc import Mapping
from math import nan
from typing import Any, ClassVar

from fuelcircuits.benches.carburettor.measures import TURNS, height
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import FINE_SHARE, RATIO, SMALL_LENGTH, System
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.low_speed import words
from fuelcircuits.benches.low_speed.drawing import place
from fuelcircuits.benches.low_speed.found import Found, point, whole
from fuelcircuits.benches.low_speed.screw_turns import FEWEST, KINDS, MOST
from fuelcircuits.physics.network.rig import Rig

__all__ = ["LowSpeedBench"]

RICH, LEAN = 0.6, 1.4
"""Ends of the plot of lambda [1]."""


class LowSpeedBench(Bench):
    """Idle mixture against turns of the mixture screw, for the low-speed circuit of a rig.

    Throttle stop and engine speed stay where the card's own idle has them.
    """

    title = "Idle mixture against the screw's turns"
    picture = "low_speed.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"screw_turns": 33, "kind": 5}
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {"altitude": ("drawing",)}
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
    altitude = height()

    def __init__(self, rig: Rig) -> None:
        self.card = with_sections(rig, "low_speed", "air_path", "engine")
        low = rig.low_speed
        super().__init__(
            screw_turns=low.screw_turns,
            jet_bore=low.jet_bore,
            bypass_bore=low.bypass_bore,
            air_bleed_bore=low.air_bleed_bore,
            economizer_bore=low.economizer_bore,
        )

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return the idle with this circuit."""
        return SHOWN.state(point(self.card, values), system)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the idle with this circuit, with the curves over the screw's turns."""
        return SHOWN.state(whole(self.card, values), system)


def _chart(found: Found) -> Chart:
    """Return lambda and carbon monoxide against the screw's turns."""
    along, stops = found.curves, _stops(found)
    mixture = Panel(
        y=Axis("Lambda", RATIO, RICH, LEAN),
        curves=(
            Curve("lead", along.turns, along.mixture, "this circuit"),
            Curve("other", [FEWEST, MOST], [1.0, 1.0], "just burns"),
            Curve("mark", *stops, "stops"),
        ),
        dot=Dot(found.turns, min(max(found.mixture, RICH), LEAN)),
        share=1.6,
    )
    monoxide = Panel(
        y=Axis("CO", FINE_SHARE, 0, 0.1),
        curves=(Curve("lead", along.turns, along.monoxide),),
        dot=Dot(found.turns, found.monoxide),
    )
    return Chart(Axis("Screw off its seat", TURNS, FEWEST, MOST), (mixture, monoxide))


def _stops(found: Found) -> tuple[list[float], list[float]]:
    """Return upright lines where the stops are; nothing is drawn where the screw has none."""
    low, high = (min(max(each, FEWEST), MOST) for each in found.stops)
    lines = [RICH, LEAN, nan] * 2 if found.kind in ("limited", "sealed") else [nan] * 6
    return [low] * 3 + [high] * 3, lines


SHOWN = Shown(words, place, _chart)
