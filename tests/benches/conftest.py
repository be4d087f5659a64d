"""What holds for every test of a bench: no loop runs in its thread, whatever ran there before."""

import asyncio
from collections.abc import Iterator

import pytest


@pytest.fixture(autouse=True)
def _no_loop() -> Iterator[None]:
    """Set aside a loop that a browser's test has left running in this thread."""
    held = asyncio._get_running_loop()
    asyncio._set_running_loop(None)
    yield
    asyncio._set_running_loop(held)
