"""What it comes to, in one paragraph."""

from collections.abc import Iterator

from fuelcircuits import faults
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.shown import reading_text
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.own_car.findings import Findings
from fuelcircuits.own_car.page_words import meaning, percent, sure, words

__all__ = ["comes_to"]


def comes_to(report: Findings) -> Iterator[str]:
    """Yield what it comes to, in one paragraph."""
    if not report.readings and not report.seen:
        yield "**Nothing has been read yet.** Without a reading the model can only name a test."
    elif report.healthy:
        mended = ", once the card is mended" if report.card.strange else ""
        yield (
            f"**All as on the card{mended}** ({sure(report, HEALTHY)}). A healthy carburettor of "
            f"this card shows what you have read.{_unseen(report)} If the car still misbehaves, "
            "look there, or at ignition, compression and fuel first."
        )
    elif report.verdict == "fault":
        first = report.fitting[0]
        yield (
            f"**{words(first.name).capitalize()}** is likeliest ({sure(report, first.name)}). "
            f"{meaning(first.name)}"
        )
    elif report.verdict == "open":
        yield _open(report)
    else:
        yield from _unexplained(report)


def _open(report: Findings) -> str:
    """Return what to say where several outcomes fit, and none is clearly likeliest."""
    fitting = report.fitting
    if fitting[0].name != HEALTHY:
        names = ", ".join(f"{words(one.name)} ({percent(one.probability)})" for one in fitting[:4])
        return f"**Several suspects fit**: {names}. The next step is chosen to tell them apart."
    rivals = ", ".join(
        f"{words(name)} ({_times(report.evidence(name))})" for name in report.rivals[:4]
    )
    return (
        f"**Cannot be told apart yet.** All may be as on the card ({sure(report, HEALTHY)}). But "
        f"these would show what you read more readily than a healthy carburettor: {rivals}. The "
        "next step is chosen to tell them apart."
    )


def _times(factor: float) -> str:
    return f"{factor:.0f} times as readily"


def _unexplained(report: Findings) -> Iterator[str]:
    """Yield what to say where nothing on the list fits."""
    least_bad = min(report.suspicions, key=lambda one: one.misfit)
    furthest = report.weighed.misfits(least_bad.name)[0]
    again, at = find(report.weighed.again()), find(furthest.check)
    side = "higher" if furthest.by > 0 else "lower"
    yield (
        "**Nothing on the list explains these readings**: no healthy carburettor of this card and "
        "no single fault, even with all that gauges and card leave open. So there are no "
        f"percentages. Least bad is {words(least_bad.name)}. Furthest off is "
        f"“{at.label}”: {reading_text(at, report.readings[at.name])} is {abs(furthest.by):.0f} "
        f"times its doubt {side} than {words(least_bad.name)} and your other readings make it. "
        f"Read again first: “{again.label}”. If it stays, "
        + (
            "look at the card: see below."
            if report.corrections
            else "look at the card again, or think of two faults at once."
        )
    )


def _unseen(report: Findings) -> str:
    """Return what circuits the readings cannot see all of, as a sentence."""
    circuits = list(dict.fromkeys(faults.find(name).circuit for name in report.hidden))
    if not circuits:
        return ""
    named = " and ".join(filter(None, [", ".join(circuits[:-1]), circuits[-1]]))
    return f" Some faults of {named} do not show in such readings; the last line lists them."
