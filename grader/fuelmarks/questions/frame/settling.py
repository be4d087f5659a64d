"""Find the settings that an adjustment asks for, as a mechanic does: one control after another.

Each control is tried at the places of its slider, at first at all of them and later around where
it stands, until its own reading is as near as it comes; then the next, and the first once more.
"""

from collections.abc import Callable, Iterator, Mapping
from math import ceil, inf, isnan

from fuelcircuits.errors import CircuitError, ConvergenceError

from fuelmarks.questions.frame.adjustment import Adjustment, Want, bench_on
from fuelmarks.questions.frame.exercise import Values

__all__ = ["needed", "settled"]

STRIDE, ROUNDS = 4, 12
"""Places of a slider that are gone at first, and how often all the controls are gone through."""
Judge = Callable[[int], float]


def settled(exercise: Adjustment, given: Values) -> dict[str, float]:
    """Return SI values of the controls to be set at which every reading is as it is wanted.

    Raises `ConvergenceError` if no places of the sliders are found that do.
    """
    names = {each.given for each in exercise.stands.values() if each.given}
    names |= {want.target.given for want in exercise.wants if want.target.given}
    told = tuple((name, given[name]) for name in sorted(names))
    if told not in exercise.known:
        exercise.known[told] = _settled(exercise, dict(told))
    return dict(exercise.known[told])


def _settled(exercise: Adjustment, given: Values) -> dict[str, float]:
    moved = {name: exercise.left(given)[name] for name in exercise.moves}
    for turn in range(ROUNDS):
        for at, want in enumerate(exercise.wants):
            moved[want.by] = _best(exercise, given, moved, at, widely=turn == 0)
        if _good(exercise, given, moved):
            return moved
    raise ConvergenceError(f"{exercise.id} must have settings that meet it, got none with {given}")


def needed(exercise: Adjustment, given: Values, moved: Mapping[str, float], want: Want) -> float:
    """Return how far the control of one want must still go, in SI, if the others stay.

    It is not a number where no place of the slider does.
    """
    at = exercise.wants.index(want)
    best = _best(exercise, given, moved, at, widely=False)
    try:
        off = want.off(exercise.read(given, {**moved, want.by: best})[at], given)
    except CircuitError:
        return float("nan")
    return best - moved[want.by] if abs(off) <= 1 else float("nan")


def _good(exercise: Adjustment, given: Values, moved: Mapping[str, float]) -> bool:
    try:
        reads = exercise.read(given, moved)
    except CircuitError:
        return False
    return all(
        abs(want.off(read, given)) <= 1 for want, read in zip(exercise.wants, reads, strict=True)
    )


def _best(
    exercise: Adjustment, given: Values, moved: Mapping[str, float], at: int, *, widely: bool
) -> float:
    """Return the place of one control's slider that brings its reading nearest to the target."""
    want = exercise.wants[at]
    places = list(_slider(exercise, want.by))
    known: dict[int, float] = {}

    def judge(place: int) -> float:
        if place not in known:
            try:
                read = exercise.read(given, {**moved, want.by: places[place]})[at]
                off = abs(want.off(read, given))
            except CircuitError:
                off = inf
            known[place] = inf if isnan(off) else off
        return known[place]

    last = len(places) - 1
    start = min(range(last + 1), key=lambda place: abs(places[place] - moved[want.by]))
    if widely:
        return places[min(range(last + 1), key=judge)]
    return places[_down(judge, start, last, STRIDE)]


def _down(judge: Judge, place: int, last: int, step: int) -> int:
    """Return the place that is lowest around, found by ever shorter steps."""
    while step >= 1:
        sides = [side for side in (place - step, place + step) if 0 <= side <= last]
        best = min((place, *sides), key=judge)
        step = step if best != place else step // 2
        place = best
    return place


def _slider(exercise: Adjustment, name: str) -> Iterator[float]:
    """Yield the places of a control's slider in SI."""
    control = bench_on(exercise.bench, exercise.rig).controls()[name]
    scale, step = control.measure.metric, control.steps[0]
    low = ceil(scale.show(control.low) / step - 1e-9)
    for place in range(low, int(scale.show(control.high) / step + 1e-9) + 1):
        shown = place * step
        yield min(max((shown - scale.offset) / scale.factor, control.low), control.high)
