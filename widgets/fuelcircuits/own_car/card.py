"""An owner's card: the entries that somebody measured, and a rig made of them.

It is a TOML file that anyone can read and change. What was not measured is scaled from the
teaching rig nearest to it, and stands in the file as comments.
"""

import json
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from math import sqrt
from pathlib import Path
from typing import Any

from fuelcircuits.cards import unit_of
from fuelcircuits.errors import CardError, CircuitError
from fuelcircuits.own_car.entries import BARRELS, ENTRIES, SECOND_ENTRIES
from fuelcircuits.own_car.entry_reading import entry_value, with_unit
from fuelcircuits.own_car.entry_text import entry_meaning, entry_text
from fuelcircuits.own_car.leeway import SECOND_BARREL, value_of
from fuelcircuits.own_car.readings import understood
from fuelcircuits.own_car.scaling import RIGS, nearest, rig_named, scaled, scaled_second
from fuelcircuits.own_car.usual import USUAL
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import ABSENT, Rig

__all__ = ["OwnCard", "is_own_card", "open_card", "own_card"]

LATE = 0.7
"""Angle at which a link opens a second barrel whose owner has not measured it [rad]: 40 degrees,
common practice, no source."""
HEAD = """\
# The card of your own carburettor. Change it here or in the form; every value keeps its unit.
# A line that begins with # is not measured but assumed, scaled from the teaching rig "{like}":
# take the # away once you have measured it.
"""


@dataclass(frozen=True)
class OwnCard:
    """What is known of somebody's carburettor, as it was written down."""

    name: str = "my car"
    barrels: str = "alike"
    """One of `fuelcircuits.own_car.entries.BARRELS`."""
    entries: Mapping[str, str] = field(default_factory=dict)
    """Text of each entry that was measured, by section and field; ``second.`` before those of a
    second barrel that differs."""
    ran_well: Mapping[str, str] = field(default_factory=dict)
    """What gauges showed when the car ran well, by the check's name."""
    forced: str = ""
    """The rig to scale from, where the owner chose one."""

    @cached_property
    def known(self) -> dict[str, float]:
        """Return every measured entry [SI]; raise `CardError` with a line for each amiss."""
        found, faults = dict[str, float](), []
        for entry, text in self.entries.items():
            try:
                unit_of(entry)
                found[entry] = entry_value(entry, text)
            except CircuitError as error:
                faults.append(f"{self.name}: {error}")
        if faults:
            raise CardError("\n".join(faults))
        if self.barrels == "one":
            found["air_path.barrels"] = 1.0
        return found

    @property
    def like(self) -> str:
        """Return the name of the rig that the rest is scaled from."""
        return self.forced or nearest(self._first)

    @property
    def measured(self) -> frozenset[str]:
        """Return the entries that somebody has measured."""
        return frozenset(self.known)

    @cached_property
    def usual(self) -> dict[str, float]:
        """Return what gauges showed when the car ran well [SI]; raise `ReadingError` if amiss."""
        return understood(self.ran_well, Fuel())

    @cached_property
    def rig(self) -> Rig:
        """Return the whole carburettor; raise `CardError` if the entries do not go together."""
        base, first = rig_named(self.like), dict(self._first)
        if rodless := first.get("power.lean_step") == 0.0:
            del first["power.lean_step"]
        try:
            rig = scaled(base, first, alone=self.barrels == "late")
            if rodless:
                rig = _without_rod(rig, "high_speed.jet_bore" in first)
            if self.barrels == "late":
                second = scaled_second(base, first, self._second)
                rig = replace(rig, second=replace(second, power=rig.power and second.power))
        except CircuitError as error:
            raise CardError(f"{self.name}: {error}") from error
        return replace(rig, name=self.name, note=f"Scaled from {self.like}.")

    @property
    def _first(self) -> dict[str, float]:
        return {name: one for name, one in self.known.items() if not name.startswith(SECOND_BARREL)}

    @property
    def _second(self) -> dict[str, float]:
        own = {
            name.removeprefix(SECOND_BARREL): one
            for name, one in self.known.items()
            if name.startswith(SECOND_BARREL)
        }
        return {"air_path.opens_at": LATE, **own}

    def assumed(self, entry: str) -> str:
        """Return the value that an entry is taken to have where it was not measured, as text."""
        return entry_text(entry, value_of(self.rig, entry))

    def asked(self) -> list[str]:
        """Return the entries that matter for this carburettor."""
        rig = self.rig
        parts = [name for name in ENTRIES if getattr(rig, name.split(".")[0]) is not None]
        return [*parts, *(SECOND_ENTRIES if rig.second is not None else ())]

    def with_entry(self, entry: str, text: str) -> "OwnCard":
        """Return the card with one entry written, or left open again if the text is empty."""
        entries = {name: one for name, one in self.entries.items() if name != entry}
        if text.strip():
            entries[entry] = with_unit(entry, text)
        return replace(self, entries=entries)

    def write(self, path: Path) -> None:
        """Lay the card down as a file."""
        path.write_text(self.text(), encoding="utf-8")

    def text(self) -> str:
        """Return the card as its file says it."""
        return "\n".join(self._lines()) + "\n"

    def _lines(self) -> Iterator[str]:
        """Yield the lines of the file."""
        yield HEAD.format(like=self.like)
        yield f"name = {_quoted(self.name)}"
        yield f"barrels = {_quoted(self.barrels)}  # {BARRELS[self.barrels]}"
        if self.forced:
            yield f"like = {_quoted(self.forced)}"
        names = [*self.asked(), *(name for name in self.entries if name not in self.asked())]
        for table in dict.fromkeys(name.rpartition(".")[0] for name in names):
            yield f"\n[{table}]"
            for name in names:
                if name.rpartition(".")[0] == table:
                    yield self._line(name)
        if self.ran_well:
            yield "\n[ran_well]  # what gauges showed when the car ran well"
            yield from (f"{name} = {_quoted(text)}" for name, text in self.ran_well.items())

    def _line(self, entry: str) -> str:
        """Return the line of one entry, a comment where it is assumed."""
        name = entry.rpartition(".")[2]
        if entry in self.entries:
            return f"{name} = {_quoted(self.entries[entry])}  # {entry_meaning(entry)}"
        return f"# {name} = {_quoted(self.assumed(entry))}  # assumed: {entry_meaning(entry)}"


def open_card(path: Path) -> OwnCard:
    """Return the card at `path`; raise `CardError` with a line for each thing amiss."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise CardError(f"{path.name}: card must be a readable TOML file, got {error}") from error
    return own_card(text, path.name)


def is_own_card(text: str) -> bool:
    """Return whether a card leaves open what nobody has measured: it says how its barrels are."""
    try:
        return "barrels" in tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return False


def own_card(text: str, file: str) -> OwnCard:
    """Return the card that a text is; raise `CardError` with a line for each thing amiss."""
    try:
        found = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise CardError(f"{file}: card must be a readable TOML file, got {error}") from error
    faults = list(_faults(found))
    if faults:
        raise CardError("\n".join(f"{file}: {fault}" for fault in faults))
    card = OwnCard(
        name=str(found.get("name", "my car")),
        barrels=found.get("barrels", "alike"),
        entries=dict(_entries(found)),
        ran_well={name: str(text) for name, text in found.get("ran_well", {}).items()},
        forced=found.get("like", ""),
    )
    card.known  # noqa: B018 - says what is amiss
    return card


def _faults(found: Mapping[str, Any]) -> Iterator[str]:
    """Yield what is wrong with a card's words and tables."""
    if (barrels := found.get("barrels", "alike")) not in BARRELS:
        yield f"barrels must be one of {', '.join(BARRELS)}, got {barrels!r}"
    if (like := found.get("like", "")) and like not in RIGS:
        yield f"like must be one of {', '.join(RIGS)}, got {like!r}"
    for name in found.get("ran_well", {}):
        if name not in USUAL:
            yield f"ran_well must have {', '.join(USUAL)}, got {name!r}"


def _entries(found: Mapping[str, Any], before: str = "") -> Iterator[tuple[str, str]]:
    """Yield every entry of a card's tables with its text."""
    for section, table in found.items():
        if section != "ran_well" and isinstance(table, dict):
            if section == "second":
                yield from _entries(table, SECOND_BARREL)
                continue
            for name, value in table.items():
                if name != "note":
                    yield f"{before}{section}.{name}", _text(value)


def _text(value: Any) -> str:
    return f"{value:g}" if isinstance(value, int | float) else str(value)


def _without_rod(rig: Rig, measured: bool) -> Rig:
    """Return a rig without metering rods, its main jet as large as it was with them on the road."""
    jet, rod = rig.high_speed.jet_bore, rig.power.lean_step
    open_bore = jet if measured else sqrt(jet**2 - rod**2)
    return replace(rig, power=ABSENT, high_speed=replace(rig.high_speed, jet_bore=open_bore))


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
