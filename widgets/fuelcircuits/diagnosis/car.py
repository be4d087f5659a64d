"""A car with something wrong, to be tested in a notebook: every test takes its minutes."""

from typing import NamedTuple

from fuelcircuits import faults
from fuelcircuits.diagnosis.check import Check, minutes_of
from fuelcircuits.diagnosis.jobs import garage
from fuelcircuits.diagnosis.shown import doubt_text, reading_text
from fuelcircuits.diagnosis.table import STEPS
from fuelcircuits.errors import RangeError
from fuelcircuits.quantities.naming import names_in

__all__ = ["Car", "Page"]

BETWEEN = (
    "Between two columns the readings go in straight lines. A fault has one severity, so all of "
    "your readings must lie at the same place between them."
)


class Car:
    """One car in the shop.

    ::

        car = Car(3)
        car                       # the complaint, the suspects, the tests and their minutes
        car.test("idle-vacuum")   # what the gauge shows; the minutes are counted
        car.page("torn-pump-cup") # what that fault would show
    """

    def __init__(self, number: int) -> None:
        self.number = number
        self._job = garage(number)
        self.made: dict[str, float] = {}

    @property
    def minutes(self) -> float:
        """Minutes of all tests made; what is made or opened twice counts once."""
        return minutes_of(map(self._check, self.made))

    def test(self, name: str) -> str:
        """Make a test and return what it shows; raise `RangeError` if there is no such test."""
        check = self._check(name)
        value = self.made[check.name] = self._job.readings[check.name]
        return (
            f"{check.label}: {reading_text(check, value)}, "
            f"give or take {doubt_text(check, value)}. "
            f"{check.minutes:g} min, {self.minutes:g} min in all."
        )

    def page(self, suspect: str) -> "Page":
        """Return what a suspect would show; raise `RangeError` if it is not on the list."""
        table = self._job.table
        name = _named("suspect", suspect, table.suspects)
        rows = table.rows(name)
        columns = (self._job.healthy, *(rows[step] for step in STEPS))
        lines = [
            [check.label, *(reading_text(check, column[at]) for column in columns)]
            for at, check in enumerate(table.checks)
        ]
        return Page(faults.find(name).meaning, lines)

    def _check(self, name: str) -> Check:
        checks = {check.name: check for check in self._job.table.checks}
        return checks[_named("test", name, tuple(checks))]

    def _repr_markdown_(self) -> str:
        """Show the job in a notebook."""
        table = self._job.table
        quickest = sorted(table.checks, key=lambda check: check.minutes)
        tests = [f"| `{one.name}` | {one.label} | {one.minutes:g} min |" for one in quickest]
        suspects = [f"| `{one}` | {_where(one)} |" for one in table.suspects]
        return "\n".join(
            [
                f"**Car {self.number}.** “{self._job.complaint}”\n",
                *("| test | what is read | time |", "| --- | --- | --- |", *tests),
                *("", "| suspect | where |", "| --- | --- |", *suspects),
            ]
        )


def _where(suspect: str) -> str:
    """Return where a practitioner would look for a suspect."""
    circuit = faults.find(suspect).circuit
    return f"around the carburettor: {circuit}" if suspect in faults.AROUND else circuit


def _named(what: str, name: str, listed: tuple[str, ...]) -> str:
    """Return the name on the list that `name` is, however it is written."""
    known = names_in(str(name), listed).known
    if len(known) != 1:
        raise RangeError(f"{what} must be one of {', '.join(listed)}, got {name!r}")
    return known[0]


class Page(NamedTuple):
    """What one suspect would show, beside what a healthy carburettor shows."""

    meaning: str
    lines: list[list[str]]
    """What is read, healthy, slight, bad, at worst."""

    def _repr_markdown_(self) -> str:
        """Show the page in a notebook."""
        head = [
            "| reading | healthy | slight | bad | at worst |",
            "| --- | --- | --- | --- | --- |",
        ]
        rows = ["| " + " | ".join(line) + " |" for line in self.lines]
        return "\n".join([self.meaning, "", *head, *rows, "", BETWEEN])
