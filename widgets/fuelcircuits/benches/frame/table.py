"""A bench's model as a table: its states over a grid of settings, blended in between.

The page of a bench carries such a table in place of Python. `Table.at` is what the page's own
script does, so that here its agreement with the model can be tested. Where all four places
around agree in kind (the same shapes, the same sentences) a cubic goes through them; where only
the two next do, a straight line. Where those differ, as between a bowl that fills and one that
runs empty, or where the blend was found off the model in the middle of a cell, nothing lies
between, and a setting goes to the nearest place.
"""

import itertools
import json
import zlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from fuelcircuits.benches.frame import wire
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.gauge import shown
from fuelcircuits.benches.frame.measure import both, parted
from fuelcircuits.benches.frame.state import Reading, State
from fuelcircuits.benches.frame.time_bench import TimeBench
from fuelcircuits.benches.frame.tree import join, split

__all__ = ["Axis", "Table", "agrees", "tabulate"]

FULL = 65534
"""Steps in which a number is kept between the least and the most of its kind; one more: none."""


@dataclass(frozen=True)
class Axis:
    """One setting of the table: its places, blended in between when `blends`."""

    name: str
    places: tuple[Any, ...]
    blends: bool

    def around(self, value: Any, reach: int) -> list[tuple[int, float]]:
        """Return the `reach` places to each side of `value`, each with Lagrange's weight."""
        if not self.blends or reach == 0 or value in self.places:
            return [(self.nearest(value), 1.0)]
        high = int(np.searchsorted(self.places, value))
        near = range(max(high - reach, 0), min(high + reach, len(self.places)))
        at = {index: self.places[index] for index in near}
        weights = {
            index: float(
                np.prod([(value - other) / (own - other) for other in at.values() if other != own])
            )
            for index, own in at.items()
        }
        return list(weights.items())

    @property
    def cells(self) -> int:
        """How many cells there are along the axis."""
        return len(self.places) - self.blends

    def cell(self, value: Any) -> int:
        """Return the cell that `value` lies in; a place belongs to the one after it."""
        if not self.blends:
            return self.nearest(value)
        return int(np.clip(np.searchsorted(self.places, value, "right") - 1, 0, self.cells - 1))

    def nearest(self, value: Any) -> int:
        """Return the place nearest to `value`."""
        if isinstance(value, float):
            return int(np.argmin(np.abs(np.asarray(self.places) - value)))
        return self.places.index(value)


@dataclass(frozen=True)
class Half:
    """One half of every state, what is shown or what is said: few shapes, many numbers.

    `leaves` are the numbers of each point; `steps` are the same as they travel, and `scales` the
    least and the span that they are steps of: shape by shape, leaf by leaf, point by point.
    """

    shapes: list[Any]
    which: list[int]
    leaves: list[list[list[float]]]
    steps: list[Any]
    scales: list[list[float]]

    def at(self, corners: Sequence[tuple[int, float]]) -> Any:
        """Return the blend of corners that are all of one shape."""
        one = corners[0][0]
        weights = [weight for _, weight in corners]
        blended = [
            np.dot(weights, [self.leaves[point][number] for point, _ in corners]).tolist()
            for number in range(len(self.leaves[one]))
        ]
        return join(self.shapes[self.which[one]], blended)


@dataclass(frozen=True)
class Table:
    """The states of a bench over the grid of its axes, the last axis fastest."""

    axes: tuple[Axis, ...]
    shown: Half
    said: Half
    sound: str = ""
    """One letter for each cell between places, "1" where the blend was found true; "" is all."""

    def at(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """Return the state for these settings as the browser takes it, words in both units."""
        corners = self._alike(values) or list(self._corners(values, 0))
        return {**self.shown.at(corners), "words": self.said.at(corners)}

    def settled(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """Return the settings that are shown for these: the same, or the nearest place."""
        if self._alike(values):
            return dict(values)
        return dict(values) | {
            axis.name: axis.places[axis.nearest(values[axis.name])] for axis in self.axes
        }

    def _alike(self, values: Mapping[str, Any]) -> list[tuple[int, float]]:
        """Return the widest set of corners that are of one kind; none if there is no such."""
        cubic = list(self._corners(values, 2))
        if len(cubic) > 1 and self.sound[self.cell(values) :][:1] == "0":
            return []
        for corners in (cubic, list(self._corners(values, 1))):
            kinds = {(self.shown.which[point], self.said.which[point]) for point, _ in corners}
            if len(kinds) == 1:
                return corners
        return []

    def cell(self, values: Mapping[str, Any]) -> int:
        """Return the number of the cell that the settings lie in."""
        places = [axis.cell(values[axis.name]) for axis in self.axes]
        return int(np.ravel_multi_index(places, [axis.cells for axis in self.axes]))

    def _corners(self, values: Mapping[str, Any], reach: int) -> Iterator[tuple[int, float]]:
        sizes = [len(axis.places) for axis in self.axes]
        sides = (axis.around(values[axis.name], reach) for axis in self.axes)
        for corner in itertools.product(*sides):
            place = tuple(index for index, _ in corner)
            weight = float(np.prod([part for _, part in corner]))
            yield int(np.ravel_multi_index(place, sizes)), weight

    def pack(self) -> bytes:
        """Return the table, compressed: a head in JSON, then the numbers in sixteen bits."""
        halves = {"shown": self.shown, "said": self.said}
        axes = [
            {"name": axis.name, "places": list(axis.places), "blends": axis.blends}
            for axis in self.axes
        ]
        parts = {
            name: {"shapes": half.shapes, "which": half.which, "scales": half.scales}
            for name, half in halves.items()
        }
        head = {"axes": axes, "sound": self.sound, **parts}
        text = json.dumps(head, separators=(",", ":"), allow_nan=False).encode("utf-8")
        text += b" " * (-len(text) % 4)
        numbers = np.concatenate([each for half in halves.values() for each in half.steps])
        planes = (numbers >> 8).astype(np.uint8).tobytes() + (numbers & 255).astype(
            np.uint8
        ).tobytes()
        return zlib.compress(len(text).to_bytes(4, "little") + text + planes, 9)


def tabulate(bench: Bench) -> Table:
    """Return the table of a bench over its page's grid, everything else as it stands."""
    axes = tuple(_axis(bench, name, count) for name, count in bench.page_grid.items())
    names = [axis.name for axis in axes]
    trees: list[tuple[Any, Any]] = []
    for setting in itertools.product(*(axis.places for axis in axes)):
        values = bench.values() | dict(zip(names, setting, strict=True))
        state = bench.compute(values, both())
        trees.append((_shown(state), _said(state)))
    table = Table(axes, _half([shown for shown, _ in trees]), _half([said for _, said in trees]))
    if not any(axis.blends for axis in axes):
        return table
    middles = itertools.product(*(_middles(axis) for axis in axes))
    settings = [bench.values() | dict(zip(names, middle, strict=True)) for middle in middles]
    return replace(table, sound="".join(_is_sound(bench, table, each) for each in settings))


def _middles(axis: Axis) -> Sequence[Any]:
    """Return a setting in each cell of an axis."""
    if not axis.blends:
        return axis.places
    return [(low + high) / 2 for low, high in itertools.pairwise(axis.places)]


def _is_sound(bench: Bench, table: Table, values: Mapping[str, Any]) -> str:
    """Return "1" if the blend in the middle of a cell is true to half of what it may be off.

    A line through a kink is off by at most twice of what it is off in the middle.
    """
    if table.settled(values) != values:
        return "0"
    lines = zip(table.at(values)["readings"], bench.told(values, "SI").readings, strict=True)
    return "1" if all(agrees(shown["value"], line, 0.5) for shown, line in lines) else "0"


def agrees(shown: Any, line: Reading, share: float = 1.0) -> bool:
    """Tell whether a value agrees to 1 %, or one step of the last digit shown, or a share of it."""
    scale = line.measure.metric
    true, step = np.asarray(line.value, dtype=float), 10.0**-scale.digits / abs(scale.factor)
    found = np.array([np.nan if each is None else each for each in np.ravel(shown)])
    near = np.abs(found.reshape(true.shape) - true) <= share * np.maximum(0.01 * np.abs(true), step)
    return bool(np.all(near | (np.isnan(found.reshape(true.shape)) & np.isnan(true))))


def _axis(bench: Bench, name: str, count: int) -> Axis:
    """Return the places of one control: all its words, or numbers from end to end."""
    each = bench.inputs()[name]
    if isinstance(each, Control):
        places = set(np.linspace(each.low, each.high, count).tolist())
        start = float(getattr(bench, name))
        nearest = min(places, key=lambda place: abs(place - start))
        if nearest not in (each.low, each.high):
            places.remove(nearest)
        return Axis(name, tuple(sorted(places | {start})), not isinstance(bench, TimeBench))
    options = getattr(each, "options", None)
    return Axis(name, tuple(options) if options else (False, True), False)


def _shown(state: State) -> dict[str, Any]:
    return {
        "numbers": wire.numbers(state),
        "readings": wire.readings(state),
        "gauges": wire.gauges(state, [shown(each, None, {}) for each in state.gauges]),
        "chart": wire.chart(state.chart),
        "times": wire.run(state).get("times"),
    }


def _said(state: State) -> dict[str, Any]:
    """Return the sentences for each side of the units switch."""
    words = {name: parted(getattr(state, name)) for name in ("verdict", "drawn", "plotted")}
    moments = [(moment.time, parted(moment.words)) for moment in state.moments]
    return {
        side: {name: told[side] for name, told in words.items()}
        | {"alarm": state.alarm, "moments": [{"time": t, "words": w[side]} for t, w in moments]}
        for side in ("SI", "US")
    }


def _half(trees: Sequence[Any]) -> Half:
    """Return the trees as shapes and numbers, every different shape once."""
    shapes: dict[str, Any] = {}
    which, leaves = [], []
    for tree in trees:
        shape, numbers = split(tree)
        text = json.dumps(shape)
        shapes.setdefault(text, shape)
        which.append(list(shapes).index(text))
        leaves.append(numbers)
    half = Half(list(shapes.values()), which, leaves, [], [])
    for shape in range(len(shapes)):
        points = [point for point, each in enumerate(which) if each == shape]
        for leaf in range(len(leaves[points[0]])):
            _round(half, points, leaf)
    return half


def _round(half: Half, points: Sequence[int], leaf: int) -> None:
    """Bring one leaf of some points to whole steps between the least and the most of it."""
    stack = np.array([half.leaves[point][leaf] for point in points])
    none = np.isnan(stack)
    ends = stack[~none] if not none.all() else np.zeros(1)
    low, span = (float(f"{end:.9g}") for end in (np.min(ends), np.ptp(ends)))
    steps = np.where(none, FULL + 1, np.round((stack - low) / (span or 1.0) * FULL))
    half.steps.append(steps.clip(0).astype(np.uint16).ravel())
    half.scales.append([stack.shape[1], low, span])
    for point, row in zip(points, np.where(none, np.nan, low + steps / FULL * span), strict=True):
        half.leaves[point][leaf] = row.tolist()
