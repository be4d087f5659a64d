"""From readings to a ranked plan: what is likely wrong, and which test to make next."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fuelcircuits.diagnosis.checks import find, fitting
from fuelcircuits.diagnosis.plan import APART, left
from fuelcircuits.diagnosis.ranking import Suspicion, rank
from fuelcircuits.diagnosis.shown import reading_text, taken
from fuelcircuits.diagnosis.subject import warmed
from fuelcircuits.diagnosis.table import HEALTHY, Table, predict
from fuelcircuits.diagnosis.worth import Worth, worth
from fuelcircuits.faults import FAULTS
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Report", "diagnose"]

SHOWN, LIKELY = 6, 0.01
_SEA_LEVEL, _PETROL = Weather.at(), Fuel()


class Report(NamedTuple):
    """What the readings say; a notebook shows it as a page."""

    table: Table
    readings: Mapping[str, float]
    suspicions: list[Suspicion]
    next_checks: list[Worth]

    @property
    def explained(self) -> bool:
        """Whether some single suspect fits every reading."""
        return bool(left(self.table, self.readings))

    def __repr__(self) -> str:
        """Return the plan as text."""
        return self._repr_markdown_()

    def _repr_markdown_(self) -> str:
        """Show the plan in a notebook."""
        return "\n".join([*_read(self), "", *_suspects(self), "", *_next(self)])


def diagnose(
    rig: Rig,
    readings: Mapping[str, object],
    *,
    weather: Weather = _SEA_LEVEL,
    fuel: Fuel = _PETROL,
    suspects: Iterable[str] | None = None,
    further: Iterable[str] | None = None,
) -> Report:
    """Return what the readings of a car say about it.

    Parameters
    ----------
    rig
        The car's carburettor as it should be.
    readings
        What was read, by the check's name: text with a unit such as ``"18.5 inHg"``, a
        quantity, or a number in the check's own unit.
    weather, fuel
        What it was read in and with.
    suspects
        Faults to think of; all that the rig can have if not given.
    further
        Checks that could still be made; all that the rig has the parts for, but for those
        that the model is slow at, if not given.

    Returns
    -------
    Report
        Suspects by probability, checks by the bits they can be expected to tell a minute.

    Raises
    ------
    RangeError
        If a check or a suspect is not known.
    UnitError
        If a reading has no number in it, or a unit of another kind.
    CardError
        If the rig lacks a section that the model needs.
    """
    known = {name: taken(find(name), text) for name, text in readings.items()}
    quick = [check.name for check in fitting(rig) if not check.slow]
    wanted = quick if further is None else list(further)
    names = [*known, *(name for name in wanted if name not in known)]
    table = predict(warmed(rig, weather, fuel), [find(name) for name in names], suspects)
    return Report(table, known, rank(table, known), worth(table, known))


def _read(report: Report) -> list[str]:
    """Return the readings beside those of the card."""
    at_card = report.table.rows(HEALTHY)[0]
    lines = ["| reading | on your car | by the card |", "| --- | --- | --- |"]
    for name, number in report.readings.items():
        check, expected = find(name), at_card[report.table.column(name)]
        lines.append(
            f"| {check.label} | {reading_text(check, number)} | {reading_text(check, expected)} |"
        )
    return lines


def _suspects(report: Report) -> list[str]:
    """Return the likeliest suspects."""
    lines = ["| suspect | likely | what it means |", "| --- | --- | --- |"]
    for one in report.suspicions[:SHOWN]:
        if one.probability >= LIKELY:
            lines.append(f"| {_words(one.name)} | {one.probability:.0%} | {_meaning(one.name)} |")
    if not report.explained:
        lines += [
            "",
            f"**No single fault fits all the readings within {APART:g} uncertainties.** Read "
            "again what is furthest off, look at the card's dimensions, or think of two faults.",
        ]
    return lines


def _next(report: Report) -> list[str]:
    """Return the checks that tell most for the time."""
    lines = ["| next test | tells | time | care |", "| --- | --- | --- | --- |"]
    for check, bits in report.next_checks[:SHOWN]:
        if bits >= LIKELY:
            lines.append(
                f"| {check.label} | {bits:.2f} bit | {check.minutes:g} min | {check.caution} |"
            )
    return lines if len(lines) > 2 else ["No further test on the list would tell these apart."]


def _words(name: str) -> str:
    return name.replace("-", " ")


def _meaning(name: str) -> str:
    return "The carburettor is as on the card." if name == HEALTHY else FAULTS[name].meaning
