"""What lateness takes from a submission: the rule in term.toml, or the plugin that is set."""

import math
from collections.abc import Callable
from functools import cache
from typing import Any, TypeAlias

from fuelmarks.course.course import Course
from fuelmarks.course.term import Lateness
from fuelmarks.gradebook.settings import settings

__all__ = ["Penalty", "penalty_of", "term_penalty"]

Penalty: TypeAlias = Callable[[str, float, float], float | None]
"""From trainee, points and seconds late (more than none) to the points taken off; None: none."""
DAY = 86_400


def term_penalty(late: Lateness, score: float, seconds: float) -> float | None:
    """Return the points that the rule of the term takes of `score`; None if it takes none."""
    if late.rule == "shown":
        return None
    days = math.ceil(seconds / DAY)
    share = 1.0 if late.rule == "zero" else min(1.0, days * late.percent / 100)
    return score * share


def penalty_of(course: Course) -> Penalty:
    """Return what works out the penalty of a late submission, never more than its points.

    It is nbgrader's plugin, as configured.
    """
    config = settings(course)

    @cache
    def plugin() -> Any:
        # Slow to load, and in most classes nobody is late.
        from nbgrader.preprocessors import AssignLatePenalties  # noqa: PLC0415

        penalties = AssignLatePenalties(config=config)
        penalties.init_plugin()
        return penalties.plugin_inst

    def taken(trainee: str, score: float, seconds: float) -> float | None:
        points = plugin().late_submission_penalty(trainee, score, seconds)
        return None if points is None else min(max(points, 0.0), score)

    return taken
