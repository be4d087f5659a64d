"""The report as a page: what it comes to, the readings, the card, the suspects, the next test."""

from collections.abc import Iterable

from fuelcircuits.own_car.findings import Findings
from fuelcircuits.own_car.page_card import card_doubted
from fuelcircuits.own_car.page_next import next_step
from fuelcircuits.own_car.page_readings import readings_shown
from fuelcircuits.own_car.page_suspects import hidden_shown, suspects_shown
from fuelcircuits.own_car.page_verdict import comes_to

__all__ = ["brief", "page"]


def page(report: Findings) -> str:
    """Return the whole report as Markdown."""
    parts = [
        comes_to(report),
        readings_shown(report),
        card_doubted(report),
        suspects_shown(report),
        next_step(report),
    ]
    return _joined(*parts, hidden_shown(report))


def brief(report: Findings) -> str:
    """Return what it comes to and the suspects alone, as Markdown."""
    return _joined(comes_to(report), suspects_shown(report))


def _joined(*parts: Iterable[str]) -> str:
    return "\n\n".join("\n".join(part) for part in map(list, parts) if part)
