"""What was read, seen, mended and fitted on a car, by date: its history, in one plain file.

The file is TOML, a table a round. A round is written in one piece beside the others; nothing that
stands there is ever changed but the round of that very day.
"""

import json
import os
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import Any

from fuelcircuits.errors import CardError, CircuitError, RangeError
from fuelcircuits.own_car.looks import answers_of
from fuelcircuits.own_car.readings import ReadingError, understood
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel

__all__ = ["Round", "Rounds", "counted", "open_rounds", "rounds_in"]

HEAD = "# What was read, seen and done on this car, a table for every day. Keep it with the card.\n"


@dataclass(frozen=True)
class Round:
    """One day at the car."""

    day: str
    """As 2026-05-02."""
    altitude: float = 0.0
    """m"""
    temperature: float = 15.0
    """degC"""
    ethanol: float = 0.0
    """Share of the fuel by volume [1]."""
    readings: Mapping[str, str] = field(default_factory=dict)
    """As they were written down, by the check's name."""
    seen: Mapping[str, str] = field(default_factory=dict)
    """Yes or no, by the look's name."""
    work: str = ""
    parts: str = ""

    @property
    def weather(self) -> Weather:
        """The air of the day; raise `RangeError` if nobody drives in it."""
        return Weather.at(altitude=self.altitude, temperature=self.temperature + 273.15)

    @property
    def fuel(self) -> Fuel:
        """What was in the tank; raise `RangeError` if it is no fuel."""
        return Fuel(ethanol=self.ethanol)

    @property
    def where(self) -> str:
        """Where, how warm, and on what fuel, in words."""
        fuel = f"E{100 * self.ethanol:.0f}" if self.ethanol else "petrol without ethanol"
        return f"{self.altitude:.0f} m above the sea, {self.temperature:.0f} °C, {fuel}"

    @property
    def holds(self) -> str:
        """How much was read and seen, in words."""
        return f"{counted(len(self.readings), 'reading')}, {counted(len(self.seen), 'look')}"

    def check(self) -> None:
        """Raise `ReadingError` naming all that cannot be used."""
        faults = []
        for look in (self._dated, self._outside, self._read, self._seen):
            try:
                look()
            except CircuitError as error:
                faults.append(str(error))
        if faults:
            raise ReadingError("\n".join(faults))

    def _dated(self) -> None:
        try:
            date.fromisoformat(self.day)
        except ValueError:
            raise RangeError(f"day must be like 2026-05-02, got {self.day!r}") from None

    def _outside(self) -> None:
        self.weather  # noqa: B018 - refuses what is no weather
        self.fuel  # noqa: B018

    def _read(self) -> None:
        understood(self.readings, self.fuel)

    def _seen(self) -> None:
        answers_of(self.seen)


@dataclass(frozen=True)
class Rounds:
    """All rounds of a car, the oldest first."""

    path: Path
    every: tuple[Round, ...] = ()

    @property
    def last(self) -> Round | None:
        """Return the newest round, if there is any."""
        return self.every[-1] if self.every else None

    def of(self, day: str) -> Round | None:
        """Return the round of a day, if there was one."""
        return next((one for one in self.every if one.day == day), None)

    def with_round(self, new: Round) -> "Rounds":
        """Return the rounds with one more, or with another of its day; raise if it is amiss."""
        new.check()
        others = [one for one in self.every if one.day != new.day]
        return replace(self, every=tuple(sorted([*others, new], key=lambda one: one.day)))

    def text(self) -> str:
        """Return the rounds as their file says them."""
        return HEAD + "".join(f"\n{line}" for one in self.every for line in _lines(one)) + "\n"

    def write(self) -> None:
        """Lay the rounds down, in one piece."""
        part = self.path.with_name(f"{self.path.name}.{os.getpid()}.part")
        part.write_text(self.text(), encoding="utf-8")
        os.replace(part, self.path)


def counted(count: int, noun: str) -> str:
    """Return how many there are, in words."""
    return f"{count or 'no'} {noun}{'' if count == 1 else 's'}"


def open_rounds(path: Path) -> Rounds:
    """Return the rounds at `path`, none if there is no file.

    Raises
    ------
    CardError
        If the file cannot be read; a line for each thing amiss.
    """
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        return Rounds(path)
    except (OSError, UnicodeDecodeError) as error:
        raise CardError(f"{path.name}: rounds must be readable TOML, got {error}") from error
    return rounds_in(text, path)


def rounds_in(text: str, path: Path) -> Rounds:
    """Return the rounds that a text is, to lie at `path`; raises as `open_rounds` does."""
    try:
        found = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise CardError(f"{path.name}: rounds must be readable TOML, got {error}") from error
    rounds, faults = [], []
    for table in found.get("round", []):
        try:
            rounds.append(_round(table))
        except (CircuitError, TypeError, ValueError) as error:
            faults += [f"{path.name}: {line}" for line in str(error).splitlines()]
    if faults:
        raise CardError("\n".join(faults))
    return Rounds(path, tuple(sorted(rounds, key=lambda one: one.day)))


def _round(table: Mapping[str, Any]) -> Round:
    """Return one round of the file."""
    known = set(Round.__dataclass_fields__)
    if strange := [name for name in table if name not in known]:
        raise RangeError(f"round must have {', '.join(sorted(known))}, got {strange[0]!r}")
    texts = {name: dict(table[name]) for name in ("readings", "seen") if name in table}
    found = Round(**{**table, **texts, "day": str(table.get("day", ""))})
    found.check()
    return found


def _lines(one: Round) -> Iterator[str]:
    """Yield the lines of one round."""
    yield "[[round]]"
    yield f"day = {_quoted(one.day)}"
    yield f"altitude = {one.altitude:g}  # m"
    yield f"temperature = {one.temperature:g}  # degC"
    yield f"ethanol = {one.ethanol:g}  # share of the fuel"
    for name in ("work", "parts"):
        if text := getattr(one, name):
            yield f"{name} = {_quoted(text)}"
    for name in ("readings", "seen"):
        if table := getattr(one, name):
            yield f"[round.{name}]"
            yield from (f"{key} = {_quoted(str(text))}" for key, text in table.items())
    yield ""


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
