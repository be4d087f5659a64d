"""What is doubtful about the card: first by itself, then by the readings."""

from collections.abc import Iterator

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.shown import reading_text
from fuelcircuits.own_car.doubtful import Correction, change_text
from fuelcircuits.own_car.entries import ENTRIES, SECOND_ENTRIES
from fuelcircuits.own_car.findings import Findings
from fuelcircuits.own_car.sharpening import sharpening

__all__ = ["card_doubted"]


def card_doubted(report: Findings) -> Iterator[str]:
    """Yield what is doubtful about the card: first by itself, then by the readings."""
    if report.card.strange:
        yield from _by_itself(report)
    if report.corrections:
        yield from _by_readings(report)
    checks = [find(name) for name in report.readings]
    matters = {**ENTRIES, **SECOND_ENTRIES}
    if names := sharpening(report.card, checks, matters)[:3] if checks else []:
        labels = "; ".join(matters[name].label for name in names)
        yield f"\nOf what you have not measured, this would sharpen the report most: {labels}."


def _by_itself(report: Findings) -> Iterator[str]:
    """Yield in what the card as entered is like no healthy engine's, and what mends it."""
    odd = "; ".join(_odd(report, name) for name in report.card.strange)
    accounted = (
        "What you have not measured does not account for all of that, unless one entry is further "
        "off than usual."
        if report.card.contradicted
        else "Entries that you have not measured account for it."
    )
    yield (
        f"**First the card.** As you entered it, your healthy car would show: {odd}. So it was "
        "moved as little as makes a healthy engine of it before anything was compared. "
        f"{accounted}"
    )
    yield from _either(
        report.mendings or [Correction(tuple(report.card.moved()[:3]), 0.0)],
        "The least changes that mend it, any one of them:",
    )


def _by_readings(report: Findings) -> Iterator[str]:
    """Yield what on the card would have to be otherwise for a healthy car to show what was read."""
    yield (
        "\n**Or the card is wrong.** Then nothing need be wrong with the car."
        if report.explained
        else "\n**The card is doubtful.** If it is wrong, nothing need be wrong with the car."
    )
    yield from _either(
        report.corrections, "The least changes that explain your readings, any one of them:"
    )


def _odd(report: Findings, name: str) -> str:
    """Return a reading of the card as entered that no healthy engine has, beside the owner's."""
    usual, check = report.card.usual[name], find(name)
    least, most = (usual.middle + side * 2.0 * usual.spread for side in (-1.0, 1.0))
    read = report.readings.get(name)
    yours = "" if read is None else f", you read {reading_text(check, read)}"
    return (
        f"{check.label} {reading_text(check, report.card.entered[name])}{yours} (healthy engines: "
        f"{reading_text(check, least)} to {reading_text(check, most)})"
    )


def _either(changes: list[Correction], words: str) -> Iterator[str]:
    """Yield changes of the card as a list; that there are none that small, if there are none."""
    if not changes:
        yield "No one or two entries would do it."
        return
    yield words
    yield ""
    for one in changes:
        yield "- " + ", together with ".join(change_text(dial, new) for dial, new in one.entries)
