"""Parts of the driven carburettor that have a bench of their own, as parts.toml tells them."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from importlib.resources import files
from typing import Any

from fuelcircuits.physics.network.rig import Rig

__all__ = ["PARTS", "Part", "parts_of"]

Names = Mapping[str, str]


@dataclass(frozen=True, kw_only=True)
class Part:
    """A part, and how its bench comes to stand at a moment; see the top of parts.toml."""

    name: str
    section: str
    leaves: str
    takes: Names = field(default_factory=dict)
    sizes: Names = field(default_factory=dict)
    moved: Names = field(default_factory=dict)
    lost: Names = field(default_factory=dict)
    states: Mapping[str, Names] = field(default_factory=dict)
    at: str = ""
    fixed: Mapping[str, float | str] = field(default_factory=dict)

    def entry(self, rig: Rig, name: str) -> Any:
        """Return an entry of a card; without a section it is one of the part's own."""
        section, _, own = name.rpartition(".")
        return getattr(getattr(rig, section or self.section), own)


def _read() -> dict[str, Part]:
    """Return the part of each bench, by the bench's stem."""
    told = tomllib.loads((files(__package__) / "parts.toml").read_text("utf-8"))
    return {stem: Part(**facts) for stem, facts in told.items()}


PARTS: Mapping[str, Part] = _read()


def parts_of(rig: Rig) -> dict[str, Part]:
    """Return the parts that a rig has, by the stem of their bench."""
    return {stem: part for stem, part in PARTS.items() if getattr(rig, part.section) is not None}
