"""Live pages on a web server of this machine, and a browser that comes back to them."""

import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Literal

from fuelcircuits.benches.live.engine import engine, write_engine
from fuelcircuits.benches.live.page import Release
from fuelcircuits.benches.live.release import keep_offline, write_pages
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.static_site import StaticSite
from tests.browser.watch import Faults, watching
from tests.core import CARDS, CORE, compiled_core

__all__ = ["LAPTOP", "PHONE", "Visitor", "visiting", "write_newer", "write_release"]

PHONE: Any = {"width": 390, "height": 844}
LAPTOP: Any = {"width": 1366, "height": 768}
TOLD = "release.json"


def write_release(folder: Path) -> None:
    """Write every live page, what they run, and beside them what they say of their release."""
    compiled_core()
    root = folder / "site"
    told = write_engine(engine(CORE, CARDS), root / "live")
    write_pages(CARDS, root / "benches", told, lambda _stem: "")
    keep_offline(root, told)
    (folder / TOLD).write_text(json.dumps(told))


def write_newer(site: StaticSite, name: str, old: str, new: str) -> None:
    """Make a newer release of a site, in which a page has another text."""
    changed = site.folder / name
    changed.write_text(changed.read_text("utf-8").replace(old, new), encoding="utf-8")
    keep_offline(site.folder, Release(*json.loads((site.folder.parent / TOLD).read_text())))


class Visitor:
    """A browser that has kept what it needs; still to the last page."""

    def __init__(self, context: BrowserContext, site: StaticSite, faults: Faults) -> None:
        self.context, self.site, self.faults = context, site, faults
        self.pages: list[Page] = []

    def open(
        self,
        name: str,
        link: str = "",
        size: Any = LAPTOP,
        scheme: Literal["light", "dark"] = "light",
    ) -> Page:
        """Return the page of a bench, once its Python is ready."""
        page = self.context.new_page()
        self.pages.append(page)
        page.set_viewport_size(size)
        page.emulate_media(color_scheme=scheme)
        page.goto(self.site.at(f"benches/{name}.html{link}"))
        ready = page.locator("html[data-python=ready]")
        expect(ready).to_be_attached()
        return page

    def leave(self) -> None:
        """Forget what was set, close all pages, and see that nothing was amiss on them."""
        for page in self.pages:
            page.evaluate("localStorage.clear()")
            page.close()
        self.pages.clear()
        self.faults.tell()


@contextmanager
def visiting(browser: Browser, site: StaticSite) -> Iterator[Visitor]:
    """Yield a visitor who has been there once, and see at the end that nothing was amiss."""
    context = browser.new_context(viewport=LAPTOP, reduced_motion="reduce")
    with watching(context) as faults:
        page = context.new_page()
        page.goto(site.at("benches/gauges.html"))
        kept = page.locator("html[data-memory]")
        expect(kept).to_have_attribute("data-memory", "kept")
        expect(page.locator("#fc-offline")).to_contain_text("work without a network")
        page.close()
        yield Visitor(context, site, faults)
        context.close()
