"""The power bench: manifold vacuum, the metering rod, and the mixture step it makes."""

from collections.abc import Mapping
from typing import Any, ClassVar

from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    AREA,
    FORCE,
    RATIO,
    SHARE,
    SMALL_LENGTH,
    SPEED,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.power import words
from fuelcircuits.benches.power.drawing import place
from fuelcircuits.benches.power.found import DEEPEST, Found, point, whole
from fuelcircuits.physics.network.rig import Rig

__all__ = ["PowerBench"]


class PowerBench(Bench):
    """The metering rod against manifold vacuum, for the power circuit of a rig."""

    title = "Metering rod against manifold vacuum"
    picture = "power.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"throttle": 61, "rod": 3}
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {"spring": ("drawing",)}
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {
        "speed": {"throttle": 0.3},
        "rich_step": {"throttle": 0.5},
        "rod": {"throttle": 0.5},
    }

    throttle = Control("Throttle opened", SHARE, 0, 1, steps=(1, 1), start=0.2)
    speed = Control("Engine speed", SPEED, 70, 380, steps=(50, 50), start=209.44)
    spring = Control("Spring, rod down", FORCE, 0.5, 4, steps=(0.02, 0.005), start=2.5)
    lean_step = Control(
        "Rod, lean step", SMALL_LENGTH, 0.75e-3, 1.1e-3, steps=(0.01, 0.0005), start=0.9e-3
    )
    rich_step = Control(
        "Rod, rich step", SMALL_LENGTH, 0.2e-3, 0.65e-3, steps=(0.01, 0.0005), start=0.5e-3
    )
    rod = Choice("Rod", {"free": "free", "down": "stuck down", "up": "stuck up"}, "free")

    def __init__(self, rig: Rig) -> None:
        self.card = with_sections(rig, "power")
        power = rig.power
        super().__init__(
            spring=power.spring_force, lean_step=power.lean_step, rich_step=power.rich_step
        )

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return where the rod stands, and the mixture."""
        return SHOWN.state(point(self.card, values), system)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return where the rod stands, and the mixture at every vacuum."""
        return SHOWN.state(whole(self.card, values), system)


def _chart(found: Found) -> Chart:
    """Return mixture and open ring against manifold vacuum."""
    along = found.curves
    mixture = Panel(
        y=Axis("Lambda", RATIO, 0.6, 1.2),
        curves=(
            Curve("lead", *along.own, "rod as it is"),
            Curve("mark", *along.down, "rod kept down"),
            Curve("other", *along.up, "rod kept up"),
        ),
        dot=Dot(found.vacuum, found.mixture),
        share=1.4,
    )
    opening = Panel(
        y=Axis("Open ring", AREA, 0.5e-6, 2.5e-6),
        curves=(Curve("lead", *found.areas),),
        dot=Dot(found.vacuum, found.area),
    )
    return Chart(Axis("Manifold vacuum", VACUUM, 0, DEEPEST), (mixture, opening))


SHOWN = Shown(words, place, _chart)
