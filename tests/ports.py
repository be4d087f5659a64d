"""Ports that no other worker of the run takes."""

import os
from itertools import count

from fuelmarks.server.demo import free_ports

__all__ = ["own_ports"]

WORKER = int(os.environ.get("PYTEST_XDIST_WORKER", "gw0").removeprefix("gw"))
RUN = os.getppid() % 125
LOWEST = count(20_000 + 1000 * WORKER + 4 * RUN, 4)
"""Below the ports that a system gives away by itself; four at a time, and none twice.

Another run of the tests on this computer most likely begins elsewhere.
"""


def own_ports() -> int:
    """Return the first of four ports in a row that nobody listens on, and no other worker will."""
    return free_ports(next(LOWEST))
