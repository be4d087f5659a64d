"""How long after a key press a bench has painted, beside a slider that makes new figures.

Both are measured in one page of one JupyterLab, in turn, for every bench; the second is the
same chart drawn by `ipywidgets.interactive` with a new figure each time, the way most notebooks
do it. The key moves the bench's first slider, or ticks its first box where it has no slider.

A bench keeps its latest answers and prepares the next step, so three ways of pressing are told
apart: to and fro between two settings, one step onward after another, and leaps to settings
that nobody has foreseen, which the model has to work out in full. A bench that answers in two
stages has painted when the first is there; how long a leap's curves take is told as well.
"""

import shutil
import tempfile
from collections.abc import Iterator, Sequence
from math import isnan, nan
from pathlib import Path
from statistics import median
from typing import Any

from fuelcircuits.benches import BENCHES, bench_class
from playwright.sync_api import Page, sync_playwright

from tests.browser.lab import Lab, notebook, serve
from tests.places import RIGS

CARD = RIGS / "plover.toml"
TO_AND_FRO = ("ArrowRight", "ArrowLeft") * 10 + ("ArrowRight",)
ONWARD = ("Home", *("ArrowRight",) * 12)
LEAPS = ("Home", "End", *("PageDown",) * 9)
FRESH_LEAPS = ("Home", "ArrowRight", *("PageUp",) * 9)
"""To settings beside those of the other leaps, for these are known by then."""
TICKS = ("Space",) * 21
REST = 150
"""Milliseconds between one painted change and the next key press."""
ARGUMENTS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"]

UNSEEN = 3000
"""Milliseconds after which a press is taken to have changed nothing of what is watched."""

BENCH = """from fuelcircuits.benches import open_bench
from fuelcircuits.cards import read_rig
bench = open_bench({stem!r}, read_rig("plover.toml"))
bench"""

PLAIN_BOX = ".widget-interact input[type=checkbox]"
PLAIN = """%matplotlib inline
import matplotlib.pyplot as plt
from ipywidgets import Checkbox, FloatSlider, interactive
from fuelcircuits.benches.frame.choice import Switch

name, control = next(
    iter(bench.controls().items()),
    next((one for one in bench.inputs().items() if isinstance(one[1], Switch)), None))

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

interactive(show, value=Checkbox() if isinstance(control, Switch) else FloatSlider(
    value=getattr(bench, name), min=control.low, max=control.high,
    step=(control.high - control.low) / 100))"""

ARM = """([place, watched, whole]) => { window.painted = new Promise((resolve) => {
    const started = new Promise((press) =>
        document.addEventListener('keydown', () => press(performance.now()),
            { once: true, capture: true }));
    const ready = () => requestAnimationFrame(() => {
        const after = new MessageChannel();
        after.port1.onmessage = async () => resolve(performance.now() - (await started));
        after.port2.postMessage(null);
    });
    const root = document.querySelector(place);
    const look = new MutationObserver((seen) => {
        if (whole && root.getAttribute('aria-busy') === 'true') return;
        const hit = seen.map((each) => each.target)
            .find((node) => node.matches?.(watched) || node.querySelector?.(watched));
        if (!hit) return;
        look.disconnect();
        const image = hit.matches('img') ? hit : hit.querySelector('img');
        if (image) image.decode().then(ready);
        else ready();
    });
    look.observe(root, { childList: true, subtree: true, attributes: true,
        attributeFilter: ['d', 'cx', 'cy', 'src'] });
}); }"""
PAINTED = """(patience) => Promise.race([
    window.painted, new Promise((resolve) => setTimeout(() => resolve(null), patience))])"""


def milliseconds(
    page: Page, control: str, watched: Sequence[str], keys: Sequence[str], whole: bool = False
) -> float:
    """Return the median time from a key on `control` to a change of what is `watched` painted.

    With `whole` the time ends once no curve is awaited. The first two presses warm up, and lead
    to where the others start. A press that changes nothing that can be seen is left out; where
    most do, there is no median but a NaN.
    """
    page.locator(control).first.focus()
    times = []
    for key in keys:
        page.evaluate(ARM, [*watched, whole])
        page.keyboard.press(key)
        times.append(page.evaluate(PAINTED, UNSEEN))
        page.wait_for_timeout(REST)
    seen = [float(each) for each in times[2:] if each is not None]
    return median(seen) if 2 * len(seen) > len(keys) else nan


def every(lab: Lab, page: Page, stem: str) -> dict[str, float]:
    """Return the medians of the bench for each way of pressing, and that of the plain control."""
    name = f"{stem}.ipynb"
    notebook(lab.root / name, [BENCH.format(stem=stem), PLAIN])
    lab.run(page, name)
    page.wait_for_selector(".widget-interact img, .jupyter-widgets img")
    slides = bool(bench_class(stem).controls())
    control = ".fc-bench .fc-track input" if slides else ".fc-bench .fc-switch input"
    ways = {"key press": TO_AND_FRO, "onward": ONWARD, "leap": LEAPS}
    chart = (".fc-chart", ".curve, .dot")
    found = {
        f"{way} to painted": milliseconds(page, control, chart, keys)
        for way, keys in (ways if slides else {"key press": TICKS}).items()
    }
    if slides:
        curves = milliseconds(page, control, chart, FRESH_LEAPS, whole=True)
        found["leap to all curves painted"] = curves
    handle, keys = (".noUi-handle", TO_AND_FRO) if slides else (PLAIN_BOX, TICKS)
    plain = milliseconds(page, handle, (".widget-interact", "img"), keys)
    lab.end_sessions()
    return found | {"new figures instead": plain}


def measures() -> Iterator[dict[str, Any]]:
    """Yield the times of every bench, and how many times faster its slowest way is than figures."""
    with tempfile.TemporaryDirectory() as home, sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=ARGUMENTS
        )
        page = browser.new_page(viewport={"width": 1280, "height": 720})
        with serve(Path(home) / "lab", Path(home)) as lab:
            shutil.copy(CARD, lab.root / CARD.name)
            for stem in BENCHES:
                found, name = every(lab, page, stem), f"bench {stem}"
                for way, time in found.items():
                    yield {"name": f"{name}, {way}", "value": time, "unit": "ms"}
                figures = found.pop("new figures instead")
                faster = figures / max(time for time in found.values() if not isnan(time))
                yield {"name": f"{name}, times faster", "value": faster, "unit": "1"}
        browser.close()
