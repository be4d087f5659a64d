"""A page that is watched: it may neither log an error nor ask another machine for anything."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from playwright.sync_api import Browser, ConsoleMessage, Page, Request

__all__ = ["watched"]

LOCAL = ("http://127.0.0.1:", "ws://127.0.0.1:", "data:", "blob:", "file:")


@contextmanager
def watched(browser: Browser, **how: Any) -> Iterator[Page]:
    """Yield a page of 1280 x 720; see when it closes that nothing was amiss."""
    faults: list[str] = []

    def heard(message: ConsoleMessage) -> None:
        if message.type == "error":
            faults.append(f"{message.text} ({message.location.get('url')})")

    def asked(request: Request) -> None:
        if not request.url.startswith(LOCAL):
            faults.append(f"asked {request.url}")

    context = browser.new_context(viewport={"width": 1280, "height": 720}, **how)
    page = context.new_page()
    page.on("console", heard)
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("request", asked)
    try:
        yield page
    except Exception as error:
        error.add_note(f"The page said until then: {faults}")
        raise
    finally:
        context.close()
    if faults:
        raise AssertionError(f"page must log no error and stay on this machine, got {faults}")
