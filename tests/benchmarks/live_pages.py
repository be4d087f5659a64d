"""How long a visitor of a live page waits: for the drawing, for Python, for a point, for curves.

Every bench is opened three times in one browser: at first, once more with all files kept, and
from the memory that the device has made by then. Then its first slider is stepped, and every
slider sent from end to end. Points and curves are timed from question to answer. All of it is
done again with the browser's processes stopped for three quarters of the time, which slows
Python too: the developer tools would slow the page alone.
"""

import gzip
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from pathlib import Path
from statistics import median
from threading import Event
from typing import Any

import psutil
from fuelcircuits.benches import BENCHES
from playwright.sync_api import BrowserContext, Page, expect, sync_playwright

from tests.browser.static_site import StaticSite
from tests.places import TOP

ARGUMENTS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"]
LISTEN = """
window.answers = [];
const post = Worker.prototype.postMessage;
Worker.prototype.postMessage = function (message) {
    const asked = message.question && JSON.parse(message.question), start = performance.now();
    const hear = ({ data }) => {
        if (data.number !== message.number) return;
        window.answers.push([asked.curves, performance.now() - start]);
        this.removeEventListener('message', hear);
    };
    if (asked) this.addEventListener('message', hear);
    post.call(this, message);
};
const ready = new MutationObserver(() => {
    if (document.documentElement.dataset.python) window.ready ??= performance.now();
});
ready.observe(document, { subtree: true, attributes: true, attributeFilter: ['data-python'] });
"""
PAINT = "performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN"
SLOWNESS, SLICE, FRESH = 4, 0.02, 0.3
"""How many times slower, in slices of so many seconds; processes are looked for that often."""
HALTS = ((signal.SIGSTOP, 1 - 1 / SLOWNESS), (signal.SIGCONT, 1 / SLOWNESS))


@contextmanager
def slowed() -> Iterator[None]:
    """Stop every process of the browser for part of the time; they are children of this one."""
    done = Event()

    def renderers() -> list[int]:
        children = psutil.Process().children(recursive=True)
        return [child.pid for child in children if _renders(child)]

    def hold() -> None:
        while not done.is_set():
            mine, until = renderers(), time.monotonic() + FRESH
            while time.monotonic() < until:
                for word, share in HALTS:
                    for pid in mine:
                        with suppress(ProcessLookupError):
                            os.kill(pid, word)
                    time.sleep(share * SLICE)

    with ThreadPoolExecutor(1) as pool:
        held = pool.submit(hold)
        try:
            yield
        finally:
            done.set()
        held.result()


def _renders(child: psutil.Process) -> bool:
    """Return whether a process draws pages; one that has just ended does not."""
    with suppress(psutil.NoSuchProcess):
        return "--type=renderer" in child.cmdline()
    return False


def opened(context: BrowserContext, address: str) -> tuple[Page, float, float]:
    """Return a page once Python is ready, with the times of its first paint and of that [ms]."""
    page = context.new_page()
    page.goto(address)
    expect(page.locator("html[data-python=ready]")).to_be_attached(timeout=120_000)
    return page, page.evaluate(PAINT), page.evaluate("window.ready")


def pressed(page: Page, keys: list[tuple[int, str]]) -> tuple[list[float], list[float]]:
    """Return the times of points and of curves after keys, each on a slider by its place [ms]."""
    page.evaluate("window.answers.length = 0")
    for at, key in keys:
        page.locator(".fc-track input").nth(at).press(key)
        expect(page.locator(".fc-chart")).not_to_have_attribute("aria-busy", "true")
    told = page.evaluate("window.answers")
    return tuple([time for whole, time in told if whole is curves] for curves in (False, True))  # type: ignore[return-value]


def answers(context: BrowserContext, address: str) -> Iterator[tuple[str, float]]:
    """Yield the times of a visit from memory: ready, then steps and leaps with their curves."""
    page, _, ready = opened(context, address)
    yield "ready from memory", ready
    count = page.locator(".fc-track input").count()
    steps = [(0, key) for key in ["ArrowRight"] * 6 + ["ArrowLeft"] * 3]
    leaps = [(at, key) for at in range(count) for key in ("Home", "End")]
    for name, keys in (("step", steps), ("leap", leaps)) if count else ():
        for part, times in zip(("", "'s curves"), pressed(page, keys), strict=True):
            if times:
                yield f"{name}{part}, median", median(times)
                yield f"{name}{part}, most", max(times)
    page.close()


def visits(site: StaticSite, stem: str, playwright: Any) -> Iterator[tuple[str, float]]:
    """Yield the times of a bench, of somebody who has never been there."""
    address = site.at(f"benches/{stem}.html")
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        context = playwright.chromium.launch_persistent_context(
            profile, executable_path=shutil.which("chromium"), args=ARGUMENTS
        )
        context.set_default_timeout(120_000)
        context.add_init_script(LISTEN)
        page, paint, ready = opened(context, address)
        yield "first paint", paint
        yield "ready cold", ready
        kept = page.locator("html[data-memory]")
        expect(kept).to_have_attribute("data-memory", "kept", timeout=240_000)
        page.evaluate(
            "caches.keys().then((all) => all.filter((one) => one.includes('memory'))"
            ".forEach((one) => caches.delete(one)))"
        )
        page.close()
        page, _, ready = opened(context, address)
        yield "ready without memory", ready
        expect(page.locator("html[data-memory]")).to_be_attached(timeout=240_000)
        page.close()
        yield from answers(context, address)
        with slowed():
            for name, value in answers(context, address):
                yield f"{name}, slowed {SLOWNESS} times", value
        context.close()


def measures() -> Iterator[dict[str, Any]]:
    """Yield the measures of every bench's page."""
    with tempfile.TemporaryDirectory() as home, sync_playwright() as playwright:
        into = Path(home) / "site"
        words = ["-m", "course.site.build", "--into", str(into), "--core", "build/core"]
        subprocess.run([sys.executable, *words], cwd=TOP, check=True, capture_output=True)
        files = [path for path in into.rglob("*") if path.is_file()]
        whole = sum(len(gzip.compress(path.read_bytes())) for path in files)
        yield {"name": "site, packed", "value": whole, "unit": "B"}
        site = StaticSite(into)
        for stem in BENCHES:
            size = len(gzip.compress((into / "benches" / f"{stem}.html").read_bytes()))
            yield {"name": f"live {stem}, page packed", "value": size, "unit": "B"}
            for name, value in visits(site, stem, playwright):
                yield {"name": f"live {stem}, {name}", "value": value, "unit": "ms"}
        site.stop()
