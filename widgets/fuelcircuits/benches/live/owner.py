"""What the owner's page asks of Python: how each field stands, the card as a file, its check."""

from collections.abc import Iterator, Mapping
from typing import Any

from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.card import OwnCard, own_card
from fuelcircuits.own_car.card_check import card_check
from fuelcircuits.own_car.entries import BARRELS, ENTRIES, GROUPS, SECOND_ENTRIES, Matter, sketch
from fuelcircuits.own_car.entry_reading import entry_value
from fuelcircuits.own_car.entry_text import entry_text
from fuelcircuits.own_car.entry_told import Told, entry_told
from fuelcircuits.own_car.jet_by_flow import BY_FLOW, bore_read
from fuelcircuits.own_car.ran_well import RAN_WELL, remembered

__all__ = ["about", "ask", "card_of"]

MATTERS: Mapping[str, Matter] = {**ENTRIES, **SECOND_ENTRIES}
SECOND = "Second barrel"
"""Title of what is asked of a second barrel that differs."""


def about() -> dict[str, Any]:
    """Return what the browser needs to build the form, sketches included."""
    groups = {**GROUPS, SECOND: tuple(SECOND_ENTRIES.values())}
    matters = [one for group in groups.values() for one in group]
    return {
        "barrels": dict(BARRELS),
        "groups": [[title, [_field(one) for one in group]] for title, group in groups.items()],
        "sketches": {one.drawing: sketch(one.drawing) for one in matters}
        | {"flow": sketch("flow")},
        "ran_well": dict(RAN_WELL),
        "by_flow": [BY_FLOW, {one.entry: one.label for one in matters if one.jet}],
        "first": ask("stand", written={}),
    }


def ask(do: str, **asked: Any) -> dict[str, Any]:
    """Return the answer to a question.

    Parameters
    ----------
    do
        ``stand``: how every field stands, and the card as its file says it; ``check``: what the
        healthy car of the card would read; ``open``: what a card's file says; ``flow``:
        a jet's bore by what it passes.
    asked
        For the first two ``written``, which holds ``barrels``, ``like``, ``name``, and by their
        names the texts of ``entries`` and of readings of when it ``ran_well``; to open, ``text``
        and ``file``; for a flow ``entry``, and as text ``volume`` and ``head``.

    Raises
    ------
    CircuitError
        If the card cannot be used.
    """
    if do == "open":
        return _opened(own_card(asked["text"], asked["file"]))
    if do == "flow":
        return {"bore": entry_text(asked["entry"], bore_read(asked["volume"], asked["head"]))}
    card, faults = card_of(asked["written"])
    return {"check": card_check(card)} if do == "check" else _stand(card, faults, asked["written"])


def _field(matter: Matter) -> dict[str, Any]:
    unit = f" [{matter.unit}]" if matter.unit else ""
    return {
        "entry": matter.entry,
        "label": f"{matter.label}{unit}",
        "does": matter.does,
        "how": matter.how,
        "caution": matter.caution,
        "drawing": matter.drawing,
    }


def card_of(written: Mapping[str, Any]) -> tuple[OwnCard, dict[str, str]]:
    """Return the card as far as it is understood, and what is wrong with the readings."""
    card = OwnCard(
        name=written.get("name") or "my car",
        barrels=written.get("barrels", "alike"),
        ran_well=dict[str, str](),
        forced=written.get("like", ""),
    )
    for entry, text in written.get("entries", {}).items():
        if _understood(entry, text):
            card = card.with_entry(entry, text)
    kept, faults = dict[str, str](), dict[str, str]()
    for name, text in written.get("ran_well", {}).items():
        try:
            kept |= {name: remembered(name, text.strip())} if text.strip() else {}
        except CircuitError as error:
            faults[name] = str(error)
    return OwnCard(card.name, card.barrels, card.entries, kept, card.forced), faults


def _understood(entry: str, text: str) -> bool:
    try:
        entry_value(entry, text)
    except CircuitError:
        return False
    return True


def _stand(card: OwnCard, faults: Mapping[str, str], written: Mapping[str, Any]) -> dict[str, Any]:
    """Return how every field stands, and the card as its file says it."""
    asked = card.asked()
    assumed = {name: card.assumed(name) for name in asked}
    texts = written.get("entries", {})
    measured = sum(name in card.entries for name in asked)
    told = {
        name: entry_told(one, texts.get(name, ""), assumed.get(name, ""))
        for name, one in MATTERS.items()
    }
    return {
        "fields": {name: [*one] for name, one in told.items()},
        "ran_well": {name: [*one] for name, one in _readings(card, faults)},
        "second": card.barrels == "late",
        "text": card.text(),
        "name": card.name,
        "said": f"{measured} of {len(asked)} measured, the rest scaled from the teaching rig "
        f"{card.like}.",
    }


def _readings(card: OwnCard, faults: Mapping[str, str]) -> Iterator[tuple[str, Told]]:
    """Yield how each reading of when the car ran well stands."""
    for name in RAN_WELL:
        good = Told("Understood.", "good") if name in card.ran_well else Told("")
        yield name, Told(faults[name], "wrong") if name in faults else good


def _opened(card: OwnCard) -> dict[str, Any]:
    """Return what a card says, as a page keeps it."""
    return {
        "written": {
            "name": card.name,
            "barrels": card.barrels,
            "like": card.forced,
            "entries": dict(card.entries),
            "ran_well": dict(card.ran_well),
        }
    }
