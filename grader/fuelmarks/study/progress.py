"""How far somebody who learns alone has got: one small file in the study folder.

The file is plain JSON, readable and movable like any other. It is written in one piece, so it is
never half there. One that cannot be read is put aside under another name, never thrown away, and
one from a later version of this package is left alone.
"""

import json
import os
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path
from typing import Any

from fuelcircuits.errors import CircuitError

from fuelmarks.marking.marking import Mark

__all__ = ["FILE", "Attempt", "Progress", "ProgressError", "find_progress", "note", "read_progress"]

FILE = "my-progress.json"
VERSION = 1
LEVELS_UP = 3
KINDS: Mapping[str, tuple[type, ...]] = {
    "best": (str,),
    "points": (int, float),
    "out_of": (int,),
    "date": (str,),
    "tries": (int,),
    "helped": (bool,),
    "slips": (list,),
}


class ProgressError(CircuitError, ValueError):
    """Progress cannot be read or kept; the message names file, rule and value."""


@dataclass(frozen=True)
class Attempt:
    """What came of one exercise so far: the best verdict, its day, and what went wrong before.

    `helped` says that the worked answer had been shown before the best verdict was earned.
    """

    best: str
    points: float
    out_of: int
    date: str
    tries: int = 1
    helped: bool = False
    slips: tuple[str, ...] = ()
    said: str = ""
    """What was said about the last answer."""

    @property
    def done(self) -> bool:
        """Whether all points were earned."""
        return self.points >= self.out_of


@dataclass(frozen=True)
class Progress:
    """Attempts by unit and exercise; `aside` names a damaged file that was put away."""

    units: Mapping[str, Mapping[str, Attempt]] = field(default_factory=dict)
    aside: str = ""

    def of(self, unit: str, exercise: str) -> Attempt | None:
        """Return the attempt at one exercise, if there is any."""
        return self.units.get(unit, {}).get(exercise)

    def after(self, unit: str, mark: Mark, day: str, *, shown: bool) -> "Progress":
        """Return the progress with one more attempt; `shown`: the worked answer is shown now."""
        new = _later(self.of(unit, mark.exercise), mark, day, shown)
        attempts = {**self.units.get(unit, {}), mark.exercise: new}
        return replace(self, units={**self.units, unit: attempts})


def find_progress(start: Path) -> Path | None:
    """Return the progress file in `start` or a folder above it, if somebody keeps one there."""
    for folder in [start, *start.parents][:LEVELS_UP]:
        if (folder / FILE).is_file():
            return folder / FILE
    return None


def read_progress(path: Path, day: str) -> Progress:
    """Return what the file at `path` holds; a damaged one is put aside, with `day` in its name.

    Raises `ProgressError` if it comes from a later version, or cannot be put aside.
    """
    try:
        return _progress(json.loads(path.read_text(encoding="utf-8")))
    except FileNotFoundError:
        return Progress()
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError) as error:
        if isinstance(error, ProgressError):
            raise
        return Progress(aside=_put_aside(path, day).name)


def write_progress(path: Path, progress: Progress) -> None:
    """Write the file in one piece."""
    units = {
        unit: {name: asdict(one) for name, one in attempts.items()}
        for unit, attempts in progress.units.items()
    }
    part = path.with_name(f"{path.name}.{os.getpid()}.part")
    part.write_text(json.dumps({"version": VERSION, "units": units}, indent=1), encoding="utf-8")
    os.replace(part, path)


def note(path: Path, unit: str, mark: Mark, day: str, *, shown: bool) -> Progress:
    """Add one attempt to the file at `path` and return the progress then."""
    progress = read_progress(path, day).after(unit, mark, day, shown=shown)
    write_progress(path, progress)
    return progress


def _later(before: Attempt | None, mark: Mark, day: str, shown: bool) -> Attempt:
    """Return the attempt that `before` becomes with one more mark."""
    slip = [mark.verdict.removeprefix("slip:")] if mark.verdict.startswith("slip:") else []
    if before is None:
        helped = shown and mark.points < mark.out_of
        return Attempt(
            mark.verdict, mark.points, mark.out_of, day, 1, helped, tuple(slip), mark.comment
        )
    slips = tuple(dict.fromkeys([*before.slips, *slip]))
    more = replace(
        before, tries=before.tries + 1, slips=slips, out_of=mark.out_of, said=mark.comment
    )
    if before.done or mark.points < before.points:
        return more
    helped = before.helped or (shown and mark.points < mark.out_of)
    return replace(more, best=mark.verdict, points=mark.points, date=day, helped=helped)


def _progress(found: Any) -> Progress:
    """Return what the JSON `found` says; raise if it is not a progress file."""
    version = found["version"]
    if isinstance(version, int) and version > VERSION:
        raise ProgressError(f"{FILE} must be of version {VERSION}, got {version}: update fuelmarks")
    if version != VERSION:
        raise ValueError("no version")
    return Progress(
        {
            str(unit): {str(name): _attempt(one) for name, one in attempts.items()}
            for unit, attempts in found["units"].items()
        }
    )


def _attempt(one: Mapping[str, Any]) -> Attempt:
    """Return one attempt, every entry checked."""
    for name, kind in KINDS.items():
        if not isinstance(one[name], kind):
            raise TypeError(f"{name} must be another kind, got {one[name]!r}")
    if not isinstance(one.get("said", ""), str):
        raise TypeError(f"said must be text, got {one['said']!r}")
    if not all(isinstance(slip, str) for slip in one["slips"]):
        raise TypeError(f"slips must be names, got {one['slips']!r}")
    return Attempt(**{**one, "slips": tuple(one["slips"])})


def _put_aside(path: Path, day: str) -> Path:
    """Rename a damaged file, so that nothing is lost, and return its new path."""
    for count in range(1, 1000):
        aside = path.with_name(f"{path.stem}.damaged-{day}-{count}.json")
        if not aside.exists():
            path.rename(aside)
            return aside
    raise ProgressError(f"{path} must be readable, got a damaged file for the thousandth time")
