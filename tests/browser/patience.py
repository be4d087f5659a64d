"""How long the browser's tests wait: a busy machine is slow, not wrong."""

from collections.abc import Iterator
from time import monotonic

from playwright.sync_api import Page

__all__ = ["PATIENCE", "looks"]

PATIENCE = 60_000
"""Milliseconds after which what was waited for will not come."""


def looks(page: Page, pause: float) -> Iterator[None]:
    """Yield now, and again after every `pause` milliseconds, until patience is at an end."""
    end = monotonic() + PATIENCE / 1000
    while monotonic() < end:
        yield
        page.wait_for_timeout(pause)
