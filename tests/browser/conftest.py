"""A JupyterLab and a page for the browser tests; both are checked when a test ends."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, ConsoleMessage, Page, Request, expect, sync_playwright

from tests.browser.lab import Lab, serve

SCREENS = Path(__file__).parents[2] / "build" / "screens"
ARGUMENTS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"]

expect.set_options(timeout=20_000)  # a busy machine is slow, not wrong


@pytest.fixture(scope="session")
def lab_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """One JupyterLab for all tests of the session."""
    with serve(tmp_path_factory.mktemp("lab")) as lab:
        yield lab


@pytest.fixture
def lab(lab_server: Lab) -> Iterator[Lab]:
    """The JupyterLab, whose kernels are stopped when the test ends."""
    yield lab_server
    lab_server.end_sessions()


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
def page(chromium: Browser) -> Iterator[Page]:
    """A page of 1280 x 720 that may neither log an error nor ask another machine for anything."""
    context = chromium.new_context(viewport={"width": 1280, "height": 720})
    made = context.new_page()
    errors: list[str] = []
    outside: list[str] = []

    def heard(message: ConsoleMessage) -> None:
        if message.type == "error":
            errors.append(f"{message.text} ({message.location.get('url')})")

    def asked(request: Request) -> None:
        if not request.url.startswith(("http://127.0.0.1:", "ws://127.0.0.1:", "data:", "blob:")):
            outside.append(request.url)

    made.on("console", heard)
    made.on("pageerror", lambda error: errors.append(str(error)))
    made.on("request", asked)
    yield made
    context.close()
    assert errors == []
    assert outside == []


@pytest.fixture
def screens() -> Path:
    """The folder that screenshots go to, to be looked at."""
    SCREENS.mkdir(parents=True, exist_ok=True)
    return SCREENS
