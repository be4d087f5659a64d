"""The browser's Python with the package in it, compiled by one worker while the others wait."""

import fcntl
import json
import shutil
import subprocess
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

from fuelcircuits.benches.live.engine import PYODIDE, compiled
from fuelcircuits.benches.live.release import cards_in

from tests.places import RIGS, TOP

__all__ = ["CARDS", "CORE", "compiled_core", "told_by_core"]

CORE = TOP / "build" / "core"
PYTHON = CORE / PYODIDE
CARDS = cards_in(RIGS)
ASK = TOP / "tests" / "benches" / "live" / "ask.mjs"


@cache
def compiled_core() -> Path:
    """Return the folder of what is compiled; it takes some ten seconds to make."""
    with (CORE / "compiling").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        return compiled(CORE, CARDS)


def told_by_core(
    asked: Sequence[Mapping[str, Any]], folder: Path, first: Path | None = None
) -> list[str]:
    """Return what the browser's Python answers, run by node from what pages carry.

    `first` is Python that it runs before.
    """
    node = shutil.which("node")
    assert node, "node must be on this machine (Debian: apt-get install nodejs)"
    (folder / "questions.json").write_text(json.dumps(asked), encoding="utf-8")
    places = [PYTHON, compiled_core(), folder / "questions.json", folder / "answers"]
    places += [first] if first else []
    done = subprocess.run([node, ASK, *places], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-2000:]
    told: list[str] = json.loads((folder / "answers").read_text("utf-8"))
    return told
