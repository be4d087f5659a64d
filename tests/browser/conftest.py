"""One JupyterLab and one browser for all tests of a worker."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect, sync_playwright

from tests.browser.lab import Lab, serve
from tests.places import TOP

SCREENS = TOP / "build" / "screens"
ARGUMENTS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"]

expect.set_options(timeout=20_000)  # a busy machine is slow, not wrong


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


@pytest.fixture
def screens() -> Path:
    """The folder that screenshots go to, to be looked at."""
    SCREENS.mkdir(parents=True, exist_ok=True)
    return SCREENS
