"""What class mode says to an answer: the right kind or not, believable or not, and no more."""

import json
from collections.abc import Mapping, Sequence

from fuelcircuits.answer_sheet.record import Record
from fuelcircuits.answer_sheet.refusals import why_not
from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.kinds import dimension_of, kind_of
from fuelcircuits.quantities.naming import names_in
from fuelcircuits.quantities.reading import Reading, measure, read
from fuelcircuits.quantities.settings_text import Dial, settings_in
from fuelcircuits.quantities.trade_units import labelled

__all__ = ["checked", "driven", "listed", "settled"]

NOTHING = "Nothing handed over yet."
NO_DRIVE = "This is no drive. Press Copy this drive, and paste it in the middle of the quotes."
PERCENT = ' If you mean percent, write it: "12 %".'


def listed(answer: Record, options: Sequence[str]) -> str:
    """Return what class mode says to an answer by name: on the list or not."""
    if answer["kind"] == "blank":
        return NOTHING
    if answer["kind"] != "text":
        return "Write a name from the list as a text, in quotes."
    found = names_in(answer["text"], options)
    handed = f"Handed over: {', '.join(found.known)}." if found.known else "No name found."
    return f"{handed} {found.complaint}".strip()


def driven(answer: Record) -> str:
    """Return what class mode says to a drive: how long it is, and no more."""
    if answer["kind"] == "blank":
        return NOTHING
    try:
        told = json.loads(answer["text"])
        seconds = told["step"] * sum(count for count, *_ in told["feet"])
        return f"Handed over: a drive of {seconds:.1f} s."
    except (ValueError, KeyError, TypeError, RecursionError):
        return NO_DRIVE


def settled(answer: Record, dials: Mapping[str, Dial]) -> str:
    """Return what class mode says to the settings of a bench: how they were understood."""
    if answer["kind"] == "blank":
        return NOTHING
    if answer["kind"] not in ("text", "number", "quantity"):
        return "Write the settings as a text, in quotes."
    found = settings_in(_as_text(answer), dials)
    handed = f"Handed over: {found.text}." if found.values else "No setting found."
    return " ".join((handed, *found.complaints))


def _as_text(answer: Record) -> str:
    """Return a number that was handed over as it would be typed."""
    if answer["kind"] == "text":
        return answer["text"]
    return f"{answer['magnitude']!r} {answer['units']}".strip()


def checked(answer: Record, unit: str, low: float, high: float) -> str:
    """Return what class mode says: right kind of quantity or not, believable or not."""
    if answer["kind"] == "blank":
        return NOTHING
    if answer["kind"] == "other":
        return why_not(answer["detail"])
    try:
        readings = _readings(answer)
        wanted, least, most = dimension_of(unit), measure(low, unit), measure(high, unit)
    except UnitError as error:
        return f"This cannot be read: {error}."
    reading = readings[0]
    shown = " or ".join(one.text for one in readings)
    if reading.dimension != wanted:
        asked = kind_of(wanted)
        got = "a number without a unit" if reading.bare else kind_of(reading.dimension).words
        return f"Handed over: {shown}. That is {got}; asked is {asked.words} ({asked.examples})."
    plain = "" if len(readings) == 1 else " Write it without the comma to leave no doubt."
    if any(least.magnitude <= one.magnitude <= most.magnitude for one in readings):
        return f"Handed over: {shown}. The kind is right, the size is believable.{plain}"
    plain += PERCENT if reading.bare and unit == "percent" else ""
    return (
        f"Handed over: {shown}. The kind is right, but the size is hard to believe "
        f"(expect {low:g} to {labelled(f'{high:g}', unit)}).{plain}"
    )


def _readings(answer: Record) -> tuple[Reading, ...]:
    """Return what the numbers or the text of `answer` can mean; raise `UnitError` if nothing."""
    if answer["kind"] == "text":
        return read(answer["text"])
    return (measure(float(answer["magnitude"] or 0.0), answer["units"]),)
