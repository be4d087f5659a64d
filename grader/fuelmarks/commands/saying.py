"""What commands print about the files they make."""

from collections.abc import Iterable
from pathlib import Path

__all__ = ["near", "say_sent", "say_wrote"]


def say_wrote(paths: Iterable[Path]) -> None:
    """Name each path once it is written."""
    for path in paths:
        print(f"wrote {near(path)}")


def say_sent(said: Iterable[tuple[str, str]], done: str) -> bool:
    """Name each trainee to whom nothing could be sent, and why; return whether all went well."""
    told = list(said)
    refused = [(who, why) for who, why in told if why]
    for who, why in refused:
        print(f"nothing for {who}: {why}")
    print(f"{len(told) - len(refused)} {done} on the class server, {len(refused)} not")
    return not refused


def near(path: Path) -> str:
    """Return `path` as one would type it here."""
    here = Path.cwd()
    return str(path.relative_to(here) if path.is_relative_to(here) else path)
