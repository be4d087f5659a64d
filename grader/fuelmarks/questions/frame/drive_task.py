"""Make the question to drive a set journey within its limits."""

from collections.abc import Mapping, Sequence
from functools import lru_cache, partial

from fuelcircuits.benches.drive.journeys import JOURNEYS, Leg, trace_of
from fuelcircuits.benches.drive.judging import TASKS, Judged, judged
from fuelcircuits.own_car.scaling import rig_named

from fuelmarks.questions.frame.choice import Near
from fuelmarks.questions.frame.driven import ALL_KEPT, Driven

__all__ = ["driven"]


@lru_cache(maxsize=32)
def _judged(text: str, rig: str, task: str) -> Judged:
    """Return what a drive comes to; the examples are asked for again and again."""
    return judged(text, rig_named(rig), task)


def driven(
    name: str,
    ask: str,
    *,
    task: str,
    rig: str,
    points: int,
    outcomes: tuple[str, ...],
    why: str,
    hints: tuple[str, ...],
    examples: Mapping[str, Sequence[Leg]],
) -> Driven:
    """Return the question to drive a task within its limits.

    Parameters
    ----------
    name
        The question's id.
    ask
        What to do; the limits follow it, a sentence each.
    task
        A set journey that has limits.
    rig
        The teaching rig that is driven.
    points, outcomes
        What it is worth, and what it shows.
    why, hints
        As of every choice.
    examples
        A drive for every option: `ALL_KEPT` first, then one that breaks each limit, in the order
        of the task, under the option's name.
    """
    limits = (TASKS[task].goal, *TASKS[task].limits)
    _, *broken = examples
    words = {ALL_KEPT: "all of them kept"}
    words |= {one: f"not kept: {limit.words}" for one, limit in zip(broken, limits, strict=True)}
    near: dict[str, Near] = {}
    for one, limit in zip(broken, limits, strict=True):
        share = 0.0 if limit is TASKS[task].goal else 1.0 - 1.0 / len(limits)
        near[one] = (share, f"{limit.words} {limit.slip}")
    return Driven(
        id=name,
        ask=" ".join((ask, *(one.words for one in limits))),
        options=words,
        right=lambda given: ALL_KEPT,
        near=near,
        why=why,
        points=points,
        outcomes=outcomes,
        hints=hints,
        judged=partial(_judged, rig=rig, task=task),
        examples={one: _text(legs, task, rig) for one, legs in examples.items()},
    )


def _text(legs: Sequence[Leg], task: str, rig: str) -> str:
    """Return a drive of straight legs as it is handed in."""
    return trace_of(JOURNEYS[task]._replace(legs=tuple(legs)), rig).line
