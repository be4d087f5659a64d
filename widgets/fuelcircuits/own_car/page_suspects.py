"""The suspects as a table, and those that the readings cannot show."""

from collections.abc import Iterator

from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.own_car.findings import Findings
from fuelcircuits.own_car.page_words import LIKELY, meaning, percent, sure, words

__all__ = ["hidden_shown", "suspects_shown"]

SHOWN = 5


def suspects_shown(report: Findings) -> Iterator[str]:
    """Yield the suspects, with percentages only where something explains the readings."""
    if not report.readings and not report.seen:
        return
    if not report.explained:
        nearest = sorted(report.suspicions, key=lambda one: one.misfit)[:3]
        yield "| least bad | off, in times the doubt of a reading | what it means |"
        yield "| --- | --- | --- |"
        for one in nearest:
            yield f"| {words(one.name)} | {one.misfit:.1f} | {meaning(one.name)} |"
        return
    yield "| outcome | how likely | how bad | what it means |"
    yield "| --- | --- | --- | --- |"
    shown = [one for one in report.suspicions if one.name not in report.hidden]
    for one in shown[:SHOWN]:
        if one.probability >= LIKELY:
            bad = "" if one.name == HEALTHY else _bad(one.severity)
            yield (
                f"| {words(one.name)} | {sure(report, one.name)} | {bad} | {meaning(one.name)} |"
            )
    rest = 1.0 - sum(one.probability for one in shown[:SHOWN] if one.probability >= LIKELY)
    if rest >= LIKELY:
        yield f"| something else, or what these readings cannot show | {percent(rest)} | | |"


def _bad(severity: float) -> str:
    """Return how bad a fault would be, in words."""
    return "slight" if severity < 0.35 else "bad" if severity < 0.7 else "at its worst"


def hidden_shown(report: Findings) -> Iterator[str]:
    """Yield the faults that the readings cannot show, folded away."""
    if report.readings and report.hidden:
        names = ", ".join(words(name) for name in report.hidden)
        yield "<details><summary>Faults that these readings cannot show</summary>"
        yield f"{names}.</details>"
