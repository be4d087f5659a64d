"""The persistent plot: what is blitted is what a fresh figure would show."""

import io
from xml.etree import ElementTree

import numpy as np
import pytest
from fuelcircuits.benches.measure import FLOW, LENGTH
from fuelcircuits.benches.plot import DARK, LIGHT, Palette, Plot
from fuelcircuits.benches.png import encode
from fuelcircuits.benches.state import Axis, Band, Chart, Curve, Dot, Panel
from PIL import Image


def chart(slope: float) -> Chart:
    drop = np.linspace(0, 8e-3, 9)
    flow = Panel(
        y=Axis("Inlet flow", FLOW, 0, 20e-3),
        curves=(Curve("lead", drop, slope * drop, "inlet passes"),),
        dot=Dot(2e-3, slope * 2e-3),
        band=Band(slope * 8e-3, "bowl starves"),
    )
    return Chart(Axis("Float drop", LENGTH, 0, 8e-3), (flow,))


def test_png_is_read_back_the_same_by_an_independent_decoder() -> None:
    pixels = np.random.default_rng(4).integers(0, 256, (17, 23, 4), dtype=np.uint8)
    read = np.asarray(Image.open(io.BytesIO(encode(pixels))))  # Pillow, libpng's rules
    assert np.array_equal(read, pixels)


def test_repainting_leaves_nothing_of_earlier_states() -> None:
    used, fresh = Plot(), Plot()
    for slope in (0.5, 2.0, 9.0):
        used.paint(chart(slope), chart(1.5), "SI", LIGHT)
    assert used.paint(chart(1.0), None, "SI", LIGHT) == fresh.paint(chart(1.0), None, "SI", LIGHT)


@pytest.mark.parametrize(
    ("slope", "before", "system", "palette"),
    [
        (1.1, None, "SI", LIGHT),
        (1.0, chart(2.0), "SI", LIGHT),
        (1.0, None, "US", LIGHT),
        (1.0, None, "SI", DARK),
    ],
)
def test_every_input_shows(slope: float, before: Chart, system: str, palette: Palette) -> None:
    plot = Plot()
    plain = plot.paint(chart(1.0), None, "SI", LIGHT)
    assert plot.paint(chart(slope), before, system, palette) != plain  # type: ignore[arg-type]


def test_dot_is_drawn_where_its_values_are() -> None:
    plot = Plot()
    plot.paint(chart(1.0), None, "US", LIGHT)
    (x,), (y,) = plot.parts[0, "dot now"].get_data()
    assert (x, y) == pytest.approx((2e-3 / 0.0254, 2e-3 / 1.259979e-4), rel=1e-6)  # NIST SP 811


def test_vector_form_is_well_formed_and_does_not_disturb_the_painted_one() -> None:
    plot = Plot()
    before = plot.paint(chart(1.0), None, "SI", LIGHT)
    ElementTree.fromstring(plot.vector(chart(1.0), None, "SI", LIGHT))
    assert plot.paint(chart(1.0), None, "SI", LIGHT) == before


def luminance(colour: str) -> float:
    """Relative luminance of a colour; W3C, WCAG 2.1, definition of relative luminance."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [
        part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize(("palette", "ground"), [(LIGHT, "#ffffff"), (DARK, "#111111")])
@pytest.mark.parametrize("ink", ["ink", "faint", "lead", "other", "alarm"])
def test_inks_keep_the_contrast_that_text_needs(palette: Palette, ground: str, ink: str) -> None:
    light, dark = sorted([luminance(getattr(palette, ink)), luminance(ground)], reverse=True)
    assert (light + 0.05) / (dark + 0.05) >= 4.5  # W3C, WCAG 2.1, success criterion 1.4.3
