"""Pages that are watched: they may neither log an error nor ask another machine for anything."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, Request

from tests.browser.patience import PATIENCE

__all__ = ["Faults", "watched", "watching"]

KERNELS, TOO_EARLY = "/api/kernels?", "status of 500"
"""Jupyter cannot list its kernels while one is starting, because it notes when that was last busy
only afterwards; JupyterLab asks again, and no page shows it."""
LOCAL = ("http://127.0.0.1:", "ws://127.0.0.1:", "data:", "blob:", "file:")


class Faults(list[str]):
    """What was amiss on the pages of a context."""

    def tell(self) -> None:
        """Raise an error that names them, once."""
        told = list(self)
        self.clear()
        if told:
            raise AssertionError(f"pages must log no error and stay on this machine, got {told}")


@contextmanager
def watched(browser: Browser, **how: Any) -> Iterator[Page]:
    """Yield a page of 1280 x 720; see when it closes that nothing was amiss."""
    context = browser.new_context(viewport={"width": 1280, "height": 720}, **how)
    with watching(context):
        yield context.new_page()
        context.close()


@contextmanager
def watching(context: BrowserContext) -> Iterator[Faults]:
    """Watch all pages of a context; see at the end that nothing was amiss."""
    faults = Faults()

    def heard(message: ConsoleMessage) -> None:
        address = str(message.location.get("url"))
        if message.type == "error" and not (TOO_EARLY in message.text and KERNELS in address):
            faults.append(f"{message.text} ({address})")

    def asked(request: Request) -> None:
        if not request.url.startswith(LOCAL):
            faults.append(f"asked {request.url}")

    context.set_default_timeout(PATIENCE)
    context.on("console", heard)
    context.on("weberror", lambda error: faults.append(str(error.error)))
    context.on("request", asked)
    try:
        yield faults
    except Exception as error:
        error.add_note(f"The pages said until then: {faults}")
        context.close()
        raise
    faults.tell()
