"""How long a visitor of a live page waits: for the drawing, for Python, for a point, for curves.

``python -m tests.benchmarks.live_pages --only pump --into table.md`` writes the table of some
pages, of all without a name. A page is opened by somebody who has never been there, once more
with all files kept, and by somebody whose device has made a memory of Python. There its first
slider is stepped, and some sliders are sent from end to end. Points and curves are timed from
question to answer. The last visit is made once more with the browser slowed four times.
"""

import argparse
import gzip
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from typing import Any, NamedTuple

from fuelcircuits.benches import BENCHES
from fuelcircuits.benches.live.page import DRIVE
from playwright.sync_api import Browser, BrowserContext, Error, expect, sync_playwright

from tests.benchmarks._slowed import SLOWNESS, slowed
from tests.benchmarks._visits import LONGEST, Visit, first_visits, opened, stranger, visit
from tests.browser.conftest import ARGUMENTS
from tests.browser.static_site import StaticSite
from tests.places import TOP

PAGES = (*BENCHES, DRIVE)


class Measured(NamedTuple):
    """What a page comes to."""

    packed: int  # bytes of it on the way
    paint: float  # ms to its first paint, never visited
    cold: float  # ms till Python is ready, never visited
    kept: float  # likewise with all files kept
    fast: Visit
    slow: Visit


def measured(site: StaticSite, name: str, browser: Browser, back: BrowserContext) -> Measured:
    """Return what a page comes to; `back` is a browser that has a memory of Python."""
    address = site.at(f"benches/{name}.html")
    packed = len(gzip.compress((site.folder / "benches" / f"{name}.html").read_bytes()))
    firsts, fast = first_visits(browser, address), visit(back, address)
    with slowed():
        return Measured(packed, *firsts, fast, visit(back, address))


@contextmanager
def served() -> Iterator[StaticSite]:
    """Yield the whole site on a plain web server."""
    with tempfile.TemporaryDirectory() as home:
        into = Path(home) / "site"
        words = ["-m", "course.site.build", "--into", str(into), "--core", "build/core"]
        subprocess.run([sys.executable, *words], cwd=TOP, check=True, capture_output=True)
        site = StaticSite(into)
        yield site
        site.stop()


def every(names: Sequence[str]) -> Iterator[tuple[str, Measured | str | int]]:
    """Yield the size of the site, then of each page its measures or what went wrong."""
    with served() as site, sync_playwright() as playwright:
        files = [path.read_bytes() for path in site.folder.rglob("*") if path.is_file()]
        yield "site", sum(len(gzip.compress(one)) for one in files)
        program = shutil.which("chromium")
        browser = playwright.chromium.launch(executable_path=program, args=ARGUMENTS)
        with stranger(browser) as back:
            page = opened(back, site.at("benches/gauges.html"))
            kept = page.locator("html[data-memory]")
            expect(kept).to_have_attribute("data-memory", "kept", timeout=LONGEST)
            page.close()
            for name in names:
                try:
                    yield name, measured(site, name, browser, back)
                except (Error, AssertionError) as error:
                    yield name, str(error).splitlines()[0]
        browser.close()


def measures() -> Iterator[dict[str, Any]]:
    """Yield the measures of every page."""
    for name, found in every(PAGES):
        if isinstance(found, str):
            raise RuntimeError(f"{name}: {found}")
        if isinstance(found, int):
            yield {"name": f"{name}, packed", "value": found, "unit": "B"}
            continue
        yield {"name": f"live {name}, page packed", "value": found.packed, "unit": "B"}
        for label, value in told_of(found):
            yield {"name": f"live {name}, {label}", "value": value, "unit": "ms"}


def told_of(found: Measured) -> Iterator[tuple[str, float]]:
    """Yield the times of a page, each with what it is."""
    yield from zip(("first paint", "ready cold", "ready without memory"), found[1:4], strict=True)
    for way, told in (("", found.fast), (f", slowed {SLOWNESS} times", found.slow)):
        yield f"ready from memory{way}", told.ready
        for kind, times in zip(told._fields[1:], told[1:], strict=True):
            if times:
                label = kind.replace("_", "'s ")
                yield f"{label}, median{way}", median(times)
                yield f"{label}, most{way}", max(times)


HEAD = ["page", "kB", "first paint", "ready: never visited", "files kept", "from memory"]
KINDS = ["step", "its curves", "leap", "its curves"]


def row(name: str, found: Measured | str) -> str:
    """Return the line of a page in the table."""
    if isinstance(found, str):
        return f"| {name} | failed: {found} |"
    first = [f"{found.packed / 1e3:.0f}", *(f"{one:.0f}" for one in found[1:4])]
    visits = (
        cell for told in (found.fast, found.slow) for cell in [f"{told.ready:.0f}", *_cells(told)]
    )
    return f"| {' | '.join([name, *first, *visits])} |"


def _cells(told: Visit) -> Iterator[str]:
    for times in told[1:]:
        yield f"{median(times):.0f} ({max(times):.0f})" if times else ""


def main(arguments: Sequence[str] | None = None) -> int:
    """Write the table, line by line as it comes; tell at the end whether a page has failed."""
    asked = argparse.ArgumentParser(prog="tests.benchmarks.live_pages", description=__doc__)
    asked.add_argument("--only", nargs="*", choices=PAGES, default=PAGES, metavar="NAME")
    asked.add_argument("--into", type=Path, default=Path("build/live-pages.md"))
    chosen = asked.parse_args(arguments)
    heads = [*HEAD, *KINDS, f"from memory, slowed {SLOWNESS} times", *KINDS]
    failed = 0
    with chosen.into.open("w", encoding="utf-8") as table:
        print("Milliseconds; median (most) of several.\n", file=table)
        for line in (f"| {' | '.join(heads)} |", "| --- " * len(heads) + "|"):
            print(line, file=table)
        for name, found in every(chosen.only):
            if isinstance(found, int):
                print(f"The whole site, packed: {found / 1e6:.2f} MB", flush=True)
                continue
            failed += isinstance(found, str)
            print(row(name, found), file=table, flush=True)
            print(row(name, found), flush=True)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
