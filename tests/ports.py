"""Ports that no other worker of the run takes."""

import os
import socket
from itertools import count

__all__ = ["own_ports"]

WORKER = int(os.environ.get("PYTEST_XDIST_WORKER", "gw0").removeprefix("gw"))
FIRST = count(20_000 + 1000 * WORKER, 4)
"""Below the ports that a system gives away by itself; four at a time, and none twice."""


def own_ports() -> int:
    """Return the first of four ports in a row that nobody listens on, and nobody else will."""
    return next(first for first in FIRST if all(_free(first + more) for more in range(4)))


def _free(port: int) -> bool:
    with socket.socket() as tried:
        try:
            tried.bind(("127.0.0.1", port))
        except OSError:
            return False
    return True
