"""A sample of observed work for a second person to look at, which anybody can draw again.

The newest work for each trainee and outcome is numbered as in ``observed.csv``, and Python's own
generator, begun with the words that were given, draws from these numbers.
"""

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from fuelmarks.book.doing import last_watched
from fuelmarks.book.writing import page
from fuelmarks.classroom.observed import Observation
from fuelmarks.course.course import CourseError, Trainee
from fuelmarks.course.outcomes import Outcome

__all__ = ["Sample", "draw_sample", "sample_page"]


@dataclass(frozen=True)
class Sample:
    """What was drawn out of how many, with which random seed."""

    seed: str
    out_of: int
    drawn: tuple[Observation, ...]


def draw_sample(lines: Sequence[Observation], number: int, seed: str) -> Sample:
    """Return `number` pieces of work, drawn with `seed`.

    Raises `CourseError` if there is no seed, or there are not so many.
    """
    held = last_watched(lines)
    if not seed.strip():
        raise CourseError("seed must be words or a number that is written on the sample, got none")
    if not 1 <= number <= len(held):
        rule = "sample must be 1 or more, and no more than the work that was watched"
        raise CourseError(f"{rule}, {len(held)}, got {number}")
    numbers = random.Random(seed.strip()).sample([one.number for one in held], number)
    drawn = tuple(one for one in held if one.number in numbers)
    return Sample(seed.strip(), len(held), drawn)


def sample_page(
    sample: Sample, trainees: Sequence[Trainee], outcomes: Mapping[str, Outcome]
) -> str:
    """Return the sample as a page to print, with room for what the second person finds."""
    names = {one.id: one.name for one in trainees}
    return page("sample.html.j2", sample=sample, names=names, outcomes=outcomes)
