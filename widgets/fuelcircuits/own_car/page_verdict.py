"""What it comes to, in one paragraph."""

from collections.abc import Iterator

from fuelcircuits import faults
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.shown import reading_text
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.own_car.findings import NAMED, Findings
from fuelcircuits.own_car.page_words import meaning, percent, sure, words

__all__ = ["comes_to"]

PAIRS = 3
"""How many pairs of faults are told."""


def comes_to(report: Findings) -> Iterator[str]:
    """Yield what it comes to, in one paragraph."""
    if not report.readings and not report.seen:
        yield "**Nothing has been read yet.** Without a reading the model can only name a test."
    elif report.healthy:
        yield _healthy(report)
    elif report.verdict == "fault":
        first = report.fitting[0]
        yield (
            f"**{words(first.name).capitalize()}** is likeliest ({sure(report, first.name)}). "
            f"{meaning(first.name)} Once it is mended, read everything again: a second fault may "
            "hide behind it."
        )
    elif report.verdict == "open":
        yield _open(report)
    else:
        yield from _unexplained(report)


def _healthy(report: Findings) -> str:
    """Return what to say where nothing speaks against the card: that is no proof of health."""
    mended = ", once the card is mended" if report.card.strange else ""
    return (
        f"**Nothing you have read speaks against the card{mended}.** A healthy carburettor of this "
        f"card shows the same, and that all is as on it stands at {sure(report, HEALTHY)}."
        f"{_mentioned(report)}{_unseen(report)} A slight fault may hide behind what gauges and "
        "card leave open: if the car still misbehaves, take the next step, and look at ignition, "
        "compression and fuel."
    )


def _mentioned(report: Findings) -> str:
    """Return what too little speaks for and nothing rules out, as a sentence."""
    named = ", ".join(words(name) for name in report.mentioned)
    return f" Not ruled out, though little speaks for it: {named}." if named else ""


def _open(report: Findings) -> str:
    """Return what to say where several outcomes fit, and none is clearly likeliest."""
    fitting = report.fitting
    if fitting[0].name != HEALTHY:
        named = fitting[:NAMED]
        names = ", ".join(f"{words(one.name)} ({percent(one.probability)})" for one in named)
        return f"**Several suspects fit**: {names}."
    rivals = ", ".join(
        f"{words(name)} ({_times(report.evidence(name))})" for name in report.rivals[:NAMED]
    )
    return (
        f"**Cannot be told apart yet.** All may be as on the card ({sure(report, HEALTHY)}). But "
        f"these would show what you read more readily than a healthy carburettor: {rivals}."
    )


def _times(factor: float) -> str:
    return f"{factor:.0f} times as readily"


def _unexplained(report: Findings) -> Iterator[str]:
    """Yield what to say where nothing on the list fits."""
    again = find(report.weighed.again())
    yield (
        "**Nothing on the list explains these readings**: no healthy carburettor of this card and "
        "no single fault, even with all that gauges and card leave open. So there are no "
        f"percentages. {_least_bad(report)} Read again first: “{again.label}”. If it stays, "
        f"{_or_else(report)}"
    )


def _least_bad(report: Findings) -> str:
    """Return which suspect is the least bad, and which reading speaks against it, in words."""
    nearest = min(report.suspicions, key=lambda one: one.misfit)
    furthest = report.weighed.misfits(nearest.name)[0]
    at, side = find(furthest.check), "high" if furthest.by > 0 else "low"
    return (
        f"Least bad is {words(nearest.name)}, but for it “{at.label}” is far too {side}: "
        f"{reading_text(at, report.readings[at.name])} is off by {abs(furthest.by):.0f} times its "
        "doubt."
    )


def _or_else(report: Findings) -> str:
    """Return what to think of if the reading stays."""
    doubt = "look at the card: see below" if report.corrections else "look at the card again"
    if not report.pairs:
        return f"{doubt}, or think of two faults at once."
    both = "; or ".join(" with ".join(map(words, one.names)) for one in report.pairs[:PAIRS])
    return f"{doubt}, or think of **two faults at once**. These would explain it: {both}."


def _unseen(report: Findings) -> str:
    """Return what circuits the readings cannot see all of, as a sentence."""
    circuits = list(dict.fromkeys(faults.find(name).circuit for name in report.hidden))
    if not circuits:
        return ""
    named = " and ".join(filter(None, [", ".join(circuits[:-1]), circuits[-1]]))
    return f" Some faults of {named} do not show in such readings at all; the last line lists them."
