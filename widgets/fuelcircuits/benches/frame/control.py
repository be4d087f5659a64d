"""A control of a bench: a number in SI, with its name, bounds and steps in the units shown."""

from math import ceil, floor, log10
from numbers import Real
from typing import Any

from fuelcircuits.benches.frame.measure import Measure, Scale, System
from fuelcircuits.benches.frame.setting import Setting
from fuelcircuits.errors import RangeError, between

__all__ = ["Control"]


class Control(Setting[float]):
    """A setting that the browser shows as a slider with a number box.

    ::

        class FloatBowlBench(Bench):
            supply = Control("Fuel pressure", PRESSURE, 5e3, 60e3, steps=(0.5, 0.1), start=30e3)

    Parameters
    ----------
    label
        The name on the screen, which a screen reader says too.
    measure
        The kind of quantity, which brings the units shown.
    low, high
        Bounds in SI; a value outside raises `RangeError`.
    steps
        What one arrow key adds, in the unit of the SI side and of the shop side.
    start
        The value in SI before anybody touches it.
    """

    def __init__(
        self,
        label: str,
        measure: Measure,
        low: float,
        high: float,
        *,
        steps: tuple[float, float],
        start: float,
    ) -> None:
        super().__init__(float(start))
        self.label, self.measure, self.low, self.high, self.steps = label, measure, low, high, steps

    def checked(self, value: Any) -> float:
        """Refuse what is no number or out of bounds (`RangeError`)."""
        name = self.label.lower()
        if not isinstance(value, Real):
            raise RangeError(f"{name} must be a number, got {value!r}")
        return between(name, float(value), self.low, self.high)

    def spec(self, start: float) -> dict[str, Any]:
        """Return what the browser needs to build the control, its reset going to `start`."""
        metric, shop = self.measure.metric, self.measure.shop
        sides = {
            "SI": self._side(metric, self.steps[0]),
            "US": self._side(shop, self.steps[1]),
        }
        bounds = {"low": self.low, "high": self.high, "start": start}
        return {"name": self.name, "kind": "number", "label": self.label, "sides": sides} | bounds

    def onward(self, old: float, new: float, system: System) -> float | None:
        """Return where one more arrow key leads after a move from `old` to `new`, if anywhere.

        It is the very number that the slider sends: whole steps from its lower end.
        """
        scale = self.measure.scale(system)
        side = self._side(scale, self.steps[system == "US"])
        steps = round((scale.show(new) - side["low"]) / side["step"])
        shown: float = round(side["low"] + (steps + (1 if new > old else -1)) * side["step"], 9)
        if not side["low"] <= shown <= side["high"]:
            return None
        return min(max((shown - scale.offset) / scale.factor, self.low), self.high)

    def _side(self, scale: Scale, step: float) -> dict[str, Any]:
        """Return one side of the switch: its unit, and bounds pulled inwards to whole steps."""
        low, high = scale.show(self.low), scale.show(self.high)
        return {
            "unit": scale.unit,
            "factor": scale.factor,
            "offset": scale.offset,
            "step": step,
            "low": round(ceil(low / step - 1e-9) * step, 9),
            "high": round(floor(high / step + 1e-9) * step, 9),
            "digits": max(0, -floor(log10(step) + 1e-9)),
        }
