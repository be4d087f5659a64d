"""Say which readings of a car rule a wrong suspect out: the trainee's own first."""

from collections.abc import Iterable, Mapping
from itertools import combinations
from math import isnan

from fuelcircuits.diagnosis.check import minutes_of
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.plan import left
from fuelcircuits.diagnosis.shown import reading_text
from fuelcircuits.diagnosis.table import Table

__all__ = ["ruled_out"]

OWN = "Among the tests you named"
OTHERS = "The tests you named leave it on the list"
NONE_NAMED = "You named no tests"


def ruled_out(
    table: Table, readings: Mapping[str, float], suspect: str, tests: Iterable[str]
) -> str:
    """Return the sentence that a trainee is told who has named a wrong `suspect`.

    `tests` are those he has named as his proof; the cheapest of them that speak against the
    suspect are shown, or where none do, the cheapest of all the car's tests.
    """
    own = [name for name in readings if name in set(tests)]
    if found := _cheapest(table, readings, suspect, own):
        return f"Not right. {_said(table, readings, suspect, found)}"
    found = _cheapest(table, readings, suspect, list(readings))
    first = OTHERS if own else NONE_NAMED
    return f"Not right. {first}. {_said(table, readings, suspect, found)}"


def _cheapest(
    table: Table, readings: Mapping[str, float], suspect: str, names: list[str]
) -> tuple[str, ...]:
    """Return the fewest of the tests `names` that rule a suspect out, the quickest of those."""
    for count in range(1, len(names) + 1):
        enough = [
            chosen
            for chosen in combinations(names, count)
            if suspect not in left(table, {name: readings[name] for name in chosen})
        ]
        if enough:
            return min(enough, key=lambda chosen: minutes_of(map(find, chosen)))
    return ()


def _said(table: Table, readings: Mapping[str, float], suspect: str, names: tuple[str, ...]) -> str:
    """Return what the readings of the tests `names` say against a suspect."""
    whole = [_one(table, readings, suspect, name) for name in names]
    if len(names) == 1:
        return f"{whole[0]} That is further off than three uncertainties."
    return (
        f"Take these together: {' '.join(whole)} At no one severity does that fault explain "
        "them all."
    )


def _one(table: Table, readings: Mapping[str, float], suspect: str, name: str) -> str:
    """Return one reading beside all that the suspect would make of it."""
    at = table.column(name)
    check = table.checks[at]
    read = f"{check.label} reads {reading_text(check, readings[name])}"
    shown = [row[at] for row in table.rows(suspect) if not isnan(row[at])]
    if not shown:
        return f"{read}; with that fault it could not be read at all."
    low, high = (reading_text(check, value) for value in (min(shown), max(shown)))
    page = low if low == high else f"between {low} and {high}"
    return f"{read}; with that fault it would be {page}."
