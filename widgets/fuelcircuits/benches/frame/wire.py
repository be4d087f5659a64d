"""A state as the browser takes it: plain lists and numbers, small enough for every key press.

Curves travel as ten-thousandths of their axes, so that one set of points serves both sides of
the units switch and any size on the screen. What is no finite number travels as None.
"""

import math
from typing import Any

import numpy as np

from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, Reading, State

__all__ = ["FINE", "chart", "gauges", "numbers", "readings", "run"]

FINE = 10_000
"""Steps from one end of an axis to the other."""


def readings(state: State) -> list[dict[str, Any]]:
    """Return the lines of the table of readings, in SI with both scales."""
    return [_reading(line) for line in state.readings]


def numbers(state: State) -> dict[str, Any]:
    """Return what places the drawing, to a thousandth of its unit."""
    return {name: plain(_thousandth(value)) for name, value in state.numbers.items()}


def gauges(state: State, needles: list[Any]) -> list[dict[str, Any]]:
    """Return the gauges, each with its needle where `needles` says."""
    return [_gauge(gauge, needle) for gauge, needle in zip(state.gauges, needles, strict=True)]


def chart(drawn: Chart) -> dict[str, Any]:
    """Return axes in SI, and curves, dots and bands as parts of them."""
    return {"x": _axis(drawn.x), "panels": [_panel(drawn.x, panel) for panel in drawn.panels]}


def run(state: State) -> dict[str, Any]:
    """Return times and moments of a run, or nothing."""
    if state.times is None:
        return {}
    moments = [{"time": moment.time, "words": moment.words} for moment in state.moments]
    return {"times": plain(np.round(state.times, 5)), "moments": moments}


def plain(value: Any, digits: int = 0) -> Any:
    """Return a number or an array as plain Python, to so many significant digits (0: all)."""
    if isinstance(value, (float, int)):
        return _alone(float(value), digits)
    array = np.asarray(value, dtype=float)
    if digits:
        with np.errstate(divide="ignore", invalid="ignore"):
            size = np.where(array == 0, 0, np.floor(np.log10(np.abs(array))))
        unit = 10.0 ** (digits - 1 - np.nan_to_num(size))
        array = np.round(array * unit) / unit
    if np.all(np.isfinite(array)):
        return array.tolist()
    return np.where(np.isfinite(array), array.astype(object), np.array(None)).tolist()


def _thousandth(value: Any) -> Any:
    return round(float(value), 3) if isinstance(value, (float, int)) else np.round(value, 3)


def _alone(value: float, digits: int) -> float | None:
    """Return one number as `plain` does."""
    if not math.isfinite(value):
        return None
    return float(f"{value:.{digits}g}") if digits else value


def _reading(line: Reading) -> dict[str, Any]:
    facts = {"label": line.label, "value": plain(line.value, 7), "measure": line.measure.wire()}
    return facts | ({"ways": list(line.ways)} if line.ways else {})


def _gauge(gauge: Gauge, needle: Any) -> dict[str, Any]:
    return {
        "label": gauge.label,
        "value": plain(needle, 6),
        "measure": gauge.measure.wire(),
        "low": gauge.low,
        "high": gauge.high,
        "accuracy": gauge.accuracy,
        "good": list(gauge.good) if gauge.good else None,
        "column": gauge.column,
    }


def _axis(axis: Axis) -> dict[str, Any]:
    ends = {"low": float(axis.low), "high": float(axis.high)}
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
        "x": _parts(x, curve.x),
        "y": _parts(y, curve.y),
    }


def _dot(x: Axis, y: Axis, dot: Dot) -> list[Any]:
    return [_parts(x, dot.x), _parts(y, dot.y)]


def _parts(axis: Axis, value: Any) -> Any:
    """Return an SI value as whole steps along the axis."""
    share = (np.asarray(value, dtype=float) - axis.low) / (axis.high - axis.low)
    return plain(np.round(FINE * share))
