"""One figure for the life of a bench: the axes are drawn once, only the curves after that.

Drawing axes and text is what makes a plot slow. They are kept as a bitmap per look (theme and
units), put back with one copy, and the moving parts are drawn on top.
"""

import io
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle
from matplotlib.text import Annotation
from PIL import Image

from fuelcircuits.benches.measure import System
from fuelcircuits.benches.state import Axis, Chart, Curve

__all__ = ["DARK", "LIGHT", "STYLES", "Palette", "Plot"]


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
    "lead": {"linewidth": 2.6, "linestyle": "-"},
    "other": {"linewidth": 1.8, "linestyle": (0, (7, 2, 1.5, 2))},
    "before": {"linewidth": 1.6, "linestyle": (0, (4, 3))},
}
INKS = {"lead": "lead", "other": "other", "before": "faint"}


class Plot:
    """A persistent figure `width` by `height` CSS pixels, painted at twice that for sharpness."""

    def __init__(self, width: int = 430, height: int = 320, ratio: float = 2.0) -> None:
        self.figure = Figure(figsize=(width / 96, height / 96), dpi=96 * ratio)
        self.canvas: Any = FigureCanvasAgg(self.figure)
        self.axes: Axes = self.figure.add_axes((0.135, 0.15, 0.845, 0.81))
        self.figure.patch.set_alpha(0)
        self.axes.patch.set_alpha(0)
        self.grounds: dict[tuple[Any, ...], Any] = {}
        self.parts: dict[str, Any] = {}

    def paint(self, chart: Chart, before: Chart | None, system: System, palette: Palette) -> bytes:
        """Return the chart as PNG bytes on a clear ground, `before` dashed behind it."""
        self.canvas.restore_region(self._ground(chart, system, palette))
        for artist in self._moving(chart, before, system, palette):
            self.axes.draw_artist(artist)
        image = Image.frombuffer("RGBA", self.canvas.get_width_height(), self.canvas.buffer_rgba())
        stream = io.BytesIO()
        image.save(stream, "PNG", compress_level=1)
        return stream.getvalue()

    def vector(self, chart: Chart, before: Chart | None, system: System, palette: Palette) -> str:
        """Return the same chart as SVG text, for paper."""
        self._dress(chart, system, palette)
        artists = list(self._moving(chart, before, system, palette))
        for artist in artists:
            artist.set_animated(False)
        hidden = [part for part in self.parts.values() if part not in artists]
        for part in hidden:
            part.set_visible(False)
        stream = io.StringIO()
        self.figure.savefig(stream, format="svg", metadata={"Date": None})
        for part in self.parts.values():
            part.set(animated=True, visible=True)
        return stream.getvalue()

    def _ground(self, chart: Chart, system: System, palette: Palette) -> Any:
        """Return the bitmap of axes, grid and labels, drawing it the first time only."""
        look = (chart.x, chart.y, system, palette)
        if look not in self.grounds:
            self._dress(chart, system, palette)
            self.canvas.draw()
            self.grounds[look] = self.canvas.copy_from_bbox(self.figure.bbox)
        self._limit(chart, system)
        return self.grounds[look]

    def _limit(self, chart: Chart, system: System) -> None:
        for axis, set_limits in ((chart.x, self.axes.set_xlim), (chart.y, self.axes.set_ylim)):
            scale = axis.measure.scale(system)
            set_limits(float(scale.show(axis.low)), float(scale.show(axis.high)))

    def _dress(self, chart: Chart, system: System, palette: Palette) -> None:
        """Put limits, names and colours on the axes."""
        self._limit(chart, system)
        self.axes.set_xlabel(_title(chart.x, system), color=palette.ink, fontsize=9.5)
        self.axes.set_ylabel(_title(chart.y, system), color=palette.ink, fontsize=9.5)
        self.axes.tick_params(colors=palette.ink, labelsize=9, width=0.8, length=3)
        self.axes.grid(visible=True, color=palette.faint, alpha=0.28, linewidth=0.6)
        self.axes.set_axisbelow(True)
        for side, spine in self.axes.spines.items():
            spine.set(visible=side in ("left", "bottom"), color=palette.ink, linewidth=0.9)

    def _moving(
        self, chart: Chart, before: Chart | None, system: System, palette: Palette
    ) -> Iterator[Artist]:
        """Yield what moves, back to front, each placed and coloured."""
        x, y = (axis.measure.scale(system).show for axis in (chart.x, chart.y))
        if chart.band:
            yield from self._band(chart, y, palette)
        old = [Curve("before", curve.x, curve.y) for curve in before.curves] if before else []
        for number, curve in enumerate([*old, *chart.curves]):
            yield from self._curve(f"{curve.role} {number}", curve, x, y, palette)
        for role, dot in (("before", before and before.dot), ("lead", chart.dot)):
            if dot:
                point: Line2D = self._part(f"dot {role}", lambda: Line2D([], [], marker="o"))
                point.set_data([float(x(dot.x))], [float(y(dot.y))])
                fill = palette.ink if role == "lead" else "none"
                point.set(markersize=8, markerfacecolor=fill, markeredgecolor=palette.ink)
                yield point

    def _curve(
        self, name: str, curve: Curve, x: Callable[..., Any], y: Callable[..., Any], inks: Palette
    ) -> Iterator[Artist]:
        line: Line2D = self._part(name, lambda: Line2D([], []))
        line.set_data(x(curve.x), y(curve.y))
        ink = getattr(inks, INKS[curve.role])
        line.set(color=ink, **STYLES[curve.role])
        yield line
        if curve.label:
            text = self._part(f"{name} label", _label)
            text.xy = float(x(curve.x[curve.at])), float(y(curve.y[curve.at]))
            yield _place(text, curve.label, ink, above=curve.above, right=curve.at < 0)

    def _band(self, chart: Chart, y: Callable[..., Any], palette: Palette) -> Iterator[Artist]:
        assert chart.band is not None
        low, top = float(y(chart.band.low)), self.axes.get_ylim()[1]
        if low >= top:
            return
        left, right = self.axes.get_xlim()
        box = self._part("band", lambda: Rectangle((0, 0), 0, 0, fill=False, hatch="////"))
        box.set(x=left, y=low, width=right - left, height=top - low)
        box.set(edgecolor=palette.alarm, linewidth=0, alpha=0.35, clip_on=True)
        edge: Line2D = self._part("band edge", lambda: Line2D([], []))
        edge.set_data([left, right], [low, low])
        edge.set(color=palette.alarm, linewidth=1.4, linestyle=(0, (1.5, 1.5)))
        text = self._part("band label", _label)
        text.xy = left, low
        yield from (box, edge, _place(text, chart.band.label, palette.alarm, True, False))

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


def _label() -> Annotation:
    return Annotation("", (0, 0), xytext=(0, 0), textcoords="offset points", fontsize=9)


def _place(text: Annotation, words: str, ink: str, above: bool, right: bool) -> Annotation:
    """Put `words` on their line: over or under it, at its left or right end."""
    text.set(text=words, color=ink, ha="right" if right else "left")
    text.set(va="bottom" if above else "top")
    text.xyann = (-4 if right else 4, 3 if above else -4)
    return text
