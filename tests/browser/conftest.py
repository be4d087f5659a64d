"""One JupyterLab, one browser and one visitor of the live pages for all tests of a worker."""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

from tests.browser.lab import Lab, serve
from tests.browser.live_pages import Visitor, visiting, write_release
from tests.browser.patience import PATIENCE
from tests.browser.static_site import StaticSite
from tests.once import made_once
from tests.places import TOP

SCREENS = TOP / "build" / "screens"
ARGUMENTS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"]

expect.set_options(timeout=PATIENCE)


@pytest.fixture(scope="session")
def lab_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """One JupyterLab for all tests of the session."""
    with serve(tmp_path_factory.mktemp("lab"), tmp_path_factory.mktemp("notebooks")) as lab:
        yield lab


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """Debian's Chromium, driven by Playwright, with an empty profile."""
    program = shutil.which("chromium")
    assert program, "chromium must be on this machine (Debian: apt-get install chromium)"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=ARGUMENTS)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def live_pages(tmp_path_factory: pytest.TempPathFactory) -> Iterator[StaticSite]:
    """A release of all live pages on a plain web server, a worker's own."""
    written = made_once(tmp_path_factory, "live-pages", write_release)
    own = shutil.copytree(written, tmp_path_factory.mktemp("live") / "own")
    served = StaticSite(own / "site")
    yield served
    served.stop()


@pytest.fixture(scope="session")
def visitor(chromium: Browser, live_pages: StaticSite) -> Iterator[Visitor]:
    """Somebody who has been on the live pages, and has kept Python's memory."""
    with visiting(chromium, live_pages) as found:
        yield found


@pytest.fixture
def opened(visitor: Visitor) -> Iterator[Callable[..., Page]]:
    """Return a function that opens a live page and waits for Python; all are closed after."""
    yield visitor.open
    visitor.leave()


@pytest.fixture
def screens() -> Path:
    """The folder that screenshots go to, to be looked at."""
    SCREENS.mkdir(parents=True, exist_ok=True)
    return SCREENS
