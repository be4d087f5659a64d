"""A state as the browser takes it: plain lists and numbers, small enough for every key press.

Curves travel as ten-thousandths of their axes, so that one set of points serves both sides of
the units switch and any size on the screen. What is no finite number travels as None, and so do
the points of a curve that is still being worked out. A reading that is still being worked out
travels without a value.
"""

from collections.abc import Sequence
from math import isfinite
from typing import Any

from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import Value
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, Reading, State

__all__ = ["FINE", "answer", "chart", "gauges", "numbers", "readings", "run"]

FINE = 10_000
"""Steps from one end of an axis to the other."""


def answer(state: State, needles: Sequence[Value]) -> dict[str, Any]:
    """Return all that the browser shows of a state, the gauges where `needles` says."""
    return {
        "numbers": numbers(state),
        "readings": readings(state),
        "gauges": gauges(state, needles),
        "chart": chart(state.chart),
        "run": run(state),
        "verdict": state.verdict,
        "alarm": state.alarm,
        "drawn": state.drawn,
        "plotted": state.plotted,
        "whole": state.whole,
    }


def readings(state: State) -> list[dict[str, Any]]:
    """Return the lines of the table of readings, in SI with both scales."""
    return [_reading(line) for line in state.readings]


def numbers(state: State) -> dict[str, Any]:
    """Return what places the drawing, to a thousandth of its unit."""
    return {name: _rounded(value, 3) for name, value in state.numbers.items()}


def gauges(state: State, needles: Sequence[Value]) -> list[dict[str, Any]]:
    """Return the gauges, each with its needle where `needles` says."""
    return [_gauge(gauge, needle) for gauge, needle in zip(state.gauges, needles, strict=True)]


def chart(drawn: Chart) -> dict[str, Any]:
    """Return axes in SI, and curves, dots and bands as parts of them."""
    return {"x": _axis(drawn.x), "panels": [_panel(drawn.x, panel) for panel in drawn.panels]}


def run(state: State) -> dict[str, Any]:
    """Return times and moments of a run, or nothing."""
    if state.times is None:
        return {}
    moments = [{"time": round(each.time, 5), "words": each.words} for each in state.moments]
    return {"times": [round(each, 5) for each in state.times], "moments": moments}


def plain(value: Value, digits: int) -> Any:
    """Return numbers to so many significant digits."""
    if isinstance(value, list):
        return [plain(each, digits) for each in value]
    return float(f"{value:.{digits}g}") if isfinite(value) else None


def _rounded(value: Value, digits: int) -> Any:
    if isinstance(value, list):
        return [_rounded(each, digits) for each in value]
    return round(float(value), digits) if isfinite(value) else None


def _reading(line: Reading) -> dict[str, Any]:
    facts: dict[str, Any] = {"label": line.label, "measure": line.measure.wire()}
    if line.value is not None:
        facts["value"] = plain(line.value, 7)
    return facts | ({"ways": list(line.ways)} if line.ways else {})


def _gauge(gauge: Gauge, needle: Value) -> dict[str, Any]:
    return {
        "label": gauge.label,
        "value": plain(needle, 6),
        "measure": gauge.measure.wire(),
        "low": gauge.low,
        "high": gauge.high,
        "accuracy": gauge.accuracy,
        "good": plain(list(gauge.good), 6) if gauge.good else None,
        "column": gauge.column,
    }


def _axis(axis: Axis) -> dict[str, Any]:
    ends = {"low": float(axis.low), "high": float(axis.high) if isfinite(axis.high) else None}
    return {"label": axis.label, "measure": axis.measure.wire()} | ends


def _panel(x: Axis, panel: Panel) -> dict[str, Any]:
    band = panel.band and {"low": _parts(panel.y, panel.band.low), "label": panel.band.label}
    return {
        "y": _axis(panel.y),
        "share": panel.share,
        "curves": [_curve(x, panel.y, curve) for curve in panel.curves],
        "dot": panel.dot and _dot(x, panel.y, panel.dot),
        "band": band,
    }


def _curve(x: Axis, y: Axis, curve: Curve) -> dict[str, Any]:
    return {
        "role": curve.role,
        "label": curve.label,
        "x": None if curve.x is None else _parts(x, list(curve.x)),
        "y": None if curve.y is None else _parts(y, list(curve.y)),
    }


def _dot(x: Axis, y: Axis, dot: Dot) -> list[Any]:
    return [_parts(x, dot.x), _parts(y, dot.y)]


def _parts(axis: Axis, value: Value) -> Any:
    """Return an SI value as whole steps along the axis."""
    scale = FINE / (axis.high - axis.low)

    def steps(each: float) -> int | None:
        return round(scale * (each - axis.low)) if isfinite(each) else None

    return [steps(each) for each in value] if isinstance(value, list) else steps(value)
