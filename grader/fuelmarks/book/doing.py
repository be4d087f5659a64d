"""What a trainee has done with somebody watching: by outcome of doing, with days and readings.

An outcome of doing is certified by the newest work that was watched for it, and by nothing else.
Answers that ask for it stand beside as what they are.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from fuelmarks.classroom.observed import Observation, standing
from fuelmarks.course.outcomes import Outcome

__all__ = ["Doing", "doings", "last_watched"]

NEVER = "not watched yet"


@dataclass(frozen=True)
class Doing:
    """One outcome of doing, and the work that was watched for it, oldest first."""

    outcome: Outcome
    watched: tuple[Observation, ...] = ()

    @property
    def certified(self) -> bool:
        """Say whether the newest work was good."""
        return bool(self.watched) and self.watched[-1].passed

    @property
    def state(self) -> str:
        """Return ``pass``, ``not yet``, or that nobody has watched."""
        return self.watched[-1].seen.result if self.watched else NEVER

    @property
    def day(self) -> str:
        """Return the day of the newest work."""
        return self.watched[-1].seen.day if self.watched else ""

    @property
    def brief(self) -> str:
        """Return state and day on one line, nothing if nobody has watched."""
        return f"{self.state} {self.day}" if self.watched else ""


def doings(
    trainee: str, lines: Sequence[Observation], outcomes: Mapping[str, Outcome]
) -> tuple[Doing, ...]:
    """Return every outcome of doing with what was watched of `trainee`, in the list's order."""
    own = [one for one in standing(lines) if one.seen.trainee == trainee]
    return tuple(
        Doing(outcome, tuple(sorted(_of(own, code), key=lambda one: (one.seen.day, one.number))))
        for code, outcome in outcomes.items()
        if outcome.watched
    )


def last_watched(lines: Sequence[Observation]) -> list[Observation]:
    """Return the work that certifies or does not: the newest for each trainee and outcome."""
    newest: dict[tuple[str, str], Observation] = {}
    for one in sorted(standing(lines), key=lambda one: (one.seen.day, one.number)):
        newest[one.seen.trainee, one.seen.outcome] = one
    return sorted(newest.values(), key=lambda one: one.number)


def _of(lines: Iterable[Observation], code: str) -> list[Observation]:
    """Return the lines of one outcome."""
    return [one for one in lines if one.seen.outcome == code]
