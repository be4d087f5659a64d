"""The setting bench: level, vent, idle and fast idle set by gauges that are not quite true."""

from collections.abc import Mapping
from typing import Any, ClassVar

from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    FINE_SHARE,
    LENGTH,
    NUMBER,
    SMALL_LENGTH,
    SPEED,
    System,
    measure,
)
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.setting_up import words
from fuelcircuits.benches.setting_up.drawing import place
from fuelcircuits.benches.setting_up.found import RPM, TURNS, Found, card_settings, point, whole
from fuelcircuits.physics.network.rig import Rig

__all__ = ["SettingUpBench"]

TURN_COUNT = measure("dimensionless", ("dimensionless", 2), ("dimensionless", 2))


class SettingUpBench(Bench):
    """A badly set carburettor on a warm engine, to be set by its gauges.

    The gauges have errors of their own and scatter, drawn from `seed`; another "Reading no."
    reads everything once more. `measured()` gives what the gauges show.
    """

    title = "Setting up by the gauges"
    picture = "setting_up.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"idle_screw": 12, "mixture_screw": 9, "cam": 2}
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {
        "reading": ("drawing", "plot", "readings"),
        "fast_screw": ("drawing", "plot", "readings"),
        "float_setting": ("readings",),
        "mixture_screw": ("readings",),
        "cam": ("plot",),
    }

    float_setting = Control("Float setting", LENGTH, 5e-3, 14e-3, steps=(0.25, 0.01), start=9e-3)
    vent_setting = Control(
        "Outside vent set", SMALL_LENGTH, 0, 3e-3, steps=(0.1, 0.004), start=1.5e-3
    )
    idle_screw = Control("Idle speed, turns in", TURN_COUNT, -0.5, 5, steps=(0.1, 0.1), start=0)
    mixture_screw = Control(
        "Mixture, turns out", TURN_COUNT, 1.9, 4.5, steps=(0.05, 0.05), start=2.4
    )
    fast_screw = Control("Fast idle, turns in", TURN_COUNT, -3, 3, steps=(0.1, 0.1), start=0)
    cam = Choice("Throttle rests", {"stop": "on the idle stop", "cam": "on cam step 2"}, "stop")
    reading = Control("Reading no.", NUMBER, 1, 12, steps=(1, 1), start=1)

    def __init__(self, rig: Rig, seed: int = 11) -> None:
        self.card = with_sections(rig, "float_bowl", "vents", "low_speed", "choke")
        own = card_settings(rig)
        super().__init__(
            float_setting=own.float_setting - 2.5e-3,
            vent_setting=own.vent_setting * 0.4,
            idle_screw=2.4,
            mixture_screw=min(own.mixture_screw + 0.8, 4.5),
            fast_screw=1.2,
        )
        self.seed = seed

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return what the engine does, and what the gauges would show if they were true."""
        return SHOWN.state(point(self.card, values), system)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the same with the curves over the turns of the idle speed screw."""
        return SHOWN.state(whole(self.card, values), system)


def _chart(found: Found) -> Chart:
    """Return speed and CO against the idle speed screw."""
    now, screw = found.now.stop, found.setting.idle_screw
    speed, co, card_speed, card_co = found.curves or (None,) * 4
    turns = found.curves and TURNS
    fast = Panel(
        y=Axis("Idle speed", SPEED, 0, 1600 * RPM),
        curves=(
            Curve("lead", turns, speed, "as it is set"),
            Curve("mark", turns, card_speed, "by the card"),
        ),
        dot=Dot(screw, now.speed),
    )
    gas = Panel(
        y=Axis("CO", FINE_SHARE, 0, 0.12),
        curves=(
            Curve("lead", turns, co, "as it is set"),
            Curve("mark", turns, card_co, "by the card"),
        ),
        dot=Dot(screw, now.co),
    )
    return Chart(Axis("Idle speed screw, turns in", TURN_COUNT, -0.5, 5), (fast, gas))


SHOWN = Shown(words, place, _chart)
