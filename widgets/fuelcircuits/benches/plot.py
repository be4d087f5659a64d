"""One figure for the life of a bench: the axes are drawn once, only the curves after that.

Drawing axes and text is what makes a plot slow. They are kept as a bitmap per look (theme,
units, names of the curves), put back with one copy, and the moving parts are drawn on top.
"""

import io
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from matplotlib.artist import Artist
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch, Rectangle

from fuelcircuits.benches.measure import System
from fuelcircuits.benches.png import encode
from fuelcircuits.benches.state import Axis, Chart, Curve

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
    "before": {"linewidth": 1.5, "linestyle": (0, (4, 3))},
    "edge": {"linewidth": 1.4, "linestyle": (0, (1.5, 1.5))},
}
INKS = {"lead": "lead", "other": "other", "before": "faint", "edge": "alarm"}
HATCH: dict[str, Any] = {"fill": False, "hatch": "////", "linewidth": 0, "alpha": 0.45}


class Plot:
    """A persistent figure `width` by `height` CSS pixels, painted at twice that for sharpness."""

    def __init__(self, width: int = 430, height: int = 320, ratio: float = 2.0) -> None:
        self.figure = Figure(figsize=(width / 96, height / 96), dpi=96 * ratio)
        self.canvas: Any = FigureCanvasAgg(self.figure)
        self.axes = self.figure.add_axes((0.135, 0.145, 0.845, 0.73))
        self.figure.patch.set_alpha(0)
        self.axes.patch.set_alpha(0)
        self.grounds: dict[Any, Any] = {}
        self.parts: dict[str, Any] = {}

    def paint(self, chart: Chart, before: Chart | None, system: System, palette: Palette) -> bytes:
        """Return the chart as PNG bytes on a clear ground, `before` dashed behind it."""
        self.canvas.restore_region(self._ground(chart, before, system, palette))
        for artist in self._moving(chart, before, system, palette):
            self.axes.draw_artist(artist)
        return encode(self.canvas.buffer_rgba())

    def vector(self, chart: Chart, before: Chart | None, system: System, palette: Palette) -> str:
        """Return the same chart as SVG text, for paper."""
        self._dress(chart, before, system, palette)
        shown = set(self._moving(chart, before, system, palette))
        for part in self.parts.values():
            part.set(animated=False, visible=part in shown)
        stream = io.StringIO()
        self.figure.savefig(stream, format="svg", metadata={"Date": None})
        for part in self.parts.values():
            part.set(animated=True, visible=True)
        return stream.getvalue()

    def _ground(self, chart: Chart, before: Chart | None, system: System, palette: Palette) -> Any:
        """Return the bitmap of axes, grid and names, drawing it the first time only."""
        names = tuple(curve.label for curve in chart.curves), chart.band and chart.band.label
        look = (chart.x, chart.y, names, before is None, system, palette)
        if look not in self.grounds:
            self._dress(chart, before, system, palette)
            self.canvas.draw()
            self.grounds[look] = self.canvas.copy_from_bbox(self.figure.bbox)
        self._limit(chart, system)
        return self.grounds[look]

    def _limit(self, chart: Chart, system: System) -> None:
        for axis, set_limits in ((chart.x, self.axes.set_xlim), (chart.y, self.axes.set_ylim)):
            scale = axis.measure.scale(system)
            set_limits(float(scale.show(axis.low)), float(scale.show(axis.high)))

    def _dress(self, chart: Chart, before: Chart | None, system: System, palette: Palette) -> None:
        """Put limits, names and colours on the axes, and the names of the curves above them."""
        self._limit(chart, system)
        self.axes.set_xlabel(_title(chart.x, system), color=palette.ink, fontsize=9.5)
        self.axes.set_ylabel(_title(chart.y, system), color=palette.ink, fontsize=9.5)
        self.axes.tick_params(colors=palette.ink, labelsize=9, width=0.8, length=3)
        self.axes.grid(visible=True, color=palette.faint, alpha=0.28, linewidth=0.6)
        self.axes.set_axisbelow(True)
        for side, spine in self.axes.spines.items():
            spine.set(visible=side in ("left", "bottom"), color=palette.ink, linewidth=0.9)
        self.axes.legend(
            handles=list(_keys(chart, before, palette)),
            loc="lower left",
            bbox_to_anchor=(-0.03, 0.985),
            ncols=3,
            frameon=False,
            fontsize=8.4,
            labelcolor=palette.ink,
            handlelength=2.9,
            columnspacing=1.2,
        )

    def _moving(
        self, chart: Chart, before: Chart | None, system: System, palette: Palette
    ) -> Iterator[Artist]:
        """Yield what moves, back to front, each placed and coloured."""
        x, y = (axis.measure.scale(system).show for axis in (chart.x, chart.y))
        if chart.band:
            yield from self._band(float(y(chart.band.low)), palette)
        old = [Curve("before", curve.x, curve.y) for curve in before.curves] if before else []
        for number, curve in enumerate([*old, *chart.curves]):
            line: Line2D = self._part(f"{curve.role} {number}", lambda: Line2D([], []))
            line.set_data(x(curve.x), y(curve.y))
            line.set(color=getattr(palette, INKS[curve.role]), **STYLES[curve.role])
            yield line
        if before and before.dot:
            yield self._dot("before", x(before.dot.x), y(before.dot.y), palette.faint, "none")
        if chart.dot:
            yield self._dot("now", x(chart.dot.x), y(chart.dot.y), palette.ink, palette.ink)

    def _dot(self, name: str, x: Any, y: Any, edge: str, fill: str) -> Artist:
        dot: Line2D = self._part(f"dot {name}", lambda: Line2D([], [], marker="o", markersize=7.5))
        dot.set_data([float(x)], [float(y)])
        dot.set(markerfacecolor=fill, markeredgecolor=edge, markeredgewidth=1.6)
        return dot

    def _band(self, low: float, palette: Palette) -> Iterator[Artist]:
        """Yield the hatched band above `low`, unless that lies above the axes."""
        (left, right), top = self.axes.get_xlim(), self.axes.get_ylim()[1]
        if low >= top:
            return
        box: Rectangle = self._part("band", lambda: Rectangle((0, 0), 0, 0, **HATCH))
        box.set(x=left, y=low, width=right - left, height=top - low, edgecolor=palette.alarm)
        edge: Line2D = self._part("band edge", lambda: Line2D([], [], **STYLES["edge"]))
        edge.set_data([left, right], [low, low])
        edge.set_color(palette.alarm)
        yield from (box, edge)

    def _part(self, name: str, make: Callable[[], Artist]) -> Any:
        """Return the artist of this name, made once and kept."""
        if name not in self.parts:
            part = make()
            part.set_animated(True)
            self.axes.add_artist(part)
            self.parts[name] = part
        return self.parts[name]


def _title(axis: Axis, system: System) -> str:
    return f"{axis.label} [{axis.measure.scale(system).unit}]"


def _keys(chart: Chart, before: Chart | None, palette: Palette) -> Iterator[Artist]:
    """Yield the handles of the legend."""
    for curve in chart.curves:
        ink = getattr(palette, INKS[curve.role])
        yield Line2D([], [], color=ink, label=curve.label, **STYLES[curve.role])
    if chart.dot:
        dot = {"marker": "o", "markersize": 7, "linestyle": "none"}
        yield Line2D([], [], color=palette.ink, label="now", **dot)  # type: ignore[arg-type]
    if chart.band:
        yield Patch(edgecolor=palette.alarm, label=chart.band.label, **HATCH)
    if before:
        yield Line2D([], [], color=palette.faint, label="before, pinned", **STYLES["before"])
