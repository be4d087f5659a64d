"""What commands print about the files they make."""

from collections.abc import Iterable
from pathlib import Path

__all__ = ["near", "say_wrote"]


def say_wrote(paths: Iterable[Path]) -> None:
    """Name each path once it is written."""
    for path in paths:
        print(f"wrote {near(path)}")


def near(path: Path) -> str:
    """Return `path` as one would type it here."""
    here = Path.cwd()
    return str(path.relative_to(here) if path.is_relative_to(here) else path)
