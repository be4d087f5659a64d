"""The atlas among the pages: from a bench or a line of the card to a part, and back."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from html import escape
from pathlib import Path

from fuelcircuits.benches import BENCHES, bench_class, open_bench
from fuelcircuits.benches.drive.bench import DriveBench
from fuelcircuits.benches.drive.parts import parts_of
from fuelcircuits.benches.live.page import DRIVE
from fuelcircuits.cards import read_rig
from fuelcircuits.drawings.atlas import Atlas
from fuelcircuits.drawings.parts import Part, part, part_with, parts
from fuelcircuits.drawings.sections import EVERYWHERE, SECTIONS
from fuelcircuits.physics.network.rig import Rig

__all__ = ["ATLAS", "PART", "Atlases", "card_link"]

ATLAS = ("plover", "dunlin")
"""The rigs that have an atlas, the usual one first."""
PART = "../atlas/RIG.html#part-{}"
"""Where a part stands, from a page in a folder beside the atlas."""


def card_link(path: str, text: str, rig: str) -> str:
    """Return a number of the card as a link to the part that it is a size of; plain if to none."""
    found = part_with(path)
    if found is None or rig not in ATLAS:
        return text
    title = f"{found.name}, part {found.number} of the atlas"
    return f'<a href="{_address(found.id, rig)}" title="{title}">{text}</a>'


@dataclass(frozen=True)
class Atlases:
    """The atlas of each rig whose card lies in `rigs`, and the benches that name its parts."""

    rigs: Path

    @cached_property
    def _of(self) -> Mapping[str, Rig]:
        return {name: read_rig(self.rigs / f"{name}.toml") for name in ATLAS}

    @cached_property
    def _places(self) -> Mapping[str, str]:
        """The page of each atlas without benches, to see which parts it has."""
        return {name: Atlas(rig).html() for name, rig in self._of.items()}

    @cached_property
    def named(self) -> Mapping[str, Mapping[str, tuple[str, ...]]]:
        """By bench and part, the labels of controls and readings that name the part."""
        rig = self._of[ATLAS[0]]
        return {DRIVE: _driven_parts(rig), **{stem: _named_parts(stem, rig) for stem in BENCHES}}

    def page(self, rig: str) -> str:
        """Return the atlas of one rig as MyST, each part with the benches that name it."""
        met = {name: ", ".join(self._benches(name)) for name in parts()}
        atlas = Atlas(self._of[rig]).html(met).replace("\n", " ")
        said = (
            f"Every part of **{rig}**, a rig that we invented. Choose a number or a name in a "
            "drawing, and the page goes to what the part does, what wears, how it is cleaned, "
            "where a gauge goes, what the card says, and at which bench it is met."
        )
        return f"# Atlas: {rig}\n\n{said}\n\n`````{{raw}} html\n{atlas}\n`````"

    def beside(self, stem: str) -> str:
        """Return, in HTML, the parts that a bench names, each leading to its place; or nothing."""
        rows = "".join(
            f"<li>{self._links(part(name))}: {escape(', '.join(labels))}</li>"
            for name, labels in self.named.get(stem, {}).items()
        )
        if not rows:
            return ""
        title = f"Parts of this bench in the atlas: {_title(stem)}"
        return (
            f'<nav class="fc-atlas" aria-label="{escape(title)}"><p><strong>In the atlas</strong>, '
            f"and what names them here:</p><ul>{rows}</ul></nav>"
        )

    def _links(self, one: Part) -> str:
        """Return the part's name as a link to the first atlas that has it, and then the others."""
        first, *others = [rig for rig in ATLAS if f'id="part-{one.id}"' in self._places[rig]]
        link = f'<a href="{_address(one.id, first)}">{escape(one.name)}</a>'
        more = ", ".join(
            f'<a href="{_address(one.id, rig)}" aria-label="{escape(one.name)} of {rig}">{rig}</a>'
            for rig in others
        )
        return f"{link} ({more})" if more else link

    def _benches(self, name: str) -> Iterator[str]:
        """Yield a link to each bench that names a part."""
        for stem, named in self.named.items():
            if name in named:
                yield f'<a href="../benches/{stem}.html">{escape(_title(stem))}</a>'


def _address(name: str, rig: str) -> str:
    return PART.replace("RIG", rig).format(name)


def _title(stem: str) -> str:
    return DriveBench.title if stem == DRIVE else bench_class(stem).title


def _driven_parts(rig: Rig) -> Mapping[str, tuple[str, ...]]:
    """Return what the drive calls each part whose size it hands over to a bench of its own."""
    found: dict[str, list[str]] = {}
    for one in parts_of(rig).values():
        sizes = (part_with(f"{one.section}.{entry}") for entry in one.sizes.values())
        for name in dict.fromkeys(size.id for size in sizes if size):
            found.setdefault(name, []).append(one.name)
    return {name: tuple(found[name]) for name in parts() if name in found}


def _named_parts(stem: str, rig: Rig) -> Mapping[str, tuple[str, ...]]:
    """Return the labels of a bench that name a part, by the part's id.

    A label names a part by one of its names, or by its id where the section of the bench's own
    circuit shows it. A control also names the part whose entry of the card it moves.
    """
    bench = open_bench(stem, rig)
    state = bench.state()
    moved = {_bare(one.label): f"{stem}.{name}" for name, one in bench.inputs().items()}
    read = [one.label for one in state.readings] + [one.label for one in state.gauges]
    drawn = _drawn(stem.replace("_", "-"), rig)
    found: dict[str, list[str]] = {}
    for label in dict.fromkeys([*moved, *read]):
        for name in dict.fromkeys(_called(label, moved.get(label, ""), drawn)):
            found.setdefault(name, []).append(label)
    return {name: tuple(found[name]) for name in parts() if name in found}


def _bare(label: str) -> str:
    """Return a label without the minutes that a test takes."""
    return re.sub(r" \(\d+\u00a0min\)$", "", label)


def _called(label: str, entry: str, drawn: set[str]) -> Iterator[str]:
    """Yield the parts that a label names; of two names, one within the other, the longer."""
    words = label.lower()
    for name, one in sorted(_names(drawn), key=lambda pair: -len(pair[0])):
        left = re.sub(rf"\b{re.escape(name)}\b", "", words)
        if left != words:
            words = left
            yield one.id
    yield from (one.id for one in parts().values() if one.shown and entry in one.card)


def _names(drawn: set[str]) -> Iterator[tuple[str, Part]]:
    """Yield every name of every part; its id too, where it is drawn."""
    for one in parts().values():
        if one.shown:
            yield from ((name, one) for name in (one.name, *one.called))
            if one.id in drawn:
                yield one.id.replace("-", " "), one


def _drawn(circuit: str, rig: Rig) -> set[str]:
    """Return the parts in the section of a circuit; none where it shows no carburettor."""
    if circuit not in SECTIONS or circuit in EVERYWHERE:
        return set()
    return {one.part for one in SECTIONS[circuit][1](rig).named}
