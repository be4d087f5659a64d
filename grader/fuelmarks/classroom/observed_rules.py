"""What observed work must say before it is written down."""

import unicodedata
from collections.abc import Iterable, Iterator, Set
from dataclasses import dataclass
from datetime import date
from typing import Protocol, TypeVar

__all__ = ["Rules", "Work"]

LONGEST = 300
OLDEST = date(2000, 1, 1)
CONTROLS = ("Cc", "Cf", "Cs", "Zl", "Zp")
"""Unicode's categories of what turns text round, breaks a line, or cannot be seen."""


class Work(Protocol):
    """A piece of work, as somebody enters it."""

    @property
    def trainee(self) -> str: ...  # noqa: D102 - the fields of a line
    @property
    def outcome(self) -> str: ...  # noqa: D102
    @property
    def day(self) -> str: ...  # noqa: D102
    @property
    def reading(self) -> str: ...  # noqa: D102
    @property
    def result(self) -> str: ...  # noqa: D102
    @property
    def watched_by(self) -> str: ...  # noqa: D102
    @property
    def note(self) -> str: ...  # noqa: D102
    @property
    def corrects(self) -> int: ...  # noqa: D102


W = TypeVar("W", bound=Work)


@dataclass(frozen=True)
class Rules:
    """Who is in the class, which outcomes are watched, and which lines may be corrected."""

    trainees: frozenset[str]
    outcomes: tuple[str, ...]
    results: tuple[str, ...]
    free: frozenset[int]
    today: date

    def faults(self, work: Iterable[W]) -> Iterator[tuple[W, str]]:
        """Yield the pieces of work that break a rule, each with the rule and the value."""
        taken: set[int] = set()
        for one in work:
            fault = self._fault(one, self.free - taken)
            taken.add(one.corrects)
            if fault:
                yield one, fault

    def _fault(self, one: Work, free: Set[int]) -> str:
        """Return which rule a piece of work breaks with which value; nothing if none."""
        return (
            self._who_and_what(one)
            or self._when(one.day)
            or self._words(one)
            or self._correction(one, free)
        )

    def _who_and_what(self, one: Work) -> str:
        """Return what is wrong with trainee, outcome or result."""
        if one.trainee not in self.trainees:
            return f"trainee must be in class.csv, got {one.trainee!r}"
        if one.outcome not in self.outcomes:
            known = ", ".join(self.outcomes) or "none: no outcome of outcomes.toml is of doing"
            return f"outcome must be one that is watched, {known}, got {one.outcome!r}"
        if one.result not in self.results:
            return f"result must be one of {', '.join(self.results)}, got {one.result!r}"
        return ""

    def _when(self, day: str) -> str:
        """Return what is wrong with the day."""
        try:
            found = date.fromisoformat(day)
        except ValueError:
            return f"day must be like 2026-12-04, got {day!r}"
        if not OLDEST <= found <= self.today:
            return f"day must be from {OLDEST} to today, {self.today}, got {day!r}"
        return ""

    def _words(self, one: Work) -> str:
        """Return what is wrong with what is written."""
        written = {"reading": one.reading, "watched by": one.watched_by, "note": one.note}
        for name, text in written.items():
            if len(text) > LONGEST:
                return f"{name} must have {LONGEST} characters or fewer, got {len(text)}"
            for sign in text:
                if unicodedata.category(sign) in CONTROLS:
                    return (
                        f"{name} must be one line of plain text, got U+{ord(sign):04X} in {text!r}"
                    )
        if not one.watched_by:
            return "watched by must be the name of whoever watched, got none"
        if not one.reading and one.result != "withdrawn":
            return "reading must say what was read or seen, got none"
        return ""

    def _correction(self, one: Work, free: Set[int]) -> str:
        """Return what is wrong with the number of the line that is put right."""
        if one.result == "withdrawn" and not one.corrects:
            return "withdrawn must say which line it corrects, got none"
        if one.corrects and one.corrects not in free:
            rule = "corrects must be the number of a line that is not corrected yet"
            return f"{rule}, got {one.corrects}"
        return ""
