"""What is made once a run, by whichever worker asks for it first, and only looked at after."""

import fcntl
import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

__all__ = ["made_once"]


def made_once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], object]) -> Path:
    """Return the folder `name` of this run; `make` fills it if no worker has done so.

    Whoever changes something in it takes a copy first.
    """
    own = factory.getbasetemp()
    run = own.parent if "PYTEST_XDIST_WORKER" in os.environ else own
    folder, begun = run / name, run / f"{name}-begun"
    with (run / f"{name}.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not folder.exists():
            shutil.rmtree(begun, ignore_errors=True)  # of one who failed
            begun.mkdir()
            make(begun)
            begun.rename(folder)
    return folder
