"""The driven carburettor: what a step costs, and whether pictures come in time.

A picture is wanted for every 40 ms of the drive. It is late if it has been due for longer than
one more, and dropped if a newer one was due with it when it could be shown. Both depend on what
else the machine does.
"""

import shutil
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from fuelcircuits.benches.drive.driven import away, onward
from fuelcircuits.benches.drive.journeys import JOURNEYS, trace_of
from fuelcircuits.benches.live.desk import Desk
from fuelcircuits.benches.live.engine import engine, write_engine
from fuelcircuits.benches.live.page import drive_page
from fuelcircuits.benches.live.release import cards_in
from fuelcircuits.cards import read_rig
from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser.conftest import ARGUMENTS
from tests.browser.lab import notebook, serve
from tests.browser.static_site import StaticSite
from tests.places import RIGS, TOP

JOURNEY = "pull-away"
COUNTS = "() => document.querySelector('.fc-drive').driveCounts"
OPEN = [
    "from fuelcircuits import DriveBench, read_rig",
    'bench = DriveBench(read_rig("plover.toml"))\nbench',
]


def measures() -> Iterator[dict[str, Any]]:
    """Yield the cost of a step, and the pictures of a journey in a page and through a kernel."""
    for rig in ("plover", "dunlin"):
        yield from _steps(rig)
    program = shutil.which("chromium")
    with sync_playwright() as playwright, tempfile.TemporaryDirectory() as folder:
        browser = playwright.chromium.launch(executable_path=program, args=ARGUMENTS)
        yield from _in_a_page(browser, Path(folder))
        yield from _through_a_kernel(browser, Path(folder))
        browser.close()


def _steps(name: str) -> Iterator[dict[str, Any]]:
    """Yield the processor's time for a step of every journey, in this Python."""
    rig, spent = read_rig(RIGS / f"{name}.toml"), []
    for journey in JOURNEYS.values():
        trace = trace_of(journey, name)
        driven, now = away(trace.outing, rig)
        for foot in trace.feet:
            start = time.process_time()
            now = onward(driven, now, foot)
            spent.append(1e3 * (time.process_time() - start))
    spent.sort()
    for words, share in (("median", 0.5), ("p99", 0.99)):
        yield _measure(f"drive, {name}, a step, {words}", spent[int(share * len(spent))], "ms")
    yield _measure(f"drive, {name}, over real time", sum(spent) / len(spent) / 20.0, "1")


def _in_a_page(browser: Browser, folder: Path) -> Iterator[dict[str, Any]]:
    cards = cards_in(RIGS)
    told = write_engine(engine(TOP / "build" / "core", cards), folder / "live")
    (folder / "benches").mkdir()
    text = drive_page(Desk(cards), tuple(cards), told)
    (folder / "benches" / "drive.html").write_text(text, encoding="utf-8")
    site, page = StaticSite(folder), browser.new_page()
    page.goto(site.at("benches/drive.html"))
    page.wait_for_selector("html[data-python=ready]", state="attached", timeout=120_000)
    yield from _pictures(page, "page")
    page.close()
    site.stop()


def _through_a_kernel(browser: Browser, folder: Path) -> Iterator[dict[str, Any]]:
    (folder / "lab").mkdir()
    (folder / "notebooks").mkdir()
    with serve(folder / "lab", folder / "notebooks") as lab:
        shutil.copy(RIGS / "plover.toml", lab.root / "plover.toml")
        notebook(lab.root / "drive.ipynb", OPEN)
        page = browser.new_page()
        lab.run(page, "drive.ipynb")
        page.wait_for_selector(".fc-drive")
        yield from _pictures(page, "kernel")
        page.close()


def _pictures(page: Page, where: str) -> Iterator[dict[str, Any]]:
    """Yield how many pictures of a journey came, late ones, and time that was given up."""
    page.get_by_label("Set journey").select_option(JOURNEY)
    page.get_by_label("with a healthy car's").uncheck()
    start = time.perf_counter()
    page.get_by_role("button", name="Watch it driven").click()
    page.wait_for_function(
        "() => document.querySelector('.fc-told').textContent.includes('is over')", timeout=120_000
    )
    spent, counts = time.perf_counter() - start, page.evaluate(COUNTS)
    yield _measure(
        f"drive, {where}, pictures a second",
        (counts["pictures"] - counts["dropped"]) / spent,
        "1/s",
    )
    shares = {"late": counts["late"], "dropped": counts["dropped"]}
    for words, count in shares.items():
        yield _measure(f"drive, {where}, pictures {words}", count / counts["pictures"], "1")
    yield _measure(f"drive, {where}, time given up", counts["given"], "s")


def _measure(name: str, value: float, unit: str) -> dict[str, Any]:
    return {"name": name, "value": value, "unit": unit}
