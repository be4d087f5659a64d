"""Unit 12, three cars: what is wrong with each, and which tests prove it in the fewest minutes."""

from collections.abc import Callable

from fuelcircuits.diagnosis.check import minutes_of
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.plan import cheapest, left
from fuelcircuits.faults import find as find_fault

from fuelmarks.questions.diagnosis.against import ruled_out
from fuelmarks.questions.diagnosis.garage import JOBS, Job, job_of, readings_of, table_of
from fuelmarks.questions.frame.choice import Choice, Selection
from fuelmarks.questions.frame.exercise import Exercise, Values

__all__ = ["EXERCISES", "case"]


def _car(given: Values, name: str) -> int:
    return round(given[name])


def _fault(name: str) -> Callable[[Values], str]:
    """Return what is wrong with the car of a given."""
    return lambda given: job_of(_car(given, name)).cars[_car(given, name)][0]


def _best(name: str) -> Callable[[Values], tuple[str, ...]]:
    """Return the cheapest proof for the car of a given."""
    return lambda given: (
        cheapest(table_of(_car(given, name)), readings_of(_car(given, name))).checks
    )


def _enough(name: str) -> Callable[[Values, frozenset[str]], bool]:
    """Return whether tests leave one suspect of the car of a given."""

    def enough(given: Values, chosen: frozenset[str]) -> bool:
        car = _car(given, name)
        readings = {test: readings_of(car)[test] for test in chosen}
        return len(left(table_of(car), readings)) == 1

    return enough


def _against(name: str) -> Callable[[Values, str, frozenset[str]], str]:
    """Return what says which reading of the car of a given rules a suspect out."""

    def against(given: Values, suspect: str, tests: frozenset[str]) -> str:
        car = _car(given, name)
        return ruled_out(table_of(car), readings_of(car), suspect, tests)

    return against


def case(job: Job, name: str, which: str, *further: str) -> tuple[Exercise, Exercise]:
    """Return the two questions about the car of a given; `further` are more outcomes of both."""
    stem = name.replace("_", "-")
    fault = Choice(
        id=f"{stem}-fault",
        ask=f"The {which} car is number **{{{name}}}**. “{job.complaint}” Test it in cells of your "
        f'own, such as `{which}.test("{job.checks[0]}")`, as little as you need. What is wrong '
        "with it?",
        options={suspect: _plain(find_fault(suspect).meaning) for suspect in job.suspects},
        right=_fault(name),
        beside=f"{stem}-proof",
        against=_against(name),
        why="All the tests together leave one suspect, and no other.",
        points=3,
        outcomes=("DIA-1", *further),
        hints=(
            "Which reading is far from the healthy one? Read the pages of the suspects that "
            "could move it.",
            "Rule out: a suspect is gone as soon as one reading is more than three "
            "uncertainties from all that its page allows.",
        ),
    )
    proof = Selection(
        id=f"{stem}-proof",
        ask=f"Which tests **prove** your answer for the {which} car: leave that one suspect and no "
        "other? Name those you would show the customer, and no more. Marks are the minutes of the "
        f"cheapest proof over the minutes of yours.{_opened_once(job)}",
        options={test: f"{find(test).label} ({find(test).minutes:g} min)" for test in job.checks},
        costs={test: find(test).minutes for test in job.checks},
        together=lambda names: minutes_of(map(find, names)),
        cost_unit="min",
        best=_best(name),
        enough=_enough(name),
        why="A proof leaves one suspect within three uncertainties of every reading.",
        points=3,
        outcomes=("DIA-2", *further),
        hints=(
            "Hold every suspect's page against the tests you named. If two suspects fit, a test is "
            "missing. If one test can go and still only one suspect fits, that test is too many.",
        ),
    )
    return fault, proof


def _opened_once(job: Job) -> str:
    """Return which of a job's tests take less together than one by one, as a sentence."""
    shared = [find(test) for test in job.checks if find(test).opening]
    if len(shared) < 2:
        return ""
    named = " and ".join(f"`{check.name}`" for check in shared)
    return f" What is open or off stays so: {named} take {minutes_of(shared):g} minutes together."


def _plain(meaning: str) -> str:
    """Return the first half of a fault's meaning, without how bad it can get."""
    first, _, _ = meaning.partition(":")
    return first[0].lower() + first[1:]


EXERCISES = (
    *case(JOBS["rough-idle"], "car_one", "first", "ARD-2"),
    *case(JOBS["rich"], "car_two", "second"),
    *case(JOBS["no-pull"], "car_three", "third", "ARD-1"),
)
