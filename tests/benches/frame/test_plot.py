"""The plot on paper shows all it is given, in inks that can be read, on screen as well."""

import re
from typing import Any
from xml.etree import ElementTree

import numpy as np
import pytest
from fuelcircuits.benches.frame.measure import FLOW, LENGTH
from fuelcircuits.benches.frame.plot import INKS, draw, vector
from fuelcircuits.benches.frame.scripts import STATIC
from fuelcircuits.benches.frame.state import Axis, Band, Chart, Curve, Dot, Panel


def chart(slope: float) -> Chart:
    drop = [1e-3 * step for step in range(9)]
    flow = Panel(
        y=Axis("Inlet flow", FLOW, 0, 20e-3),
        curves=(Curve("lead", drop, [slope * each for each in drop], "inlet passes"),),
        dot=Dot(2e-3, slope * 2e-3),
        band=Band(slope * 8e-3, "bowl starves"),
    )
    return Chart(Axis("Float drop", LENGTH, 0, 8e-3), (flow,))


def paper(slope: float, before: Chart | None = None, **how: Any) -> str:
    return vector(chart(slope), before, how.pop("system", "SI"), **how)


@pytest.mark.parametrize(
    "changed",
    [
        {"slope": 1.1},
        {"slope": 1.0, "before": chart(2.0)},
        {"slope": 1.0, "system": "US"},
        {"slope": 1.0, "time": 3e-3},
    ],
)
def test_every_input_shows(changed: dict[str, Any]) -> None:
    assert paper(**changed) != paper(1.0)


def test_picture_is_well_formed_and_the_same_every_time() -> None:
    ElementTree.fromstring(paper(1.0))
    assert paper(1.0) == paper(1.0)


def test_dot_and_curve_are_drawn_where_their_values_are() -> None:
    axes = draw(chart(1.0), None, "US").axes[0]
    dot = next(line for line in axes.lines if line.get_marker() == "o")
    (x,), (y,) = (np.ravel(each) for each in dot.get_data())
    assert (x, y) == pytest.approx((2e-3 / 0.0254, 2e-3 / 1.259979e-4), rel=1e-6)  # NIST SP 811


def inks(theme: str) -> dict[str, str]:
    """Return the named colours of a theme in the style sheet."""
    sheet = (STATIC / "bench.css").read_text("utf-8")
    light, dark = (
        part for part in re.findall(r"\{(.*?)\}", sheet, re.DOTALL) if "--fc-ink:" in part
    )
    return dict(re.findall(r"--fc-(\w+): (#\w+);", {"light": light, "dark": dark}[theme]))


def luminance(colour: str) -> float:
    """Relative luminance of a colour; W3C, WCAG 2.1, definition of relative luminance."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [
        part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize(("theme", "ground"), [("light", "#ffffff"), ("dark", "#111111")])
@pytest.mark.parametrize("ink", ["ink", "faint", "lead", "other", "third", "fourth", "alarm"])
def test_inks_keep_the_contrast_that_text_needs(theme: str, ground: str, ink: str) -> None:
    light, dark = sorted([luminance(inks(theme)[ink]), luminance(ground)], reverse=True)
    assert (light + 0.05) / (dark + 0.05) >= 4.5  # W3C, WCAG 2.1, success criterion 1.4.3


def test_paper_and_screen_use_the_same_inks() -> None:
    screen = inks("light")
    assert {role: INKS[role] for role in ("lead", "other", "third", "fourth")} == {
        role: screen[role] for role in ("lead", "other", "third", "fourth")
    }
