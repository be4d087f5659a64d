"""The readings beside those of the healthy card, and what was seen."""

from collections.abc import Iterator

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.shown import reading_text
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.own_car.findings import Findings
from fuelcircuits.own_car.looks import LOOKS

__all__ = ["readings_shown"]

CAR = "on your car"


def readings_shown(report: Findings) -> Iterator[str]:
    """Yield the readings beside those of the healthy card, and what was seen."""
    for name, answer in report.seen.items():
        yield f"- {LOOKS[name].label} **{'Yes' if answer else 'No'}.**"
    if not report.readings:
        return
    yield ""
    weighed = report.weighed
    at = weighed.table.suspects.index(HEALTHY)
    yield f"| reading | {CAR} | healthy, by the card | yours is |"
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
