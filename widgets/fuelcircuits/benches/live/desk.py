"""What a page asks of Python, answered in JSON: the same wherever Python runs.

A question is a table with the name of what is asked, and what that takes::

    {"ask": "answer", "stem": "float_bowl", "rig": "plover", "values": {"demand": 0.004}}

A card or a setting that cannot be used is refused in words: ``{"refused": ["..."]}``.
"""

import json
import zipfile
from collections.abc import Callable, Mapping
from math import inf
from pathlib import Path
from typing import Any, TypeAlias

from fuelcircuits.benches import Bench, bench_class, open_bench
from fuelcircuits.benches.drive.bench import DriveBench
from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.live import owner
from fuelcircuits.benches.live.day import Day
from fuelcircuits.cards import read_card
from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.card import is_own_card, own_card

__all__ = ["CARDS", "OWN", "Desk", "desk_in"]

CARDS = "rigs/"
"""Folder of the cards in a package for a page."""
OWN = "own"
"""Name under which a card of one's own is asked for."""

Way: TypeAlias = Callable[..., dict[str, Any]]


class Desk:
    """Benches on rigs, each opened when it is first asked for.

    Parameters
    ----------
    cards
        What the spec cards say, by the names of the rigs.
    """

    def __init__(self, cards: Mapping[str, str]) -> None:
        self._rigs = {name: read_card(text, f"{name}.toml") for name, text in cards.items()}
        self._open: dict[tuple[str, str], Bench] = {}
        self._driven: dict[str, DriveBench] = {}
        self._ways: dict[str, Way] = {
            "answer": self.answer,
            "bench": self.bench,
            "card": self.card,
            "day": Day().ask,
            "drive": self.drive,
            "onward": self.onward,
            "owner": owner.ask,
        }

    def ask(self, question: str) -> str:
        """Return the answer to a question; both are JSON."""
        asked = json.loads(question)
        way = self._ways[asked.pop("ask")]
        try:
            told = way(**asked)
        except CircuitError as error:
            told = {"refused": str(error).splitlines()}
        return json.dumps(told, allow_nan=False, separators=(",", ":"))

    def card(self, text: str, file: str) -> dict[str, Any]:
        """Take a card of one's own, and return the name that it gives itself.

        The rest of a card with some entries measured is scaled from the nearest rig.
        """
        rig = own_card(text, file).rig if is_own_card(text) else read_card(text, file)
        self._rigs[OWN] = rig
        self._open = {key: bench for key, bench in self._open.items() if key[1] != OWN}
        self._driven.pop(OWN, None)
        return {"name": rig.name}

    def bench(self, stem: str, rig: str, system: System) -> dict[str, Any]:
        """Return what the browser needs to build a bench, and its first answer."""
        made = self._bench(stem, rig)
        first = made.answer({}, system, made.seed)
        return {"about": made.about(), "start": made.values(), "first": first}

    def answer(
        self,
        stem: str,
        rig: str,
        values: Mapping[str, Any],
        system: System,
        curves: bool,
        *,
        within: float | None = None,
    ) -> dict[str, Any]:
        """Return all that the browser shows at a setting, or what there is within a time [s]."""
        made = self._bench(stem, rig)
        return made.answer(values, system, made.seed, curves, within=within)

    def onward(self, stem: str, rig: str, moved: str, **asked: Any) -> dict[str, Any]:
        """Work out a piece of what is asked next if a control goes on, and return if that is all.

        From where it came (`old`) is told unless it goes up.
        """
        return {"whole": self._bench(stem, rig).onward(moved=moved, **{"old": -inf, **asked})}

    def drive(self, rig: str, do: str, **asked: Any) -> dict[str, Any]:
        """Return what the driven carburettor says to a question, or how it is built and begins."""
        if rig not in self._driven:
            self._driven[rig] = DriveBench(self._rigs[rig])
        bench = self._driven[rig]
        if do == "about":
            return {"about": bench.about(), "first": bench.first()}
        return bench.ask(do, **asked)

    def _bench(self, stem: str, rig: str) -> Bench:
        key = (stem, rig if bench_class(stem).needs_rig else "")
        if key not in self._open:
            self._open[key] = open_bench(stem, self._rigs.get(rig))
        return self._open[key]


def desk_in(package: str | Path) -> Desk:
    """Return the desk with the cards that lie in a package for a page."""
    with zipfile.ZipFile(package) as opened:
        names = [name for name in opened.namelist() if name.startswith(CARDS)]
        return Desk({Path(name).stem: opened.read(name).decode("utf-8") for name in names})
