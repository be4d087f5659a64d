"""The report as a page: what it comes to, the readings, the card, the suspects, the next test."""

from collections.abc import Iterable, Iterator

from fuelcircuits import faults
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.shown import reading_text
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.own_car.doubtful import Correction, change_text
from fuelcircuits.own_car.entries import ENTRIES, SECOND_ENTRIES
from fuelcircuits.own_car.findings import Findings
from fuelcircuits.own_car.looks import LOOKS
from fuelcircuits.own_car.tools import Step

__all__ = ["brief", "page", "percent"]

SHOWN, LIKELY = 5, 0.03
CAR = "on your car"


def page(report: Findings) -> str:
    """Return the whole report as Markdown."""
    parts = [_comes_to(report), _readings(report), _card(report), _suspects(report), _next(report)]
    return _joined(*parts, _hidden(report))


def brief(report: Findings) -> str:
    """Return what it comes to and the suspects alone, as Markdown."""
    return _joined(_comes_to(report), _suspects(report))


def _joined(*parts: Iterable[str]) -> str:
    return "\n\n".join("\n".join(part) for part in map(list, parts) if part)


def percent(share: float) -> str:
    """Return a share as people say it: never more exact than it is."""
    return "under 3 %" if share < LIKELY else f"{min(round(100 * share), 99)} %"


def _comes_to(report: Findings) -> Iterator[str]:
    """Yield what it comes to, in one paragraph."""
    if not report.readings and not report.seen:
        yield "**Nothing has been read yet.** Without a reading the model can only name a test."
    elif report.healthy:
        mended = ", once the card is mended" if report.card.strange else ""
        yield (
            f"**All as on the card{mended}** ({_sure(report, HEALTHY)}). A healthy carburettor of "
            f"this card shows what you have read.{_unseen(report)} If the car still misbehaves, "
            "look there, or at ignition, compression and fuel first."
        )
    elif report.verdict == "fault":
        first = report.fitting[0]
        yield (
            f"**{_words(first.name).capitalize()}** is likeliest ({_sure(report, first.name)}). "
            f"{_meaning(first.name)}"
        )
    elif report.verdict == "open":
        yield _open(report)
    else:
        yield from _unexplained(report)


def _open(report: Findings) -> str:
    """Return what to say where several outcomes fit, and none is clearly likeliest."""
    fitting = report.fitting
    if fitting[0].name != HEALTHY:
        names = ", ".join(f"{_words(one.name)} ({percent(one.probability)})" for one in fitting[:4])
        return f"**Several suspects fit**: {names}. The next step is there to tell them apart."
    rivals = ", ".join(
        f"{_words(name)} ({_times(report.evidence(name))})" for name in report.rivals[:4]
    )
    return (
        f"**Cannot be told apart yet.** All may be as on the card ({_sure(report, HEALTHY)}). But "
        f"some suspects would show what you read more readily: {rivals}. The next step is there to "
        "tell them apart."
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
        f"percentages. Least bad is {_words(least_bad.name)}. Furthest off is "
        f"“{at.label}”: {reading_text(at, report.readings[at.name])} is {abs(furthest.by):.0f} "
        f"times its doubt {side} than {_words(least_bad.name)} and your other readings make it. "
        f"Read again first: “{again.label}”. If it stays, "
        + (
            "look at the card: see below."
            if report.corrections
            else "look at the card again, or think of two faults at once."
        )
    )


def _readings(report: Findings) -> Iterator[str]:
    """Yield the readings beside those of the healthy card, and what was seen."""
    for name, answer in report.seen.items():
        yield f"- {LOOKS[name].label} **{'Yes' if answer else 'No'}.**"
    if not report.readings:
        return
    yield ""
    weighed = report.weighed
    at = weighed.table.suspects.index(HEALTHY)
    yield f"| reading | {CAR} | healthy, by the card | so it is |"
    yield "| --- | --- | --- | --- |"
    for place, (name, number) in enumerate(report.readings.items()):
        check, column = find(name), weighed.columns[place]
        expected = weighed.table.expected[at][0][column]
        doubt = (weighed.leeway[column][column] + 1.0) ** 0.5
        off = weighed.off[at][0][place] / doubt
        band = reading_text(check, doubt * weighed.unit[column])
        yield (
            f"| {check.label} | {reading_text(check, number)} "
            f"| {reading_text(check, expected)}, give or take {band} | {_far(off)} |"
        )


def _far(off: float) -> str:
    """Return how far a reading is off, in a word."""
    side = "higher" if off > 0 else "lower"
    for least, words in ((3.0, f"much {side}"), (1.5, side)):
        if abs(off) > least:
            return words
    return "as it should be"


def _card(report: Findings) -> Iterator[str]:
    """Yield what is doubtful about the card: first by itself, then by the readings."""
    if report.card.strange:
        odd = "; ".join(_odd(report, name) for name in report.card.strange)
        yield (
            f"**First the card.** As you entered it, your healthy car would show: {odd}. So it "
            "was moved as little as makes a healthy engine of it before anything was compared. "
            + (
                "What you have not measured does not account for all of that, unless one entry is "
                "further off than usual."
                if report.card.contradicted
                else "Entries that you have not measured account for it."
            )
        )
        yield from _either(
            report.mendings or [Correction(tuple(report.card.moved()[:3]), 0.0)],
            "The least changes that mend it, any one of them:",
        )
    if report.corrections:
        yield (
            "\n**Or the card is wrong.** Then nothing need be wrong with the car."
            if report.explained
            else "\n**The card is doubtful.** If it is wrong, nothing need be wrong with the car."
        )
        yield from _either(
            report.corrections, "The least changes that explain your readings, any one of them:"
        )
    checks = [find(name) for name in report.readings]
    matters = {**ENTRIES, **SECOND_ENTRIES}
    names = report.card.to_measure(checks, matters)[:3] if checks else []
    if names:
        labels = "; ".join(matters[name].label for name in names)
        yield f"\nOf what you have not measured, this would sharpen the report most: {labels}."


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


def _suspects(report: Findings) -> Iterator[str]:
    """Yield the suspects, with percentages only where something explains the readings."""
    if not report.readings and not report.seen:
        return
    if not report.explained:
        nearest = sorted(report.suspicions, key=lambda one: one.misfit)[:3]
        yield "| least bad | times its doubt it is off, on the average | what it means |"
        yield "| --- | --- | --- |"
        for one in nearest:
            yield f"| {_words(one.name)} | {one.misfit:.1f} | {_meaning(one.name)} |"
        return
    yield "| outcome | how likely | how bad | what it means |"
    yield "| --- | --- | --- | --- |"
    shown = [one for one in report.suspicions if one.name not in report.hidden]
    for one in shown[:SHOWN]:
        if one.probability >= LIKELY:
            bad = "" if one.name == HEALTHY else _bad(one.severity)
            yield (
                f"| {_words(one.name)} | {_sure(report, one.name)} | {bad} | {_meaning(one.name)} |"
            )
    rest = 1.0 - sum(one.probability for one in shown[:SHOWN] if one.probability >= LIKELY)
    if rest >= LIKELY:
        yield f"| something else, or what these readings cannot show | {percent(rest)} | | |"


def _bad(severity: float) -> str:
    """Return how bad a fault would be, in words."""
    return "slight" if severity < 0.35 else "bad" if severity < 0.7 else "at its worst"


def _sure(report: Findings, name: str) -> str:
    """Return how likely a suspect is, and how far that can be argued about."""
    band, likely = report.bands[name], report.likely(name)
    if band.most - band.least < 0.06:
        return percent(likely)
    return f"{percent(likely)}, {round(100 * band.least)} to {percent(band.most)}"


def _unseen(report: Findings) -> str:
    """Return what circuits the readings cannot see all of, as a sentence."""
    circuits = list(dict.fromkeys(faults.find(name).circuit for name in report.hidden))
    if not circuits:
        return ""
    named = " and ".join(filter(None, [", ".join(circuits[:-1]), circuits[-1]]))
    return f" Some faults of {named} they cannot show; the last line lists them."


def _hidden(report: Findings) -> Iterator[str]:
    """Yield the faults that the readings cannot show, folded away."""
    if report.readings and report.hidden:
        names = ", ".join(_words(name) for name in report.hidden)
        yield "<details><summary>Faults that these readings cannot show</summary>"
        yield f"{names}.</details>"


def _next(report: Findings) -> Iterator[str]:
    """Yield what could come next: the cheapest in time and money, then what tells most."""
    if not report.steps:
        yield (
            "Nothing on the list would tell these apart. Look at the parts themselves, or sharpen "
            "the card."
        )
        return
    first = report.steps[0]
    yield f"**Next:** {first.label} {first.how}{_care(first.caution)}".replace("  ", " ")
    if most := report.most_telling:
        yield (
            f"**If that settles nothing:** {most.label} tells most, "
            f"in {most.minutes:g} min with: {_needs(most)}."
        )
    yield ""
    yield "| what could come next | tells | time | needs | care |"
    yield "| --- | --- | --- | --- | --- |"
    for one in report.steps[:SHOWN]:
        tells, time = _tells(one.bits), f"{one.minutes:g} min"
        yield f"| {one.label} | {tells} | {time} | {_needs(one)} | {one.caution} |"


def _needs(step: Step) -> str:
    """Return what a step needs, and what that costs where it is not there."""
    return f"{step.needs} (to buy, about {step.price:g} €)" if step.price else step.needs


def _care(caution: str) -> str:
    return f" **Caution.** {caution}" if caution else ""


def _tells(bits: float) -> str:
    """Return how much a step can be expected to tell, in words and as a number."""
    for least, words in ((0.6, "a lot"), (0.25, "something"), (0.0, "a little")):
        if bits >= least:
            return f"{words} ({bits:.2f} bit)"
    return ""


def _words(name: str) -> str:
    return "nothing wrong" if name == HEALTHY else name.replace("-", " ")


def _meaning(name: str) -> str:
    return "The carburettor is as on the card." if name == HEALTHY else faults.find(name).meaning
