"""A browser as on a slow device: its processes are stopped for three quarters of the time.

That slows Python in a worker too; the developer tools would slow the page alone.
"""

import os
import signal
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from threading import Event

import psutil

__all__ = ["SLOWNESS", "slowed"]

SLOWNESS, SLICE, FRESH = 4, 0.02, 0.3
"""How many times slower, in slices of so many seconds; processes are looked for that often."""


@contextmanager
def slowed() -> Iterator[None]:
    """Slow every process that draws pages; they are children of this one, and all go on after."""
    done = Event()
    with ThreadPoolExecutor(1) as pool:
        held = pool.submit(_hold, done)
        try:
            yield
        finally:
            done.set()
        held.result()


def _hold(done: Event) -> None:
    while not done.is_set():
        mine, until = _renderers(), time.monotonic() + FRESH
        try:
            while time.monotonic() < until and not done.is_set():
                _tell(mine, signal.SIGSTOP)
                time.sleep((1 - 1 / SLOWNESS) * SLICE)
                _tell(mine, signal.SIGCONT)
                time.sleep(SLICE / SLOWNESS)
        finally:
            _tell(mine, signal.SIGCONT)


def _tell(processes: list[int], word: signal.Signals) -> None:
    for pid in processes:
        with suppress(ProcessLookupError):
            os.kill(pid, word)


def _renderers() -> list[int]:
    children = psutil.Process().children(recursive=True)
    return [child.pid for child in children if _renders(child)]


def _renders(child: psutil.Process) -> bool:
    """Return whether a process draws pages; one that has just ended does not."""
    with suppress(psutil.NoSuchProcess):
        return "--type=renderer" in child.cmdline()
    return False
