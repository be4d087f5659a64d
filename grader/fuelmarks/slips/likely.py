"""Which slips of a question are worth telling: alike ones together, the likeliest first.

Candidates that always give the same number are one group; their weights add. Groups enter by
weight until they cover a small part of the plausible range, so that a number picked at random
seldom hits one. A group that always equals a slip in the author's words leaves it to them.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from fuelmarks.slips.candidate import Candidate
from fuelmarks.slips.sentences import ALIKE

__all__ = ["BUDGET", "PROBES", "WIDTH", "Group", "Probe", "alike", "grouped"]

BUDGET = 0.08
"""Part of the plausible range, on a log scale, that all groups together may cover."""
WIDTH = 0.005
"""How near an answer has to be to a group's number."""
PROBES = 5
"""Sheets on which candidates are compared."""
HEAVIEST = 0.06
SECOND = 0.3
"""Share of the likeliest comment's weight from which a second one is told too."""
SAME = 1e-5


@dataclass(frozen=True)
class Probe:
    """One sheet's values for the formula, its right answer and the author's own slips (SI)."""

    values: dict[str, float]
    right: float
    declared: tuple[float | None, ...]


@dataclass(frozen=True)
class Group:
    """Candidates that always give one number, and what is said if an answer is that number.

    `families` are those that are spoken of: the likeliest, or two that are as likely. `cost` is
    the part of the plausible range that the group covers.
    """

    lead: Candidate
    weight: float
    comment: str
    families: tuple[str, ...]
    cost: float


Ratios: TypeAlias = tuple[float | None, ...]


def grouped(
    found: Sequence[Candidate],
    probes: Sequence[Probe],
    *,
    near_right: Callable[[float, float], bool],
    low: float,
    high: float,
) -> tuple[Group, ...]:
    """Return the groups worth telling, the likeliest first.

    Parameters
    ----------
    found
        Every candidate of the question.
    probes
        Sheets to compare them on.
    near_right
        Whether a value counts as the right answer: value and right answer (SI).
    low, high
        The plausible range of the answer (SI).
    """
    kept = [
        (ratios, members)
        for ratios, members in alike(found, probes)
        if not _useless(ratios, probes, near_right)
    ]
    return _within_budget(kept, probes, low, high)


def alike(
    found: Sequence[Candidate], probes: Sequence[Probe]
) -> list[tuple[Ratios, list[Candidate]]]:
    """Return candidates that always give one number together, with that number over the right one.

    Those that always give the number of a slip in the author's words are left out.
    """
    declared = [
        tuple(_over(one, probe.right) for one, probe in zip(row, probes, strict=True))
        for row in zip(*(probe.declared for probe in probes), strict=True)
    ]
    kept: list[tuple[Ratios, list[Candidate]]] = []
    for candidate in sorted(found, key=lambda one: -one.weight):
        ratios = tuple(_ratio(candidate, probe) for probe in probes)
        if not any(ratios) or any(_same(ratios, one) for one in declared):
            continue
        home = next((members for other, members in kept if _same(ratios, other)), None)
        if home is None:
            kept.append((ratios, [candidate]))
        else:
            home.append(candidate)
    return kept


def _over(value: float | None, right: float) -> float | None:
    return None if value is None else value / right


def _ratio(candidate: Candidate, probe: Probe) -> float | None:
    """Return what a candidate comes to over the right answer; None where it comes to nothing."""
    try:
        value = candidate.value(probe.values)
    except (ArithmeticError, ValueError, KeyError):
        return None
    return value / probe.right if math.isfinite(value) and value else None


def _useless(
    ratios: Ratios, probes: Sequence[Probe], near_right: Callable[[float, float], bool]
) -> bool:
    """Return whether a candidate never gives a number, or always that of the right answer."""
    values = [
        (ratio * probe.right, probe.right)
        for ratio, probe in zip(ratios, probes, strict=True)
        if ratio is not None
    ]
    return all(near_right(*pair) for pair in values)


def _same(one: Ratios, other: Ratios) -> bool:
    """Return whether two candidates give the same numbers on every probe."""
    return all(
        (a is None) == (b is None) and (a is None or b is None or abs(a - b) <= SAME * abs(a))
        for a, b in zip(one, other, strict=True)
    )


def _within_budget(
    kept: list[tuple[Ratios, list[Candidate]]], probes: Sequence[Probe], low: float, high: float
) -> tuple[Group, ...]:
    """Return the likeliest groups that together cover no more than `BUDGET`."""
    span = max(0.2, math.log(high / low)) if low > 0 else math.log(1e3)
    costed = []
    for ratios, members in kept:
        inside = [
            low <= ratio * probe.right <= high
            for ratio, probe in zip(ratios, probes, strict=True)
            if ratio is not None
        ]
        cost = 2 * WIDTH / span * sum(inside) / len(inside)
        costed.append(_group(members, cost))
    chosen, covered = [], 0.0
    for group in sorted(costed, key=lambda one: (-one.weight, one.cost)):
        if covered + group.cost <= BUDGET:
            covered += group.cost
            chosen.append(group)
    return tuple(chosen)


def _group(members: list[Candidate], cost: float) -> Group:
    """Return members as one group with its comment: the likeliest, or either of two."""
    weight = min(HEAVIEST, sum(one.weight for one in members))
    unlike: dict[str, Candidate] = {}
    for one in members:
        unlike.setdefault(ALIKE.get(one.family, one.family), one)
    first, *others = unlike.values()
    if others and others[0].weight >= SECOND * first.weight:
        comment = either(first.comment, others[0].comment)
        return Group(first, weight, comment, (first.family, others[0].family), cost)
    return Group(first, weight, first.comment, (first.family,), cost)


def either(first: str, second: str) -> str:
    """Return two comments as one."""
    return first if first == second else f"Either: {first} Or: {second}"
