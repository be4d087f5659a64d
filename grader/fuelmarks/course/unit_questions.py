"""Where the questions of a course's unit come from: this package, and a file beside the text.

``units/NN-slug/questions.toml`` adds questions to a unit of the package and changes its own, or
is the whole set of a unit that the package does not know. ``drawn/NN-slug.toml`` is that file as
it was at the first hand-out, with the numbers of the card it takes some from: whatever changes
later, numbers that were handed out stay as they are.
"""

from contextlib import suppress
from pathlib import Path

from fuelmarks.course.error import CourseError
from fuelmarks.course.whole_file import put_new
from fuelmarks.questions import ExerciseSet
from fuelmarks.questions.frame.card import card_used, filled
from fuelmarks.questions.frame.own import own_questions
from fuelmarks.questions.frame.shelf import find

__all__ = ["BESIDE", "blocks_of", "copy_questions", "keep_questions", "unit_questions"]

BESIDE = "questions.toml"
"""Name of the file beside a unit's text."""


def unit_questions(root: Path, unit: str) -> ExerciseSet:
    """Return the questions of `unit` in the course at `root`.

    Raises
    ------
    CourseError
        If there are none.
    BlockError
        If the file beside the unit's text cannot be used.
    """
    base = find(unit)
    blocks = blocks_of(root, unit)
    if base is None and not blocks:
        path = _beside(root, unit)
        raise CourseError(f"{unit} must have questions in {path}, got no such file")
    return own_questions(unit, base, blocks)


def blocks_of(root: Path, unit: str) -> tuple[tuple[str, str], ...]:
    """Return name and text of what was kept at the first hand-out, and of what is there now."""
    now = _now(root, unit)
    if now is None:
        return ()
    path = _first(root, unit)
    first = _read(path) if path.is_file() else now
    name = f"{unit}/{BESIDE}"
    return ((name, now),) if first == now else ((f"drawn/{path.name}", first), (name, now))


def keep_questions(root: Path, unit: str) -> None:
    """Keep the file beside the text of `unit` as it is now, unless one was kept before."""
    now = _now(root, unit)
    if now is not None:
        _put(_first(root, unit), now)


def copy_questions(root: Path, unit: str, into: Path) -> None:
    """Lay the questions of `unit` down in the folder `into` of one who learns alone."""
    blocks = blocks_of(root, unit)
    if blocks:
        _put(_first(into, unit), blocks[0][1])
        _put(_beside(into, unit), blocks[-1][1])


def _beside(root: Path, unit: str) -> Path:
    return root / "units" / unit / BESIDE


def _first(root: Path, unit: str) -> Path:
    return root / "drawn" / f"{unit}.toml"


def _put(path: Path, text: str) -> None:
    """Write a file, unless there is one."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with suppress(FileExistsError):
        put_new(path, text.encode())


def _now(root: Path, unit: str) -> str | None:
    """Return the file beside the text with the numbers of its card filled in; None without one."""
    path = _beside(root, unit)
    if not path.is_file():
        return None
    text, name = _read(path), f"{unit}/{BESIDE}"
    if not (card := card_used(text, name)):
        return text
    rig = root / "rigs" / card
    if not rig.is_file():
        known = ", ".join(sorted(one.name for one in rig.parent.glob("*.toml"))) or "none"
        raise CourseError(f"{name}: card must be one of {known}, got {card!r}")
    return filled(text, _read(rig), card, name)


def _read(path: Path) -> str:
    """Return the text of a file; raise `CourseError` if it is none."""
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise CourseError(f"{path} must be text in UTF-8, got: {error}") from error
