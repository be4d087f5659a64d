"""What every bench owes: checks that the benches' tests share."""

import re
from collections.abc import Iterator, Mapping
from math import isfinite
from typing import Any

import pytest
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.drawing import asked
from fuelcircuits.benches.frame.state import State
from fuelcircuits.physics.numerics.interpolation import interpolate

__all__ = ["ends", "names", "off_curve", "purely", "shows", "whole"]


def names(bench: Bench) -> set[str]:
    """Return the numbers that the drawing of a bench asks for."""
    return asked(bench.drawing())


def ends(bench: Bench) -> Iterator[Mapping[str, Any]]:
    """Yield settings: for every word of a choice each control at either end, and all at once."""
    start = bench.values()
    sliders = bench.controls()
    words = [
        {name: word}
        for name, kind in bench.inputs().items()
        if isinstance(kind, Choice)
        for word in kind.options
    ]
    for word in words or [{}]:
        for side in ("low", "high"):
            yield start | word | {name: getattr(each, side) for name, each in sliders.items()}
            for name, each in sliders.items():
                yield start | word | {name: getattr(each, side)}


def whole(bench: Bench, state: State) -> list[str]:
    """Return what is missing or no number in a state, by name; nothing if all is well."""
    readings = {line.label: line.value for line in state.readings}
    found = dict(state.numbers) | readings
    missing = sorted(names(bench) - set(state.numbers))
    return missing + [name for name, value in found.items() if not _finite(value)]


def _finite(value: Any) -> bool:
    """Tell whether a number, or every number of a run, is one."""
    return all(isfinite(each) for each in (value if isinstance(value, list) else [value]))


def shows(state: State) -> list[str]:
    """Return the texts of a state that carry no number with a unit."""
    unit = re.compile(r"\d ?(Pa|kPa|in|mm|g/s|mg/s|lb/h|°|rpm|%|m|ft|s|min|turns|kg)")
    texts = {"drawn": state.drawn, "plotted": state.plotted}
    return [name for name, text in texts.items() if not unit.search(text)]


def off_curve(state: State, rel: float, share: float = 0.0) -> list[str]:
    """Return the plots whose dot lies off its curve, by `rel` and by a `share` of the axis."""
    wrong = []
    for panel in state.chart.panels:
        assert panel.dot is not None
        curve = panel.curves[0]
        along = sorted(zip(curve.x, curve.y, strict=True))
        height = interpolate(panel.dot.x, *zip(*along, strict=True))
        if height != pytest.approx(panel.dot.y, rel=rel, abs=share * panel.y.high):
            wrong.append(panel.y.label)
    return wrong


def purely(bench: Bench, values: Mapping[str, Any]) -> bool:
    """Return whether two computations of one setting agree in every number and word."""
    one = bench.compute(values, "SI")
    for other in list(ends(bench))[:3]:
        bench.compute(other, "SI")
    two = bench.compute(values, "SI")
    return dict(one.numbers) == dict(two.numbers) and one.readings == two.readings
