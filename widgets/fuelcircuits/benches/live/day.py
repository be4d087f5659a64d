"""What the owner's page asks of Python about a day: how each reading stands, and what it tells."""

import json
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from fuelcircuits.benches.live.owner import card_of
from fuelcircuits.diagnosis.checks import EVERY, find, fitting
from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.own_car.entry_told import Told
from fuelcircuits.own_car.following import Followed, Following
from fuelcircuits.own_car.looks import LOOKS
from fuelcircuits.own_car.page import brief, page
from fuelcircuits.own_car.page_html import page_html
from fuelcircuits.own_car.place import PLACE, placed
from fuelcircuits.own_car.reading_told import HOW, in_own_unit, reading_label, reading_told
from fuelcircuits.own_car.rounds import Round, Rounds, rounds_in
from fuelcircuits.own_car.tools import PRICES
from fuelcircuits.physics.matter.fuel import Fuel

__all__ = ["Day", "about_day"]

FILE = Path("my-car-days.toml")
QUICK = tuple(check for check in EVERY.values() if not check.slow)
"""Readings that a page asks for; the others take the model too long."""


def about_day() -> dict[str, Any]:
    """Return what the browser needs to build the form of a day."""
    return {
        "how": HOW,
        "place": {name: one.label for name, one in PLACE.items()},
        "checks": {check.name: reading_label(check) for check in QUICK},
        "looks": {
            name: [look.label, look.how, f"{look.minutes:g} min; {look.needs}.", look.caution]
            for name, look in LOOKS.items()
        },
        "tools": [tool for tool in PRICES if tool != "nothing"],
    }


class Day:
    """The readings of a day on a page, and what the car would show, once that is worked out."""

    def __init__(self) -> None:
        self._following = Following()
        self._asked = ""
        self._steps: Iterator[float | Followed] = iter(())

    def ask(self, do: str, **asked: Any) -> dict[str, Any]:
        """Return the answer to a question.

        Parameters
        ----------
        do
            ``stand``: how every reading stands, and all days as their file says them;
            ``report``: the next step to the report; ``open``: what a file of days says.
        asked
            For the first two ``written``, the card as for `fuelcircuits.benches.live.owner.ask`,
            and ``read``, which holds the texts of ``day``, ``altitude``, ``temperature`` and
            ``ethanol``, of ``readings`` and of what was ``seen`` by their names, the tools
            ``owned``, and ``others``: further days, as they came out of a file; to open,
            ``text`` and ``file``.

        Raises
        ------
        CircuitError
            If the card or the day cannot be used.
        """
        if do == "open":
            return _opened(rounds_in(asked["text"], Path(asked["file"])))
        card, _ = card_of(asked["written"])
        return self._report(card, asked["read"]) if do == "report" else _stand(card, asked["read"])

    def _report(self, card: OwnCard, read: Mapping[str, Any]) -> dict[str, Any]:
        """Return the share that is done of the work for the card, then the suspects, then all."""
        asked = json.dumps([card.text(), read], sort_keys=True)
        if asked != self._asked:
            self._asked = asked
            self._steps = self._following.steps(card, _round(read), read.get("owned", ()))
        step = next(self._steps, None)
        if step is None:
            self._asked = ""
            return self._report(card, read)
        if isinstance(step, float):
            return {"share": step}
        shown = page if step.whole else brief
        return {"report": page_html(shown(step.report)), "whole": step.whole}


def _round(read: Mapping[str, Any]) -> Round:
    """Return a day as its file keeps it: only what can be used of what was read."""
    texts, fuel = read.get("readings", {}), _fuel(read)
    usable = {name: in_own_unit(find(name), text, fuel) for name, text in texts.items()}
    return Round(
        day=read.get("day", ""),
        **{name: placed(name, read[name]) for name in PLACE if read.get(name, "").strip()},
        readings={name: text for name, text in usable.items() if text},
        seen={name: answer for name, answer in read.get("seen", {}).items() if answer},
        work=read.get("work", ""),
        parts=read.get("parts", ""),
    )


def _fuel(read: Mapping[str, Any]) -> Fuel:
    """Return what is in the tank; petrol as long as that is not said."""
    try:
        return Fuel(ethanol=placed("ethanol", read["ethanol"]))
    except (CircuitError, KeyError):
        return Fuel()


def _stand(card: OwnCard, read: Mapping[str, Any]) -> dict[str, Any]:
    """Return how every reading stands, and all days as their file says them."""
    texts, fuel = read.get("readings", {}), _fuel(read)
    told = {check.name: reading_told(check, texts.get(check.name, ""), fuel) for check in QUICK}
    fits = {check.name for check in fitting(card.rig, around=True)}
    answer = {
        "told": {name: [*one] for name, one in told.items()},
        "fits": [name for name in told if name in fits],
        "place": {name: [*one] for name, one in _places(read)},
    }
    try:
        now = _round(read)
        others = Rounds(FILE, tuple(Round(**one) for one in read.get("others", ())))
        text = others.with_round(now).text()
    except CircuitError as error:
        return {**answer, "text": "", "said": f"Cannot be kept yet: {error}"}
    left = [find(name).label for name, one in told.items() if one.how == "wrong"]
    out = f" Left out, as it cannot be used: {'; '.join(left)}." if left else ""
    return {**answer, "text": text, "said": f"Written down on {now.day}: {now.holds}.{out}"}


def _places(read: Mapping[str, Any]) -> Iterator[tuple[str, Told]]:
    """Yield how each of height, air and fuel stands."""
    for name in PLACE:
        text = read.get(name, "")
        try:
            if text.strip():
                placed(name, text)
        except CircuitError as error:
            yield name, Told(str(error), "wrong")
        else:
            yield name, Told("")


def _opened(rounds: Rounds) -> dict[str, Any]:
    """Return what a file of days says, as a page keeps it: the last day, and the others."""
    every: Sequence[dict[str, Any]] = [vars(one) for one in rounds.every]
    last = dict(every[-1]) if every else {}
    for name, asked in PLACE.items():
        if name in last:
            last[name] = asked.shown(last[name])
    return {"read": {**last, "others": list(every[:-1])}}
