"""The parts of a carburettor by name, as `parts.toml` has them."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from itertools import count

__all__ = ["Part", "part", "part_with", "parts"]


@dataclass(frozen=True)
class Part:
    """One part: what it is called, and what the atlas says of it."""

    id: str
    name: str
    job: str
    called: tuple[str, ...] = ()
    """By which other words a bench means it, or the place where its gauge goes."""
    wear: str = ""
    clean: str = ""
    gauge: str = ""
    card: tuple[str, ...] = ()
    shown: bool = True
    """Whether it is a part of the carburettor, and stands in the atlas."""
    number: int = 0
    """Its number in the atlas, the same for every rig; nought if it does not stand there."""


@cache
def parts() -> Mapping[str, Part]:
    """Return every part by its id, in the order of the file."""
    read = tomllib.loads((files(__package__) / "parts.toml").read_text("utf-8"))
    numbers = count(1)
    return {
        name: Part(
            name,
            **{**entry, **{many: tuple(entry.get(many, ())) for many in ("called", "card")}},
            number=next(numbers) if entry.get("shown", True) else 0,
        )
        for name, entry in read.items()
    }


def part_with(path: str) -> Part | None:
    """Return the part that an entry of the card, such as ``pump.jet_bore``, is a size of.

    Of an entry of the second barrel it is the same part. None if the atlas has no such part.
    """
    entry = ".".join(path.removeprefix("second.").split(".")[:2])
    return next((one for one in parts().values() if one.shown and entry in one.card), None)


def part(name: str) -> Part:
    """Return one part; raise `KeyError` if there is none of that id."""
    return parts()[name]
