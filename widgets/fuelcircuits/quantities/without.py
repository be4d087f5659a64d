"""Load a library without what it would load beside, if that happens to be there too."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager

__all__ = ["without"]


@contextmanager
def without(*names: str) -> Iterator[None]:
    """Let modules that are not loaded yet look as if they were not installed, for a while."""
    absent = [name for name in names if name not in sys.modules]
    sys.modules.update(dict.fromkeys(absent))  # type: ignore[arg-type]  # None stands for missing
    try:
        yield
    finally:
        for name in absent:
            del sys.modules[name]
