"""The parts of a carburettor by name, as `parts.toml` has them."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

__all__ = ["Part", "part", "parts"]


@dataclass(frozen=True)
class Part:
    """One part: what it is called, and what the atlas says of it."""

    id: str
    name: str
    job: str
    wear: str = ""
    clean: str = ""
    gauge: str = ""
    card: tuple[str, ...] = ()
    shown: bool = True
    """Whether it is a part of the carburettor, and stands in the atlas."""


@cache
def parts() -> Mapping[str, Part]:
    """Return every part by its id, in the order of the file."""
    read = tomllib.loads((files(__package__) / "parts.toml").read_text("utf-8"))
    return {
        name: Part(name, **{**entry, "card": tuple(entry.get("card", ()))})
        for name, entry in read.items()
    }


def part(name: str) -> Part:
    """Return one part; raise `KeyError` if there is none of that id."""
    return parts()[name]
