"""Study mode: the full comment at once, for somebody who learns alone.

The answer sheet finds `tell` by the entry point group ``fuelcircuits.study``. The seed comes
from the trainee's name and a key that everybody may know: there is nothing to protect. How far
somebody has got is kept where ``fuelmarks study`` laid down a progress file, and nowhere else.
"""

import tomllib
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

from fuelcircuits.errors import CircuitError

from fuelmarks.course.personal import study_seed
from fuelmarks.course.unit_questions import blocks_of, unit_questions
from fuelmarks.marking.marking import Mark, mark_sheet
from fuelmarks.marking.worked import worked_text
from fuelmarks.questions import Exercise, ExerciseSet, draw, load
from fuelmarks.study.advice import Advice, advise
from fuelmarks.study.foretelling import prediction_named, tell_prediction
from fuelmarks.study.progress import (
    FILE,
    Progress,
    ProgressError,
    find_progress,
    note,
    read_progress,
)

__all__ = ["OUTCOMES", "sets_of", "tell", "today", "what_next"]

OUTCOMES = "outcomes.toml"
"""The list of outcomes, which lies beside the progress."""
TRIES_BEFORE_ANSWER = 3
WISHES = ("show", "show me", "?")
"""What is written as an answer to see it worked out."""
WISH = 'To see it worked in your own numbers, write "show" as your answer.'


def tell(
    unit: str, trainee: str, exercise: str, records: Mapping[str, Mapping[str, Any]], tries: int
) -> str:
    """Return what to say about the answer to `exercise` among `records`, at try number `tries`.

    Each try brings one more hint, the third the worked answer, and so does the wish for it. An
    answer that is only written amiss brings neither.
    """
    try:
        exercise_set = _questions(unit)
        if key := prediction_named(exercise_set, exercise):
            return tell_prediction(unit, exercise, key, records.get(exercise, {}))
        asked = exercise_set[exercise]
    except (CircuitError, KeyError) as error:
        return f"This answer cannot be checked here: {error.args[0]}."
    sheet = draw(exercise_set, study_seed(trainee, exercise_set))
    found = mark_sheet(exercise_set, sheet, records)[exercise]
    wished = _wished(asked, records.get(exercise, {}))
    shown = wished or found.verdict == "right" or (_helped(found) and tries >= TRIES_BEFORE_ANSWER)
    lines = [f"{found.points:g} of {found.out_of} points. {found.comment}"]
    if shown:
        said = (
            found.study_comment if not wished else found.study_comment.removeprefix(found.comment)
        )
        lines = [f"{found.points:g} of {found.out_of} points. {said.strip()}"]
        lines += worked_text(asked, sheet)
    elif _helped(found):
        lines += [f"Hint: {hint}" for hint in asked.hints[: max(tries, 1)]]
        lines += [WISH] if _workable(asked) else []
    if tries:
        lines += _kept(exercise_set, found, shown)
    return "\n".join(lines)


def _wished(exercise: Exercise, record: Mapping[str, Any]) -> bool:
    """Return whether somebody asks to see a number worked out, instead of giving one."""
    text = record.get("text")
    asks = record.get("kind") == "text" and isinstance(text, str)
    return _workable(exercise) and asks and str(text).strip().lower() in WISHES


def _workable(exercise: Exercise) -> bool:
    """Return whether its answer can be worked out for whoever asks."""
    return exercise.method is not None or exercise.form == "setting"


def what_next(folder: Path | None = None) -> Advice:
    """Return what to do next, from the progress kept in `folder` or above (here).

    Raises `ProgressError` if no progress is kept there.
    """
    folder = (folder or Path.cwd()).resolve()
    path = find_progress(folder)
    if path is None:
        raise ProgressError(f"{FILE} must lie in the study folder, got none in {folder}")
    return _advised(read_progress(path, today()), path.parent)


def _advised(progress: Progress, folder: Path) -> Advice:
    """Return what to do next in the units of the study folder."""
    return advise(progress, sets_of(folder), _titles(folder))


def _titles(folder: Path) -> dict[str, str]:
    """Return what each outcome says, by code; none if the study folder holds no list of them."""
    try:
        listed = tomllib.loads((folder / OUTCOMES).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return {code: str(one["title"]) for code, one in listed.items() if "title" in one}


def _kept(exercise_set: ExerciseSet, found: Mark, shown: bool) -> list[str]:
    """Keep what came of an answer, if progress is kept here; return what to say about that."""
    path = find_progress(Path.cwd())
    if path is None:
        return []
    try:
        progress = note(path, exercise_set.unit, found, today(), shown=shown)
    except (OSError, ProgressError) as error:
        return [f"Your progress could not be kept: {error}."]
    lines = []
    if progress.aside:
        lines.append(f"{FILE} was damaged; it is kept as {progress.aside}, and a new one begun.")
    if found.points >= found.out_of and _all_done(exercise_set, progress):
        lines.append(f"All of this unit is done.\n{_advised(progress, path.parent)!r}")
    return lines


def _all_done(exercise_set: ExerciseSet, progress: Progress) -> bool:
    """Return whether every exercise of the unit has earned all its points."""
    attempts = [progress.of(exercise_set.unit, one.id) for one in exercise_set if not one.void]
    return all(one is not None and one.done for one in attempts)


def _questions(unit: str) -> ExerciseSet:
    """Return the questions of `unit`, with those that lie in this folder or above."""
    here = Path.cwd()
    for folder in (here, *here.parents):
        if blocks_of(folder, unit):
            return unit_questions(folder, unit)
    return load(unit)


def sets_of(folder: Path) -> list[ExerciseSet]:
    """Return the exercises of the units in the study folder, in order."""
    units = sorted(path.stem for path in folder.glob("*/*.ipynb") if path.stem == path.parent.name)
    found = []
    for unit in units:
        try:
            found.append(_questions(unit))
        except CircuitError:
            continue
    return found


def today() -> str:
    """Return the day as people in the shop date a job."""
    return date.today().isoformat()


def _helped(found: Mark) -> bool:
    """Return whether a hint on the method is of use: not where only the writing was amiss."""
    return found.verdict in ("wrong", "implausible", "wrong-dimension") or ":" in found.verdict
