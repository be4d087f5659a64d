"""The vents bench: what the bowl breathes through, the pressure that follows, and the mixture."""

from collections.abc import Mapping
from typing import Any, ClassVar

from fuelcircuits.benches.bowl_vents import words
from fuelcircuits.benches.bowl_vents.drawing import place
from fuelcircuits.benches.bowl_vents.found import Found, point, whole
from fuelcircuits.benches.bowl_vents.words import RUNNING, VENT_FLOW
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    AREA,
    LENGTH,
    RATIO,
    SHARE,
    SMALL_PRESSURE,
    TEMPERATURE,
    System,
)
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.physics.network.rig import Rig

__all__ = ["BowlVentsBench"]

MIXTURES = (0.5, 1.3)
"""Ends of the plot [lambda]."""


class BowlVentsBench(Bench):
    """Bowl pressure against mixture, for the vents of a rig.

    All vents that such bowls have are on the bench; those that the card lacks start shut.
    """

    title = "Bowl pressure against mixture"
    picture = "bowl_vents.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"cleaner_blocked": 15, "gasket_leak": 12}
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {
        "inside_blocked": {"gasket_leak": 20e-6},
        "outside_setting": {"way": "idle"},
        "canister_suction": {"solenoid_pull": 0.0},
    }

    way = Choice("Engine", RUNNING, "cruise")
    cleaner_blocked = Control("Air cleaner blocked", SHARE, 0, 0.7, steps=(5, 5), start=0)
    inside_blocked = Control("Inside vent blocked", SHARE, 0, 0.9, steps=(5, 5), start=0)
    outside_setting = Control("Outside vent set", LENGTH, 0, 5e-3, steps=(0.1, 0.005), start=1.5e-3)
    outside_hang = Control("Outside vent hung", LENGTH, 0, 2e-3, steps=(0.1, 0.005), start=0)
    solenoid_pull = Control("Solenoid pulled in", SHARE, 0, 1, steps=(5, 5), start=1)
    canister_suction = Control(
        "Suction at canister", SMALL_PRESSURE, 0, 200, steps=(10, 0.05), start=0
    )
    gasket_leak = Control("Gasket leak", AREA, 0, 40e-6, steps=(1, 0.002), start=0)
    fuel_temperature = Control(
        "Fuel in the bowl", TEMPERATURE, 288.15, 331.15, steps=(1, 2), start=298.15
    )

    def __init__(self, rig: Rig) -> None:
        self.card = with_sections(rig, "vents", "hot_soak")
        super().__init__(
            outside_setting=rig.vents.outside_setting,
            outside_hang=rig.vents.outside_hang,
            solenoid_pull=rig.vents.solenoid_pull,
            gasket_leak=rig.vents.gasket_leak,
        )

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return the mixture with the bowl as it is vented."""
        return SHOWN.state(point(self.card, values), system)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the mixture with the bowl as it is vented, and at every other bowl pressure."""
        return SHOWN.state(whole(self.card, values), system)


def _chart(found: Found) -> Chart:
    """Return mixture, and gas won by the bowl, against bowl pressure."""
    (low, high), along = found.span, found.curves
    (rich, lean), held = MIXTURES, min(max(found.bowl, low), high)
    top = Panel(
        y=Axis("Lambda", RATIO, rich, lean),
        curves=(
            Curve("lead", along.gauge, along.mixture, "mixture"),
            Curve("other", [0.0, 0.0], [rich, lean], "outside"),
            Curve("mark", [found.horn, found.horn], [rich, lean], "air horn"),
        ),
        dot=Dot(held, min(max(found.mixture, rich), lean)),
        share=1.7,
    )
    below = Panel(
        y=Axis("Gas gained", VENT_FLOW, -600e-6, 600e-6),
        curves=(
            Curve("lead", along.fine, along.won),
            Curve("third", [low, high], [0.0, 0.0], "balance"),
        ),
        dot=Dot(held, 0.0),
    )
    return Chart(Axis("Bowl pressure less outside", SMALL_PRESSURE, low, high), (top, below))


SHOWN = Shown(words, place, _chart)
