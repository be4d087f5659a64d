"""How long after a key press a bench has painted, beside a slider that makes new figures.

Both are measured in one page of one JupyterLab, in turn, for every bench; the second is the
same chart drawn by `ipywidgets.interactive` with a new figure each time, the way most notebooks
do it. The key moves the bench's first slider.
"""

import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any

from fuelcircuits.benches import BENCHES, bench_class
from playwright.sync_api import Page, sync_playwright

from tests.browser.lab import Lab, notebook, serve

CARD = Path(__file__).parents[2] / "course" / "rigs" / "plover.toml"
PRESSES = 21
REST = 150
"""Milliseconds between one painted change and the next key press."""
ARGUMENTS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"]

BENCH = """from fuelcircuits.benches import open_bench
from fuelcircuits.rig import read_rig
bench = open_bench({stem!r}, read_rig("plover.toml"))
bench"""

PLAIN = """%matplotlib inline
import matplotlib.pyplot as plt
from ipywidgets import FloatSlider, interactive

name, control = next(iter(bench.controls().items()))

def show(value):
    chart = bench.compute(bench.values() | {name: value}, "SI").chart
    shares = [panel.share for panel in chart.panels]
    figure, every = plt.subplots(len(shares), 1, sharex=True, height_ratios=shares,
                                 figsize=(4.5, 3.4), squeeze=False)
    for panel, axes in zip(chart.panels, every.flat):
        for curve in panel.curves:
            axes.plot(curve.x, curve.y, label=curve.label)
        if panel.dot:
            axes.plot(panel.dot.x, panel.dot.y, "o")
        axes.set_ylabel(panel.y.label)
        axes.grid()
    every[0, 0].legend()
    every[-1, 0].set_xlabel(chart.x.label)
    plt.show()

interactive(show, value=FloatSlider(
    value=getattr(bench, name), min=control.low, max=control.high,
    step=(control.high - control.low) / 100))"""

ARM = """([place, watched]) => { window.painted = new Promise((resolve) => {
    const started = new Promise((press) =>
        document.addEventListener('keydown', () => press(performance.now()),
            { once: true, capture: true }));
    const ready = () => requestAnimationFrame(() => {
        const after = new MessageChannel();
        after.port1.onmessage = async () => resolve(performance.now() - (await started));
        after.port2.postMessage(null);
    });
    const look = new MutationObserver((seen) => {
        const hit = seen.map((each) => each.target)
            .find((node) => node.matches?.(watched) || node.querySelector?.(watched));
        if (!hit) return;
        look.disconnect();
        const image = hit.matches('img') ? hit : hit.querySelector('img');
        if (image) image.decode().then(ready);
        else ready();
    });
    look.observe(document.querySelector(place), { childList: true, subtree: true, attributes: true,
        attributeFilter: ['d', 'cx', 'cy', 'src'] });
}); }"""


def milliseconds(page: Page, slider: str, place: str, watched: str) -> float:
    """Return the median time from a key on `slider` to a change of what is `watched` painted."""
    page.locator(slider).first.focus()
    times = []
    for press in range(PRESSES):
        page.evaluate(ARM, [place, watched])
        page.keyboard.press("ArrowLeft" if press % 2 else "ArrowRight")
        times.append(float(page.evaluate("window.painted")))
        page.wait_for_timeout(REST)
    return median(times[1:])


def both(lab: Lab, page: Page, stem: str) -> tuple[float, float]:
    """Return the median of the bench and that of the plain slider."""
    name = f"{stem}.ipynb"
    notebook(lab.root / name, [BENCH.format(stem=stem), PLAIN])
    lab.run(page, name)
    page.wait_for_selector(".widget-interact img, .jupyter-widgets img")
    bench = milliseconds(page, ".fc-bench .fc-track input", ".fc-chart", ".curve, .dot")
    plain = milliseconds(page, ".noUi-handle", ".widget-interact", "img")
    lab.end_sessions()
    return bench, plain


def measures() -> Iterator[dict[str, Any]]:
    """Yield both times and their ratio for every bench that has a slider: all but the faults'."""
    with tempfile.TemporaryDirectory() as home, sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=ARGUMENTS
        )
        page = browser.new_page(viewport={"width": 1280, "height": 720})
        with serve(Path(home) / "lab", Path(home)) as lab:
            shutil.copy(CARD, lab.root / CARD.name)
            for stem in (one for one in BENCHES if bench_class(one).controls()):
                bench, plain = both(lab, page, stem)
                name = f"bench {stem}"
                yield {"name": f"{name}, key press to painted", "value": bench, "unit": "ms"}
                yield {"name": f"{name}, new figures instead", "value": plain, "unit": "ms"}
                yield {"name": f"{name}, times faster", "value": plain / bench, "unit": "1"}
        browser.close()
