"""The entries of one table of a block, each asked for by name and checked as it is read."""

import re
from collections.abc import Mapping
from typing import Any

from fuelmarks.questions.frame.worded import BlockError

__all__ = ["Entries"]

MISSING = object()


class Entries:
    """A table of TOML; `where` names it in messages, `known` are the entries it may have."""

    def __init__(self, where: str, plain: Any, known: tuple[str, ...]) -> None:
        self.where = where
        if not isinstance(plain, Mapping):
            raise BlockError(f"{where} must be a table, got {plain!r}")
        self.plain: Mapping[str, Any] = plain
        strange = [name for name in plain if name not in known]
        if strange:
            raise BlockError(f"{where} must have entries {', '.join(known)}, got {strange[0]}")

    def _asked(self, entry: str, kind: type | tuple[type, ...], other: Any, rule: str) -> Any:
        found = self.plain.get(entry, other)
        if found is MISSING:
            raise BlockError(f"{self.where} must have {entry}, got none")
        if not isinstance(found, kind) or isinstance(found, bool):
            raise BlockError(f"{self.where}: {entry} must be {rule}, got {found!r}")
        return found

    def text(self, entry: str, other: Any = MISSING) -> str:
        """Return a text."""
        return str(self._asked(entry, str, other, "a text"))

    def name(self, entry: str) -> str:
        """Return a name of small letters, digits and hyphens."""
        found = self.text(entry)
        if not re.fullmatch(r"[a-z][a-z0-9-]{0,60}", found):
            rule = f"{entry} must be small letters, digits and hyphens"
            raise BlockError(f"{self.where}: {rule}, got {found!r}")
        return found

    def number(self, entry: str, other: float, low: float, high: float) -> float:
        """Return a number between `low` and `high`."""
        found = float(self._asked(entry, (int, float), other, "a number"))
        if not low <= found <= high:
            raise BlockError(f"{self.where}: {entry} must be {low:g} to {high:g}, got {found:g}")
        return found

    def numbers(self, entry: str) -> tuple[float, ...]:
        """Return a list of numbers."""
        found = self._asked(entry, list, MISSING, "a list of numbers")
        if any(isinstance(one, bool) or not isinstance(one, int | float) for one in found):
            raise BlockError(f"{self.where}: {entry} must be a list of numbers, got {found!r}")
        return tuple(float(one) for one in found)

    def texts(self, entry: str) -> tuple[str, ...]:
        """Return a list of texts, empty if there is none."""
        found = self._asked(entry, list, [], "a list of texts")
        if any(not isinstance(one, str) for one in found):
            raise BlockError(f"{self.where}: {entry} must be a list of texts, got {found!r}")
        return tuple(found)

    def choice(self, entry: str, options: tuple[str, ...]) -> str:
        """Return one of some words, the first if none is given."""
        found = self.text(entry, options[0])
        if found not in options:
            listed = ", ".join(one for one in options if one)
            raise BlockError(f"{self.where}: {entry} must be one of {listed}, got {found!r}")
        return found

    def table(self, entry: str) -> Mapping[str, Any]:
        """Return a table, empty if there is none."""
        found: Mapping[str, Any] = self._asked(entry, Mapping, {}, "a table")
        return found

    def list_of_tables(self, entry: str) -> list[Mapping[str, Any]]:
        """Return a list of tables, empty if there is none."""
        found: list[Mapping[str, Any]] = self._asked(entry, list, [], "a list of tables")
        return found
