"""A bench's plot on paper, drawn by matplotlib; on the screen plot.js draws the same chart."""

import io
from collections.abc import Iterator
from typing import Any

from matplotlib import rc_context
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch, Rectangle

from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel

__all__ = ["INKS", "STYLES", "draw", "vector"]

INK, FAINT, ALARM = "#1f2a33", "#5b6770", "#b3261e"
INKS = {
    "lead": "#0b5cad",
    "other": "#7a3e00",
    "third": "#6a3d9a",
    "fourth": "#00695c",
    "fifth": INK,
    "mark": "#0b5cad",
    "before": FAINT,
    "edge": ALARM,
}
STYLES: dict[str, dict[str, Any]] = {
    "lead": {"linewidth": 2.4, "linestyle": "-"},
    "other": {"linewidth": 1.8, "linestyle": (0, (7, 2, 1.5, 2))},
    "third": {"linewidth": 1.8, "linestyle": (0, (5, 2))},
    "fourth": {"linewidth": 1.8, "linestyle": (0, (1.5, 1.5))},
    "fifth": {"linewidth": 1.6, "linestyle": (0, (11, 2, 3.5, 2))},
    "mark": {"linewidth": 1.3, "linestyle": (0, (7, 2, 1.5, 2, 1.5, 2))},
    "before": {"linewidth": 1.5, "linestyle": (0, (3, 3))},
    "edge": {"linewidth": 1.4, "linestyle": (0, (0.8, 3))},
}
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
    "hspace": 0.12,
}


def vector(chart: Chart, before: Chart | None, system: System, time: float | None = None) -> str:
    """Return the chart as SVG text, `before` dashed behind it, a line at `time`."""
    stream = io.StringIO()
    with rc_context({"svg.hashsalt": "bench"}):
        figure = draw(chart, before, system, time)
        figure.savefig(stream, format="svg", metadata={"Date": None})
    return stream.getvalue()


def draw(chart: Chart, before: Chart | None, system: System, time: float | None = None) -> Figure:
    """Return the chart as a figure on a clear ground."""
    figure = Figure(figsize=(430 / 96, 330 / 96), dpi=96)
    shares = [panel.share for panel in chart.panels]
    keys = list(_keys(chart, before))
    top = 0.985 - 0.055 * -(-len(keys) // LEGEND["ncols"])
    grid = figure.add_gridspec(len(shares), 1, height_ratios=shares, top=top, **MARGINS)
    every = [figure.add_subplot(grid[row]) for row in range(len(shares))]
    olds = before.panels if before else (None,) * len(every)
    for axes, panel, old in zip(every, chart.panels, olds, strict=True):
        _dress(axes, chart.x, panel.y, system)
        _fill(axes, chart.x, panel, old, system)
        axes.tick_params(labelbottom=axes is every[-1])
        if time is not None:
            axes.axvline(chart.x.measure.scale(system).show(time), color=INK, linewidth=1)
    for ground in (figure.patch, *(axes.patch for axes in every)):
        ground.set_alpha(0)
    figure.align_ylabels(every)
    every[-1].set_xlabel(_title(chart.x, system), color=INK, fontsize=9)
    every[0].legend(handles=keys, labelcolor=INK, **LEGEND)
    return figure


def _dress(axes: Axes, x: Axis, y: Axis, system: System) -> None:
    """Put limits, names and colours on the axes."""
    for axis, set_limits in ((x, axes.set_xlim), (y, axes.set_ylim)):
        show = axis.measure.scale(system).show
        set_limits(show(axis.low), show(axis.high))
    axes.set_ylabel(_title(y, system), color=INK, fontsize=9)
    axes.tick_params(colors=INK, labelsize=8.5, width=0.8, length=3)
    axes.grid(visible=True, color=FAINT, alpha=0.28, linewidth=0.6)
    axes.set_axisbelow(True)
    for side, spine in axes.spines.items():
        spine.set(visible=side in ("left", "bottom"), color=INK, linewidth=0.9)


def _fill(axes: Axes, x: Axis, panel: Panel, old: Panel | None, system: System) -> None:
    """Draw what a panel holds, back to front."""
    across, up = (axis.measure.scale(system).show for axis in (x, panel.y))

    def line(curve: Curve, role: str) -> None:
        x, y = map(across, curve.x or ()), map(up, curve.y or ())
        axes.plot(list(x), list(y), color=INKS[role], **STYLES[role])

    def point(dot: Dot, ink: str, fill: str) -> None:
        axes.plot(across(dot.x), up(dot.y), mec=ink, mfc=fill, **ROUND)

    if panel.band:
        _band(axes, up(panel.band.low))
    for curve in old.curves if old else ():
        line(curve, "before")
    for curve in panel.curves:
        line(curve, curve.role)
    if old and old.dot:
        point(old.dot, FAINT, "none")
    if panel.dot:
        point(panel.dot, INK, INK)


def _band(axes: Axes, low: float) -> None:
    """Hatch what lies above `low`, unless that is above the axes."""
    (left, right), top = axes.get_xlim(), axes.get_ylim()[1]
    if low < top:
        box = Rectangle((left, low), right - left, top - low, edgecolor=ALARM, **HATCH)
        axes.add_patch(box)
        axes.plot([left, right], [low, low], color=ALARM, **STYLES["edge"])


def _title(axis: Axis, system: System) -> str:
    unit = axis.measure.scale(system).unit
    return f"{axis.label} [{unit}]" if unit else axis.label


def _keys(chart: Chart, before: Chart | None) -> Iterator[Artist]:
    """Yield the handles of the legend; a name given twice stands there once."""
    curves = {curve.label: curve.role for panel in chart.panels for curve in panel.curves}
    for label, role in curves.items():
        if label:
            yield Line2D([], [], color=INKS[role], label=label, **STYLES[role])
    if any(panel.dot for panel in chart.panels):
        yield Line2D([], [], label="now", color=INK, **ROUND)
    for panel in chart.panels:
        if panel.band:
            yield Patch(edgecolor=ALARM, label=panel.band.label, **HATCH)
    if before:
        yield Line2D([], [], color=FAINT, label="before", **STYLES["before"])
