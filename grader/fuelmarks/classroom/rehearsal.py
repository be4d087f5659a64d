"""What a class's runner runs beforehand: the cells that were handed out, with nobody's answers.

It is read without nbformat, for the runner is to warm up while that is still being loaded.
"""

import json
from collections.abc import Collection

from fuelmarks.course.course import Course
from fuelmarks.runner import Cell

__all__ = ["FEWEST", "rehearsal"]

FEWEST = 5
"""Notebooks from which on a rehearsal saves more of the processor's time than it takes."""


def rehearsal(course: Course, unit: str, only: Collection[str] = ()) -> list[Cell]:
    """Return the code cells of the release of `unit`; none for few notebooks, or if unreadable.

    `only` are the trainees whose notebooks will be run; everybody's, if there are none. What is
    wrong with the release, marking itself says.
    """
    if (len(only) or _handed_in(course, unit)) < FEWEST:
        return []
    try:
        held = json.loads(course.notebook("release", unit).read_bytes())["cells"]
        code = [one["source"] for one in held if one["cell_type"] == "code"]
        return [Cell(str(number), "".join(lines)) for number, lines in enumerate(code)]
    except (OSError, ValueError, KeyError, TypeError):
        return []


def _handed_in(course: Course, unit: str) -> int:
    """Return how many notebooks there are."""
    return sum(1 for _ in course.root.glob(f"submitted/*/{unit}/{unit}.ipynb"))
