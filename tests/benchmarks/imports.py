"""How long a trainee waits for the package itself.

What is measured is what a notebook's first cell imports, and the whole carburettor, each in
fresh processes beside that of an interpreter that imports nothing.
"""

import subprocess
import sys
import time
from collections.abc import Iterator
from statistics import median
from typing import Any

IMPORTS = {
    "bare interpreter": "pass",
    "import numpy": "import numpy",
    "import the answer sheet": "from fuelcircuits.answer_sheet.sheet import begin, hand_over",
    "import the network": "import fuelcircuits.physics.network.solving",
}


def seconds(code: str) -> float:
    """Return the wall time of a fresh interpreter that runs `code`."""
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True)
    return time.perf_counter() - start


def measures() -> Iterator[dict[str, Any]]:
    """Yield the start of a bare interpreter, and what each import adds to it.

    The interpreters take turns, so that a busy moment falls on all of them.
    """
    rounds = [{name: seconds(code) for name, code in IMPORTS.items()} for _ in range(7)]
    for name in IMPORTS:
        bare = 0.0 if name == "bare interpreter" else 1.0
        spent = median(each[name] - bare * each["bare interpreter"] for each in rounds)
        yield {"name": name, "value": spent, "unit": "s"}
