"""Spec cards: what a rig's file says, read into a `Rig` in SI.

A card is a TOML file with a `name`, an optional `note`, and one table a section. Every value
is text with its unit (``seat_bore = "2.4 mm"``), or a bare number where the unit is 1; a list
stands for a row of values. A table may hold a `note` of its own. Units and ranges are those of
the section's own fields.

Where the second barrel differs from the first, tables such as ``[second.air_path]`` hold the
entries that do; a link that opens it late is ``opens_at`` there.
"""

import dataclasses
import difflib
import functools
import tomllib
import typing
from collections.abc import Iterable, Mapping
from math import isfinite
from pathlib import Path
from typing import Any, NamedTuple

from fuelcircuits.errors import CardError, CircuitError, RangeError, between
from fuelcircuits.physics.entry import Section
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.quantities.written import like, si

__all__ = ["SECOND", "Parts", "read_card", "read_parts", "read_rig", "rig_of", "unit_of"]

SECOND = ("air_path", "low_speed", "high_speed", "power")
"""Sections in which the second barrel may differ from the first."""


def read_rig(path: str | Path) -> Rig:
    """Return the rig on the spec card at `path`, a file as described at the head of this module.

    Raises
    ------
    CardError
        If the file cannot be read as a card.
    """
    path = Path(path)
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise CardError(f"{path.name}: card must be a readable TOML file, got {error}") from error
    return read_card(text, path.name)


def read_card(text: str, file: str) -> Rig:
    """Return the rig on a spec card.

    Parameters
    ----------
    text
        What the card says, in TOML.
    file
        Name of the card's file, for what is said of its faults.

    Returns
    -------
    Rig
        Every number in SI; a section that the card leaves out is None.

    Raises
    ------
    CardError
        If it cannot be read as a card. The message has one line for everything that is wrong,
        each naming file, field, rule and value.
    """
    try:
        card = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise CardError(f"{file}: card must be a readable TOML file, got {error}") from error
    return rig_of(card, file)


class Parts(NamedTuple):
    """What a card says that need not be whole."""

    rig: Rig
    """The sections that are whole; None where one is missing or lacks an entry."""
    entries: Mapping[str, float | tuple[float, ...]]
    """Every entry that is given, in SI, by its name: ``float_bowl.depth``."""
    written: Mapping[str, Any]
    """The card as TOML gives it."""


def read_parts(text: str, file: str) -> Parts:
    """Return what a card says, which may leave out any section and any entry.

    Each entry that is there is held to its kind and range, as in `read_card`, whose parameters
    these are. A section is held together as a whole only where it is whole.

    Raises
    ------
    CardError
        If an entry is unknown, or is not what it must be; one line for each.
    """
    try:
        card = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise CardError(f"{file}: card must be a readable TOML file, got {error}") from error
    whole = dict(card)
    entries: dict[str, float | tuple[float, ...]] = {}
    for name, kind in _types(Rig).items():
        table = card.get(name)
        if _is_section(kind) and isinstance(table, dict):
            fields = {field.name: field for field in dataclasses.fields(kind)}
            if _lacking(fields, table):
                del whole[name]
                entries |= _given(file, name, kind, table)
    _leave_second(whole)
    rig = rig_of({"name": Path(file).stem, **whole}, file)
    for name in whole:
        if isinstance(section := getattr(rig, name, None), Section):
            entries |= {f"{name}.{key}": value for key, value in vars(section).items()}
    return Parts(rig, entries, card)


def unit_of(path: str) -> str:
    """Return the SI unit of an entry, ``float_bowl.depth``, or of one of a row, ``….edges.1``.

    Raises
    ------
    CardError
        If no card can have such an entry; the one most like it is named.
    """
    words = path.removeprefix("second.").split(".")
    kinds: dict[str, Any] = {name: kind for name, kind in _types(Rig).items() if _is_section(kind)}
    if words[0] not in kinds:
        raise CardError(f"{path} {_nearest(words[0], kinds)}")
    fields = {field.name: field for field in dataclasses.fields(kinds[words[0]])}
    if len(words) < 2 or words[1] not in fields or not all(map(str.isdecimal, words[2:])):
        raise CardError(f"{path} {_nearest(words[-1], fields)}")
    return str(fields[words[1]].metadata["unit"])


def _lacking(fields: Mapping[str, "dataclasses.Field[Any]"], table: Mapping[str, Any]) -> list[str]:
    """Return the entries that a table must have and has not."""
    missing = dataclasses.MISSING
    needed = [key for key, one in fields.items() if one.default is one.default_factory is missing]
    return [key for key in needed if key not in table]


def _given(file: str, name: str, kind: Any, table: Mapping[str, Any]) -> dict[str, Any]:
    """Return the entries of a section that is not whole, with the defaults of the others."""
    faults: list[str] = []
    values = _read_values(name, kind, table, faults, whole=False)
    if faults:
        raise CardError("\n".join(f"{file}: {fault}" for fault in faults))
    missing = dataclasses.MISSING
    defaults = {
        one.name: one.default for one in dataclasses.fields(kind) if one.default is not missing
    }
    return {f"{name}.{key}": value for key, value in {**defaults, **values}.items()}


def _leave_second(whole: dict[str, Any]) -> None:
    """Leave out what the second barrel has of sections that are left out of the first."""
    if isinstance(second := whole.get("second"), dict):
        whole["second"] = {name: one for name, one in second.items() if name in whole}
        if not whole["second"]:
            del whole["second"]


def rig_of(card: Mapping[str, Any], file: str) -> Rig:
    """Return the rig that a card says, as TOML gives it; for the rest see `read_card`."""
    faults: list[str] = []
    sections = {name: kind for name, kind in _types(Rig).items() if _is_section(kind)}
    for name in _unknown(card, [*sections, "name", "note", "second"]):
        faults.append(f"{name} {_nearest(name, sections)}")
    filled = {
        name: _read_section(name, kind, card[name], faults)
        for name, kind in sections.items()
        if name in card
    }
    if "second" in card:
        filled["second"] = _read_second(card, sections, faults)
    texts = {"name": card.get("name"), "note": card.get("note", "")}
    for name, words in texts.items():
        if not isinstance(words, str):
            faults.append(f"{name} must be text, got {words!r}")
    if faults:
        raise CardError("\n".join(f"{file}: {fault}" for fault in faults))
    return Rig(**texts, **filled)


def _read_second(
    card: Mapping[str, Any], sections: Mapping[str, Any], faults: list[str]
) -> Rig | None:
    """Return what the second barrel has instead; its tables hold only what differs."""
    tables = card["second"]
    if not isinstance(tables, dict) or not all(isinstance(one, dict) for one in tables.values()):
        faults.append(f"second must be tables such as [second.air_path], got {tables!r}")
        return None
    for name in _unknown(tables, SECOND):
        faults.append(f"second.{name} {_nearest(name, SECOND)}")
    known = [name for name in tables if name in SECOND]
    for name in known:
        if not isinstance(card.get(name), dict):
            faults.append(f"{name} must be given where second.{name} is, got nothing")
    filled = {
        name: _read_section(f"second.{name}", sections[name], card[name] | tables[name], faults)
        for name in known
        if isinstance(card.get(name), dict)
    }
    return Rig("second", **filled)


@functools.cache
def _types(kind: Any) -> dict[str, Any]:
    """Return the annotated type of each field of a dataclass."""
    hints = typing.get_type_hints(kind)
    return {field.name: hints[field.name] for field in dataclasses.fields(kind)}


def _is_section(kind: Any) -> bool:
    """Tell whether an annotation is a section of a card."""
    return isinstance(kind, type) and issubclass(kind, Section)


def _unknown(table: Mapping[str, Any], known: Iterable[str]) -> list[str]:
    """Return the keys of `table` that are not `known`, in the card's order."""
    names = set(known)
    return [key for key in table if key not in names]


def _nearest(name: str, known: Iterable[str]) -> str:
    """Return the rule an unknown key breaks, naming the known key most like it."""
    near = difflib.get_close_matches(name.rsplit(".", 1)[-1], list(known), n=1, cutoff=0.4)
    hint = f"did you mean {near[0]}?" if near else "no entry of that name is known"
    return f"must be a known entry ({hint}), got an unknown key"


def _read_section(name: str, kind: Any, table: Any, faults: list[str]) -> Any:
    """Return one section; add what is wrong with it to `faults`."""
    if not isinstance(table, dict):
        faults.append(f"{name} must be a table of entries, got {table!r}")
        return None
    before = len(faults)
    values = _read_values(name, kind, table, faults)
    if len(faults) > before:
        return None
    try:
        return kind(**values)
    except CircuitError as error:
        faults.append(f"{name}: {error}")
        return None


def _read_values(
    name: str, kind: Any, table: Mapping[str, Any], faults: list[str], *, whole: bool = True
) -> dict[str, Any]:
    """Return the entries of a table; add to `faults` what is wrong, and missing if `whole`."""
    fields = {field.name: field for field in dataclasses.fields(kind)}
    values: dict[str, Any] = {}
    for key in _unknown(table, [*fields, "note"]):
        faults.append(f"{name}.{key} {_nearest(key, fields)}")
    for key, field in fields.items():
        try:
            if key in table:
                values[key] = _read_value(f"{name}.{key}", field, _types(kind)[key], table[key])
            elif whole and field.default is field.default_factory is dataclasses.MISSING:
                raise CardError(f"{name}.{key} must be given, got nothing")
        except CircuitError as error:
            faults.append(str(error))
    return values


def _read_value(name: str, field: "dataclasses.Field[Any]", kind: Any, value: Any) -> Any:
    """Return one entry in SI: a number, a row of numbers, or whatever type it declares."""
    facts = field.metadata
    if "unit" not in facts:
        if type(value) is not kind:
            raise CardError(f"{name} must be {kind.__name__}, got {value!r}")
        return value
    if isinstance(value, list) != (typing.get_origin(kind) is tuple):
        raise CardError(
            f"{name} must be {'one value' if kind is float else 'a list'}, got {value!r}"
        )
    if isinstance(value, list):
        return tuple(_read_number(name, facts, each) for each in value)
    return _read_number(name, facts, value)


def _read_number(name: str, facts: Mapping[str, Any], value: Any) -> float:
    """Return one number in SI, inside its range; text needs a unit unless the unit is 1."""
    unit = facts["unit"]
    plain = isinstance(value, int | float) and not isinstance(value, bool)
    if isinstance(value, str) and "," in value:
        raise CardError(f"{name} must be written with a point for the comma, got {value!r}")
    if not plain and not isinstance(value, str):
        raise CardError(f"{name} must be text with a unit such as {unit}, got {value!r}")
    if plain and unit != "1":
        raise CardError(f"{name} must have a unit such as {unit}, got {value!r}")
    shown = "dimensionless" if unit == "1" else unit
    number = float(value) if plain else si(value, shown, name)
    if not isfinite(number):
        raise CardError(f"{name} must be a finite number, got {value!r}")
    low, high = facts["low"], facts["high"]
    if low <= number <= high or plain or like(value, 1.0, unit) == f"1 {unit}":
        return float(between(name, number, low, high, unit))
    raise RangeError(
        f"{name} must be between {like(value, low, unit)} and {like(value, high, unit)} "
        f"({low:g} and {high:g} {unit}), got {value}"
    )
