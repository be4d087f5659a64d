"""How long a trainee waits for the package itself."""

import subprocess
import sys
import time
from collections.abc import Iterator
from statistics import median
from typing import Any


def seconds(code: str) -> float:
    """Return the median wall time of five fresh interpreters running `code`."""
    times = []
    for _ in range(5):
        start = time.perf_counter()
        subprocess.run([sys.executable, "-c", code], check=True)
        times.append(time.perf_counter() - start)
    return median(times)


def measures() -> Iterator[dict[str, Any]]:
    """Yield the time of ``import fuelcircuits``, over that of an empty interpreter."""
    bare = seconds("pass")
    package = seconds("import fuelcircuits")
    yield {"name": "import fuelcircuits", "value": package - bare, "unit": "s"}
