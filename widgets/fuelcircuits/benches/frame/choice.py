"""Controls that are no numbers: one of several words, and a switch that is on or off."""

from collections.abc import Mapping
from typing import Any

from fuelcircuits.benches.frame.setting import Setting
from fuelcircuits.errors import RangeError

__all__ = ["Choice", "Switch"]


class Choice(Setting[str]):
    """A setting that holds one of a few words, shown as a labelled list.

    ::

        nozzle = Choice("Main nozzle", {"bled": "air-bled well", "plain": "plain tube"}, "bled")

    Parameters
    ----------
    label
        The name on the screen, which a screen reader says too.
    options
        The words a program uses, each with the words shown.
    start
        The word before anybody touches it.
    """

    kind = "choice"

    def __init__(self, label: str, options: Mapping[str, str], start: str) -> None:
        super().__init__(start)
        self.label, self.options = label, dict(options)

    def checked(self, value: Any) -> str:
        """Refuse a word that is no option (`RangeError`, which names those that are)."""
        if value not in self.options:
            words = ", ".join(self.options)
            raise RangeError(f"{self.name} must be one of {words}, got {value!r}")
        return str(value)

    def spec(self, start: Any) -> dict[str, Any]:
        """Return what the browser needs to build the control, its reset going to `start`."""
        options = [{"value": value, "text": text} for value, text in self.options.items()]
        facts = {"name": self.name, "kind": self.kind, "label": self.label}
        return facts | {"start": start, "options": options}


class Switch(Setting[bool]):
    """A setting that is on or off, shown as a labelled box to tick.

    ::

        leak = Switch("Vacuum hose off", start=False)
    """

    kind = "switch"

    def __init__(self, label: str, start: bool = False) -> None:
        super().__init__(start)
        self.label = label

    def checked(self, value: Any) -> bool:
        """Refuse what is neither on nor off (`RangeError`)."""
        if not isinstance(value, bool):
            raise RangeError(f"{self.name} must be True or False, got {value!r}")
        return value

    def spec(self, start: Any) -> dict[str, Any]:
        """Return what the browser needs to build the control, its reset going to `start`."""
        return {"name": self.name, "kind": self.kind, "label": self.label, "start": start}
