"""A text with numbers of a spec card: filled in from any card, ours or a college's own.

``{card: float-setting}``
    the number of that name in ``limits.toml``, or one spelt out as in `card_number`; also
    ``{card: name}`` and ``{card: note}``
``{limit: float-setting}``
    between what it is good
``{minutes: fuel-pressure}``
    what a check of `fuelcircuits.diagnosis` takes in the shop
``{with: cold_start}``, ``{without: vents.outside_bore}``
    at the head of a line: the line stands only where the card has that section, or that entry
    and not nought

A number that the card does not give leaves room to write it in, if the card may leave some out.
"""

import difflib
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, fields, replace
from pathlib import Path

from fuelcircuits.cards import Parts, read_parts, unit_of
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.errors import CircuitError
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.quantities.written import DRILL, number_and_unit

from fuelmarks.course.card_number import CardNumber
from fuelmarks.course.error import CourseError
from fuelmarks.course.limits import named
from fuelmarks.course.shop_readings import READINGS

__all__ = ["BLANK", "TOKEN", "CardText", "card_at", "plain"]

BLANK = "________"
"""Room to write in a number that the card does not give."""
TOKEN = re.compile(r"\{(?P<kind>card|limit|minutes|with|without):\s*(?P<asked>[^{}]*?)\s*\}")
CONDITION = re.compile(r"\{(?P<kind>with|without):\s*(?P<asked>[\w.]+)\s*\}\s*")
STEP = re.compile(r"\d+(?=\. )")
WORDS = ("name", "note")
SECTIONS = tuple(one.name for one in fields(Rig) if one.name not in (*WORDS, "second"))
READING = "reading."


def card_at(path: Path) -> Parts:
    """Return the card in a file; raise `CardError` or `CourseError` if it is none."""
    try:
        text = path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        raise CourseError(f"card must be a readable TOML file, got {path}: {error}") from error
    return read_parts(text, path.name)


def plain(_entry: str, text: str) -> str:
    """Return the number of an entry as it is."""
    return text


@dataclass(frozen=True)
class CardText:
    """Fills texts from one card; `missing` collects what the card left blank.

    `shown` is given an entry of the card and its number as text, and returns what stands there.
    """

    card: Parts
    file: str
    limits: Mapping[str, CardNumber]
    blanks: bool = False
    shown: Callable[[str, str], str] = plain
    missing: list[str] = field(default_factory=list)

    def filled(self, text: str, where: str) -> str:
        """Return `text`, called `where` in messages, with what the card says.

        Lines keep their numbers: for each that does not stand, an empty one follows its block.

        Raises
        ------
        CourseError
            If it asks for an entry that no card has, for one that this card lacks and may not,
            or in a unit of another kind; the message says in which line.
        """
        kept: list[tuple[int, str]] = []
        dropped: set[int] = set()
        part = owed = 0
        for at, line in enumerate(text.splitlines(keepends=True), 1):
            part += line.startswith("#")
            try:
                standing = self._standing(line)
                filled = None if standing is None else TOKEN.sub(self._put, standing)
            except CircuitError as error:
                raise CourseError(f"{where}, line {at}: {error}") from error
            if filled is None:
                dropped.add(part)
                owed += 1
                continue
            if not filled.strip():
                filled, owed = filled + "\n" * owed, 0
            kept.append((part, filled))
        return "".join(_counted(kept, dropped))

    def _standing(self, line: str) -> str | None:
        """Return a line without its conditions, or nothing if one is not met."""
        while found := CONDITION.match(line):
            if self._has(found["asked"]) != (found["kind"] == "with"):
                return None
            line = line[found.end() :]
        return line

    def _has(self, path: str) -> bool:
        """Return whether the card has a section, or an entry that is not nought."""
        card, section = self.card, path.removeprefix("second.")
        if "." in section:
            unit_of(path)
            return bool(card.entries.get(path))
        if section not in SECTIONS:
            raise CourseError(f"section must be one of {', '.join(SECTIONS)}, got {section!r}")
        return section in (card.written if section == path else card.written.get("second", {}))

    def _put(self, found: re.Match[str]) -> str:
        """Return what stands for one token."""
        kind, asked = found["kind"], found["asked"]
        if kind == "minutes":
            return f"{find(asked).minutes:g}"
        if kind not in ("card", "limit"):
            raise CourseError(f"{found[0]} must stand at the head of its line, got it within")
        if kind == "card" and asked in WORDS:
            return str(getattr(self.card.rig, asked))
        number = named(self.limits, asked)
        if kind == "limit" and not number.limited:
            raise CourseError(f"{asked} must say how far off is good, got no such thing")
        unit = _unit(number.path)
        got = self._number(number.path)
        if got is None:
            return BLANK if kind == "limit" else self.shown(number.path, BLANK)
        if kind == "limit" and got == 0 and not number.path.startswith(READING):
            rule = f"{{with: {number.path}}} must stand before the limit of what may be nought"
            raise CourseError(f"{self.file}: {rule}, got it without")
        number = self._beside(number)
        text = number.limits if kind == "limit" else number.value
        made = text(number.factor * got, unit)
        return made if kind == "limit" else self.shown(number.path, made + self._drill(number))

    def _number(self, path: str) -> float | None:
        """Return an entry or a reading in SI; nothing if it is left blank."""
        found = self._reading(path) if path.startswith(READING) else self._entry(path)
        if found is None:
            if not self.blanks:
                raise CourseError(f"{self.file} must give {path}, got nothing")
            self.missing.append(path)
        return found

    def _reading(self, path: str) -> float | None:
        reading, rig = READINGS[path.removeprefix(READING)], self.card.rig
        if any(getattr(rig, name) is None for name in reading.needs):
            return None
        try:
            return reading.read(rig)
        except CircuitError as error:
            raise CourseError(f"{self.file}: {path} cannot be worked out: {error}") from error

    def _entry(self, path: str) -> float | None:
        card, name = self.card, path.removeprefix("second.")
        section, entry, *row = name.split(".")
        if name != path:
            barrel = getattr(card.rig.second, section, None)
            found = getattr(barrel, entry, None) if barrel else None
        else:
            found = card.entries.get(f"{section}.{entry}")
        if isinstance(found, tuple):
            return found[int(row[0])] if row and int(row[0]) < len(found) else None
        return found

    def _beside(self, number: CardNumber) -> CardNumber:
        """Return a number with the card's own unit beside it, where that is the inch."""
        written = self._written(number.path)
        if number.unit != "mm" or number.other or DRILL.fullmatch(written):
            return number
        unit = number_and_unit(written)[1] if written else ""
        if unit not in ("in", "inch", "inches", '"'):
            return number
        return replace(number, other="in", finer=0.001)

    def _drill(self, number: CardNumber) -> str:
        """Return the name of the drill that a card gives instead of a size."""
        written = self._written(number.path)
        return f" ({written.strip()})" if DRILL.fullmatch(written) else ""

    def _written(self, path: str) -> str:
        """Return an entry as the card has it; "" for what is worked out or is a plain number."""
        section, _, entry = path.partition(".")
        table = self.card.written.get(section, {})
        written = table.get(entry, "") if isinstance(table, Mapping) else ""
        return written if isinstance(written, str) else ""


def _unit(path: str) -> str:
    """Return the SI unit of an entry or a reading; raise `CircuitError` if there is none such."""
    if not path.startswith(READING):
        return unit_of(path)
    name = path.removeprefix(READING)
    if name not in READINGS:
        near = difflib.get_close_matches(name, READINGS, n=1)
        hint = f"did you mean {near[0]}?" if near else f"one of {', '.join(READINGS)}"
        raise CourseError(f"reading must be known ({hint}), got {name!r}")
    return READINGS[name].unit


def _counted(lines: list[tuple[int, str]], dropped: set[int]) -> Iterator[str]:
    """Yield lines, the steps of each part that lost a line counted anew."""
    at, step = 0, 0
    for part, line in lines:
        at, step = part, step if part == at else 0
        if part in dropped and STEP.match(line):
            step += 1
            yield STEP.sub(str(step), line, count=1)
        else:
            yield line
