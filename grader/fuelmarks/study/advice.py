"""What to do next, worked out from what was missed: for somebody who learns alone."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import islice
from types import MappingProxyType

from fuelmarks.marking.wording import LEVELS, words
from fuelmarks.questions import Exercise, ExerciseSet
from fuelmarks.study.progress import Attempt, Progress

__all__ = ["Advice", "Suggestion", "advise", "not_yet"]

MOST = 3
CAN_DO = LEVELS[0][0]
UNTITLED: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True)
class Suggestion:
    """One thing to do: a unit, perhaps one exercise of it, and the reason."""

    unit: str
    exercise: str
    why: str

    def __str__(self) -> str:
        """Return the suggestion as one line."""
        where = f"{self.exercise} in {self.unit}" if self.exercise else f"unit {self.unit}"
        return f"{where}: {self.why}"


@dataclass(frozen=True)
class Advice:
    """Suggestions, the best first, and how far one is."""

    suggestions: tuple[Suggestion, ...]
    done: int
    asked: int
    missing: tuple[str, ...] = ()
    """Outcomes that have not been shown yet: the code, and what it says where that is known."""

    def __repr__(self) -> str:
        """Return the advice as text, so that a notebook shows it."""
        lines = [f"{self.done} of {self.asked} exercises done."]
        if self.missing:
            lines.append("Not yet shown:")
            lines += [f"- {outcome}" for outcome in self.missing]
        if not self.suggestions:
            return "\n".join([*lines, "Nothing is left to do. Take what you know to a real one."])
        head, *rest = self.suggestions
        return "\n".join([*lines, f"Next: {head}", *(f"Then: {one}" for one in rest)])


def advise(
    progress: Progress, sets: Sequence[ExerciseSet], titles: Mapping[str, str] = UNTITLED
) -> Advice:
    """Return what to do next in the units `sets`, in their order; `titles` say the outcomes."""
    known = [(one, progress.of(unit.unit, one.id)) for unit in sets for one in _counting(unit)]
    begun = [unit for unit in sets if unit.unit in progress.units]
    return Advice(
        suggestions=tuple(islice(_suggestions(progress, sets, titles), MOST)),
        done=sum(1 for _, attempt in known if attempt and attempt.done),
        asked=len(known),
        missing=tuple(_titled(code, titles) for code in not_yet(progress, begun)),
    )


def not_yet(progress: Progress, sets: Sequence[ExerciseSet]) -> tuple[str, ...]:
    """Return the outcome codes of `sets` for which too few points have been earned."""
    earned: dict[str, float] = {}
    out_of: dict[str, float] = {}
    for unit in sets:
        for exercise in _counting(unit):
            attempt = progress.of(unit.unit, exercise.id)
            for code in exercise.outcomes:
                earned[code] = earned.get(code, 0.0) + (attempt.points if attempt else 0.0)
                out_of[code] = out_of.get(code, 0.0) + exercise.points
    return tuple(code for code in out_of if earned[code] < CAN_DO * out_of[code] - 1e-9)


def _suggestions(
    progress: Progress, sets: Sequence[ExerciseSet], titles: Mapping[str, str]
) -> Iterator[Suggestion]:
    """Yield what to do: mend what was missed, finish what was begun, begin the next, look back."""
    begun = [one for one in sets if one.unit in progress.units]
    for wanted in (_missed, partial(_untouched, titles=titles)):
        for unit in begun:
            for exercise in _counting(unit):
                if why := wanted(exercise, progress.of(unit.unit, exercise.id)):
                    yield Suggestion(unit.unit, exercise.id, why)
    for unit in sets:
        if unit not in begun:
            yield Suggestion(unit.unit, "", f"{unit.title}, not yet begun")
    for unit in begun:
        for exercise in _counting(unit):
            if why := _shaky(progress.of(unit.unit, exercise.id)):
                yield Suggestion(unit.unit, exercise.id, why)


def _counting(unit: ExerciseSet) -> list[Exercise]:
    """Return the exercises of a unit that count."""
    return [one for one in unit if not one.void]


def _missed(exercise: Exercise, attempt: Attempt | None) -> str:
    """Return why to try again what earned too little, or nothing."""
    if attempt is None or attempt.done:
        return ""
    comments = {f"slip:{slip.name}": slip.comment for slip in exercise.slips}
    comments["slip:too-dear"] = "It settles the case, and so would a quicker proof."
    said = comments.get(attempt.best, "") or f"Last time: {words(attempt.best)}."
    return f"{attempt.points:g} of {attempt.out_of} points so far. {said}"


def _untouched(exercise: Exercise, attempt: Attempt | None, titles: Mapping[str, str]) -> str:
    """Return why to do what has not been tried, or nothing."""
    shows = "; ".join(_titled(code, titles) for code in exercise.outcomes)
    return "" if attempt else f"not yet tried. It is for {shows}"


def _titled(code: str, titles: Mapping[str, str]) -> str:
    """Return an outcome's code with what it says."""
    return f"{code} ({titles[code]})" if code in titles else code


def _shaky(attempt: Attempt | None) -> str:
    """Return why to do once more what came right only after help or slips, or nothing."""
    if attempt is None or not (attempt.helped or attempt.slips):
        return ""
    if attempt.helped:
        return "right, but after the worked answer was shown. Once more, without looking"
    slips = ", ".join(slip.replace("-", " ") for slip in attempt.slips)
    return f"right in the end, after a slip ({slips}). Say to yourself why it is wrong"
