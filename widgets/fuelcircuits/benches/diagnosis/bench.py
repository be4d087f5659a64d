"""The fault bench: a car with something wrong, tests that take time, and suspects to rule out."""

from collections.abc import Mapping, Sequence
from math import ceil, nan
from typing import Any, ClassVar

from fuelcircuits.benches.diagnosis import words
from fuelcircuits.benches.diagnosis.drawing import place
from fuelcircuits.benches.diagnosis.found import Found, whole
from fuelcircuits.benches.diagnosis.words import MINUTES
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice, Switch
from fuelcircuits.benches.frame.measure import NUMBER, System
from fuelcircuits.benches.frame.setting import Side
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.physics.network.rig import Rig

__all__ = ["DiagnosisBench"]

CARS = ("1", "2", "3", "4", "5", "6", "7", "8", "9")


def _ticked(name: str) -> Switch:
    """Return the switch that makes a test, with the minutes it takes."""
    check = find(name)
    return Switch(f"{check.label} ({check.minutes:g}\u00a0min)")


class DiagnosisBench(Bench):
    """A car with something wrong, and tests that rule suspects out for so many minutes each."""

    title = "What is wrong with this car?"
    picture = "diagnosis.svg"
    page_grid: ClassVar[Mapping[str, int]] = {
        "car": len(CARS),
        "idle_vacuum": 2,
        "port_vacuum": 2,
        "fuel_pressure": 2,
    }
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {"car": {"port_vacuum": True}}
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {"look": ("drawing", "readings")}

    system = Side("US")
    car = Choice("Car in the shop", {each: f"car {each}" for each in CARS}, "1")
    idle_vacuum = _ticked("idle-vacuum")
    port_vacuum = _ticked("port-vacuum")
    fuel_pressure = _ticked("fuel-pressure")
    shot = _ticked("shot")
    idle_mixture = _ticked("idle-mixture")
    vent_gap_open = _ticked("vent-gap-open")
    level_at_idle = _ticked("level-at-idle")
    cruise_mixture = _ticked("cruise-mixture")
    full_load_mixture = _ticked("full-load-mixture")
    full_load_vacuum = _ticked("full-load-vacuum")
    hoses_pinched = _ticked("hoses-pinched")
    needle_swing = _ticked("needle-swing")
    recirculation_blanked = _ticked("recirculation-blanked")
    held_vacuum = _ticked("held-vacuum")
    look = Switch("Open it and look")

    def __init__(self, rig: Rig | None = None) -> None:
        """Make the bench; the cars are the teaching garage's, whatever `rig` is."""
        super().__init__()

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return what the tests made so far leave of the suspects."""
        return SHOWN.state(whole(values), system)


def _chart(found: Found) -> Chart:
    """Return the suspects left after each test, the quickest first."""
    most, best = len(found.suspects), nan if found.least is None else found.least
    unmade = [nan] * (len(found.tests) - len(found.read))
    panel = Panel(
        y=Axis("Suspects left", NUMBER, 0, most + 1),
        curves=(
            Curve(
                "lead",
                _twice([*found.spent, *unmade])[1:],
                _twice([*found.left, *unmade])[:-1],
                "your tests",
            ),
            Curve("mark", [0.0, found.longest], [1.0, 1.0], "one suspect"),
            Curve("other", [best, best], [0.0, most], "cheapest proof"),
        ),
        dot=Dot(found.spent[-1], found.left[-1]),
    )
    return Chart(Axis("Time spent", MINUTES, 0, 10 * ceil(found.longest / 10)), (panel,))


def _twice(numbers: Sequence[float]) -> list[float]:
    """Return each number two times over, as the steps of a stair need them."""
    return [each for each in numbers for _ in range(2)]


SHOWN = Shown(words, place, _chart)
