"""One figure for the life of a bench: the axes are drawn once, only the curves after that.

Drawing axes and text is what makes a plot slow. They are kept as a bitmap per look (theme,
units, names of the curves), put back with one copy, and the moving parts are drawn on top.
"""

import io
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from matplotlib import rc_context
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch, Rectangle

from fuelcircuits.benches.measure import System
from fuelcircuits.benches.png import encode
from fuelcircuits.benches.state import Axis, Chart, Dot

__all__ = ["DARK", "LIGHT", "Palette", "Plot"]


@dataclass(frozen=True)
class Palette:
    """The inks of one theme, each readable on its ground (contrast 4.5 or better)."""

    ink: str
    faint: str
    lead: str
    other: str
    alarm: str


LIGHT = Palette(ink="#1f2a33", faint="#5b6770", lead="#0b5cad", other="#7a3e00", alarm="#b3261e")
DARK = Palette(ink="#e4e9ed", faint="#a7b2bb", lead="#7cc0ff", other="#ffb86b", alarm="#ff8a80")

STYLES: dict[str, dict[str, Any]] = {
    "lead": {"linewidth": 2.4, "linestyle": "-"},
    "other": {"linewidth": 1.8, "linestyle": (0, (7, 2, 1.5, 2))},
    "mark": {"linewidth": 1.3, "linestyle": (0, (6, 2.5))},
    "before": {"linewidth": 1.5, "linestyle": (0, (3, 3))},
    "edge": {"linewidth": 1.4, "linestyle": (0, (1.5, 1.5))},
}
INKS = {"lead": "lead", "other": "other", "mark": "lead", "before": "faint", "edge": "alarm"}
ROUND: dict[str, Any] = {
    "marker": "o",
    "markersize": 7,
    "markeredgewidth": 1.6,
    "linestyle": "none",
}
HATCH: dict[str, Any] = {"fill": False, "hatch": "////", "linewidth": 0, "alpha": 0.45}
LEGEND: dict[str, Any] = {
    "loc": "lower left",
    "bbox_to_anchor": (-0.04, 0.99),
    "ncols": 3,
    "frameon": False,
    "fontsize": 8.4,
    "handlelength": 2.9,
    "columnspacing": 1.2,
}
MARGINS: dict[str, Any] = {
    "left": 0.145,
    "right": 0.985,
    "bottom": 0.125,
    "top": 0.88,
    "hspace": 0.12,
}
RATIO = 1.5


class Plot:
    """A persistent figure, `width` by `height` CSS pixels and painted half as large again.

    `shares` are the parts of the height that the panels get, from the top.
    """

    def __init__(
        self, shares: Sequence[float] = (1.0,), width: int = 430, height: int = 330
    ) -> None:
        self.figure = Figure(figsize=(width / 96, height / 96), dpi=96 * RATIO)
        self.canvas: Any = FigureCanvasAgg(self.figure)
        grid = self.figure.add_gridspec(len(shares), 1, height_ratios=list(shares), **MARGINS)
        self.axes = [self.figure.add_subplot(grid[row]) for row in range(len(shares))]
        for ground in (self.figure.patch, *(axes.patch for axes in self.axes)):
            ground.set_alpha(0)
        self.grounds: dict[Any, Any] = {}
        self.parts: dict[Any, Any] = {}

    def paint(self, chart: Chart, before: Chart | None, system: System, palette: Palette) -> bytes:
        """Return the chart as PNG bytes on a clear ground, `before` dashed behind it."""
        self.canvas.restore_region(self._ground(chart, before, system, palette))
        for axes, artist in self._moving(chart, before, system, palette):
            axes.draw_artist(artist)
        return encode(self.canvas.buffer_rgba())

    def vector(self, chart: Chart, before: Chart | None, system: System, palette: Palette) -> str:
        """Return the same chart as SVG text, for paper."""
        self._dress(chart, before, system, palette)
        shown = {artist for _, artist in self._moving(chart, before, system, palette)}
        for part in self.parts.values():
            part.set(animated=False, visible=part in shown)
        stream = io.StringIO()
        with rc_context({"svg.hashsalt": "bench"}):
            self.figure.savefig(stream, format="svg", metadata={"Date": None})
        for part in self.parts.values():
            part.set(animated=True, visible=True)
        return stream.getvalue()

    def _ground(self, chart: Chart, before: Chart | None, system: System, palette: Palette) -> Any:
        """Return the bitmap of axes, grid and names, drawing it the first time only."""
        names = tuple(curve.label for panel in chart.panels for curve in panel.curves)
        sizes = chart.x, tuple(panel.y for panel in chart.panels)
        look = (*sizes, names, before is None, system, palette)
        if look not in self.grounds:
            self._dress(chart, before, system, palette)
            self.canvas.draw()
            self.grounds[look] = self.canvas.copy_from_bbox(self.figure.bbox)
        self._limit(chart, system)
        return self.grounds[look]

    def _limit(self, chart: Chart, system: System) -> None:
        for axes, panel in zip(self.axes, chart.panels, strict=True):
            for axis, set_limits in ((chart.x, axes.set_xlim), (panel.y, axes.set_ylim)):
                scale = axis.measure.scale(system)
                set_limits(float(scale.show(axis.low)), float(scale.show(axis.high)))

    def _dress(self, chart: Chart, before: Chart | None, system: System, palette: Palette) -> None:
        """Put limits, names and colours on the axes, and the names of the curves above them."""
        self._limit(chart, system)
        for axes, panel in zip(self.axes, chart.panels, strict=True):
            axes.set_ylabel(_title(panel.y, system), color=palette.ink, fontsize=9)
            axes.tick_params(colors=palette.ink, labelsize=8.5, width=0.8, length=3)
            axes.grid(visible=True, color=palette.faint, alpha=0.28, linewidth=0.6)
            axes.set_axisbelow(True)
            for side, spine in axes.spines.items():
                spine.set(visible=side in ("left", "bottom"), color=palette.ink, linewidth=0.9)
            axes.tick_params(labelbottom=axes is self.axes[-1])
        self.figure.align_ylabels(self.axes)
        self.axes[-1].set_xlabel(_title(chart.x, system), color=palette.ink, fontsize=9)
        handles = list(_keys(chart, before, palette))
        self.axes[0].legend(handles=handles, labelcolor=palette.ink, **LEGEND)

    def _moving(
        self, chart: Chart, before: Chart | None, system: System, palette: Palette
    ) -> Iterator[tuple[Axes, Artist]]:
        """Yield what moves, back to front, each placed and coloured."""
        olds = before.panels if before else [None] * len(chart.panels)
        for axes, panel, old in zip(self.axes, chart.panels, olds, strict=True):
            x, y = (axis.measure.scale(system).show for axis in (chart.x, panel.y))
            if panel.band:
                yield from self._band(axes, float(y(panel.band.low)), palette)
            earlier = [replace(curve, role="before") for curve in old.curves] if old else []
            for number, curve in enumerate([*earlier, *panel.curves]):
                line: Line2D = self._part(axes, f"{curve.role} {number}", lambda: Line2D([], []))
                line.set_data(x(curve.x), y(curve.y))
                line.set(color=getattr(palette, INKS[curve.role]), **STYLES[curve.role])
                yield axes, line
            if old and old.dot:
                yield axes, self._dot(axes, "before", (x, y), old.dot, palette.faint, fill=False)
            if panel.dot:
                yield axes, self._dot(axes, "now", (x, y), panel.dot, palette.ink, fill=True)

    def _dot(
        self, axes: Axes, name: str, show: tuple[Any, Any], dot: Dot, ink: str, *, fill: bool
    ) -> Artist:
        point: Line2D = self._part(axes, f"dot {name}", lambda: Line2D([], [], **ROUND))
        point.set_data([float(show[0](dot.x))], [float(show[1](dot.y))])
        point.set(markerfacecolor=ink if fill else "none", markeredgecolor=ink)
        return point

    def _band(self, axes: Axes, low: float, palette: Palette) -> Iterator[tuple[Axes, Artist]]:
        """Yield the hatched band above `low`, unless that lies above the axes."""
        (left, right), top = axes.get_xlim(), axes.get_ylim()[1]
        if low >= top:
            return
        box: Rectangle = self._part(axes, "band", lambda: Rectangle((0, 0), 0, 0, **HATCH))
        box.set(x=left, y=low, width=right - left, height=top - low, edgecolor=palette.alarm)
        edge: Line2D = self._part(axes, "edge", lambda: Line2D([], [], **STYLES["edge"]))
        edge.set_data([left, right], [low, low])
        edge.set_color(palette.alarm)
        yield from ((axes, box), (axes, edge))

    def _part(self, axes: Axes, name: str, make: Callable[[], Artist]) -> Any:
        """Return the artist of this name, made once and kept."""
        key = self.axes.index(axes), name
        if key not in self.parts:
            part = make()
            part.set_animated(True)
            axes.add_artist(part)
            self.parts[key] = part
        return self.parts[key]


def _title(axis: Axis, system: System) -> str:
    return f"{axis.label} [{axis.measure.scale(system).unit}]"


def _keys(chart: Chart, before: Chart | None, palette: Palette) -> Iterator[Artist]:
    """Yield the handles of the legend; a name given twice stands there once."""
    curves = {curve.label: curve.role for panel in chart.panels for curve in panel.curves}
    for label, role in curves.items():
        yield Line2D([], [], color=getattr(palette, INKS[role]), label=label, **STYLES[role])
    yield Line2D([], [], label="now", color=palette.ink, **ROUND)
    for panel in chart.panels:
        if panel.band:
            yield Patch(edgecolor=palette.alarm, label=panel.band.label, **HATCH)
    if before:
        yield Line2D([], [], color=palette.faint, label="before", **STYLES["before"])
