"""How long after a key press the bench has painted, beside a slider that makes new figures.

Both are measured in one page of one JupyterLab, in turn; the second is the same chart drawn by
`ipywidgets.interactive` with a new figure each time, the way most notebooks do it.
"""

import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any

from playwright.sync_api import Page, sync_playwright

from tests.browser.lab import Lab, notebook, serve

CARD = Path(__file__).parents[2] / "course" / "rigs" / "plover.toml"
PRESSES = 21
ARGUMENTS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"]

BENCH = """from fuelcircuits.benches import FloatBench
from fuelcircuits.rig import read_rig
bench = FloatBench(read_rig("plover.toml"))
bench"""

PLAIN = """%matplotlib inline
import matplotlib.pyplot as plt
from ipywidgets import FloatSlider, interactive

def show(pressure):
    chart = bench.compute(bench.values() | {"fuel_pressure": 1e3 * pressure}, "SI").chart
    figure, axes = plt.subplots(2, 1, sharex=True, height_ratios=[2, 1], figsize=(4.5, 3.4))
    for panel, each in zip(chart.panels, axes):
        for curve in panel.curves:
            each.plot(curve.x * 1e3, curve.y * 1e3, label=curve.label)
        each.plot(panel.dot.x * 1e3, panel.dot.y * 1e3, "o")
        each.set_ylabel(panel.y.label)
        each.grid()
    axes[0].legend()
    axes[1].set_xlabel(chart.x.label)
    plt.show()

interactive(show, pressure=FloatSlider(value=30, min=2, max=60, step=0.5))"""

ARM = """(selector) => { window.painted = new Promise((resolve) => {
    const started = new Promise((press) =>
        document.addEventListener('keydown', () => press(performance.now()),
            { once: true, capture: true }));
    const ready = () => requestAnimationFrame(() => {
        const after = new MessageChannel();
        after.port1.onmessage = async () => resolve(performance.now() - (await started));
        after.port2.postMessage(null);
    });
    const place = document.querySelector(selector);
    const look = new MutationObserver(() => {
        const image = place.querySelector('img');
        if (!image || image.src === window.lastSource) return;
        look.disconnect();
        window.lastSource = image.src;
        image.decode().then(ready);
    });
    window.lastSource = place.querySelector('img').src;
    look.observe(place, { childList: true, subtree: true, attributes: true });
}); }"""


def milliseconds(page: Page, slider: str, picture: str) -> float:
    """Return the median time from a key on `slider` to the new image in `picture` painted."""
    page.locator(slider).first.focus()
    times = []
    for press in range(PRESSES):
        page.evaluate(ARM, picture)
        page.keyboard.press("ArrowLeft" if press % 2 else "ArrowRight")
        times.append(float(page.evaluate("window.painted")))
        page.wait_for_timeout(150)
    return median(times[1:])


def both(lab: Lab, page: Page) -> tuple[float, float]:
    """Return the median of the bench and that of the plain slider."""
    shutil.copy(CARD, lab.root / CARD.name)
    notebook(lab.root / "bench.ipynb", [BENCH, PLAIN])
    lab.run(page, "bench.ipynb")
    page.wait_for_selector(".widget-interact img, .jupyter-widgets img")
    bench = milliseconds(page, ".fc-bench input[type=range]", ".fc-sight")
    return bench, milliseconds(page, ".noUi-handle", ".widget-interact")


def measures() -> Iterator[dict[str, Any]]:
    """Yield both times and their ratio."""
    with tempfile.TemporaryDirectory() as home, sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=ARGUMENTS
        )
        page = browser.new_page(viewport={"width": 1280, "height": 720})
        with serve(Path(home) / "lab") as lab:
            bench, plain = both(lab, page)
        browser.close()
    yield {"name": "float bench, key press to painted", "value": bench, "unit": "ms"}
    yield {"name": "interactive with a new figure, the same", "value": plain, "unit": "ms"}
    yield {"name": "float bench, times faster", "value": plain / bench, "unit": "1"}
