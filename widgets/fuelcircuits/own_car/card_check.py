"""What the healthy car of a card would read, and which entries are doubtful for it."""

from html import escape

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.shown import reading_text
from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.own_car.doubtful import change_text, mendings
from fuelcircuits.own_car.entries import ENTRIES, SECOND_ENTRIES
from fuelcircuits.own_car.healthy import LEVEL, Healthy, healthy
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel

__all__ = ["card_check"]

LEAST = "The least changes that would do, any one of them:"


def card_check(card: OwnCard) -> str:
    """Return what the healthy car would read at sea level on petrol, as HTML.

    Raises
    ------
    CardError
        If the card cannot be used.
    """
    found = healthy(card.rig, Weather.at(), Fuel(), measured=card.measured, ran_well=card.usual)
    rows = "".join(_row(found, name) for name in found.usual if name != LEVEL)
    table = (
        "<table><thead><tr><th>reading</th><th>by your card</th><th>healthy engines</th></tr>"
        f"</thead><tbody>{rows}</tbody></table>"
    )
    return f"{table}<p>{_words(found)}</p>{_changes(found)}{_next(found)}"


def _row(found: Healthy, name: str) -> str:
    check, usual = find(name), found.usual[name]
    least, most = (usual.middle + side * 2.0 * usual.spread for side in (-1.0, 1.0))
    mark = "⚠ " if name in found.strange else ""
    return (
        f"<tr><td>{escape(check.label)}</td>"
        f"<td>{mark}{reading_text(check, found.entered[name])}</td>"
        f"<td>{reading_text(check, least)} to {reading_text(check, most)}</td></tr>"
    )


def _words(found: Healthy) -> str:
    if not found.strange:
        return "A card that a healthy engine could have."
    if not found.contradicted:
        return (
            "No engine that runs well reads like this. Entries that you have not measured account "
            "for it, within what they may be off; the report moves them as little as it takes. "
            f"{LEAST}"
        )
    return (
        "No engine that runs well reads like this, and what you have not measured does not account "
        "for it, unless one entry is further off than usual. Look again at what you measured, and "
        f"measure what is assumed below. {LEAST}"
    )


def _next(found: Healthy) -> str:
    """Return what had best be measured next, as HTML."""
    checks = [find(name) for name in found.usual]
    names = found.to_measure(checks, [*ENTRIES, *SECOND_ENTRIES])[:3]
    matters = {**ENTRIES, **SECOND_ENTRIES}
    labels = "; ".join(escape(matters[name].label) for name in names)
    return f"<p>What would tell most if you measured it next: {labels}.</p>" if labels else ""


def _changes(found: Healthy) -> str:
    if not found.strange:
        return ""
    lines = [
        ", together with ".join(change_text(dial, new) for dial, new in one.entries)
        for one in mendings(found, {})
    ]
    lines = lines or [f"together: {change_text(*one)}" for one in found.moved()[:3]]
    return "<ul>" + "".join(f"<li>{escape(line)}</li>" for line in lines) + "</ul>"
