"""A test that would never end is broken off, instead of holding all others up."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

__all__ = ["ends"]

PATIENCE = 60.0
"""Seconds after which nobody waits any longer, on a busy machine either."""


@contextmanager
def ends(patience: float = PATIENCE) -> Iterator[None]:
    """Raise `TimeoutError` in what takes longer: work that grows with the square never ends."""
    before = signal.signal(signal.SIGALRM, _broken_off)
    signal.setitimer(signal.ITIMER_REAL, patience)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0.0)
        signal.signal(signal.SIGALRM, before)


def _broken_off(_number: int, _frame: FrameType | None) -> None:
    raise TimeoutError("the test must end, got no end within its patience")
