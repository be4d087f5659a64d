"""Every attempt of a trainee, kept as it was handed in, and which of them counts.

    submitted/ID/attempts/UNIT/001/     UNIT.ipynb, attempt.json, the files it names
    submitted/ID/UNIT/                  the attempt that counts, where marking looks for it

An attempt is written under another name and renamed: it is there whole or not at all, and is
never written again, but for a time that was corrected. The newest whole one counts; `settle`
puts it in place as often as it is asked.
"""

import hashlib
import json
import os
import shutil
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from fuelmarks.course.course import Course
from fuelmarks.course.whole_file import put_whole, settle_folder
from fuelmarks.gradebook.submission import SubmissionError, notebook_in, plain_file

__all__ = ["RESERVED", "Attempt", "adopt", "attempts", "counting", "keep", "retime", "settle"]

RECORD = "attempt.json"
NOTED = "timestamp.txt"
PART = ".part"
RESERVED = (RECORD, NOTED)
"""Names that no file beside a notebook can have."""


@dataclass(frozen=True)
class Attempt:
    """One attempt: its number, when and as what it was handed in, whether it can be read."""

    number: int
    handed_in: datetime
    digest: str
    delivered: str
    whole: bool
    beside: Mapping[str, str]
    folder: Path


def attempts(course: Course, unit: str, trainee: str) -> tuple[Attempt, ...]:
    """Return the attempts of `trainee` in `unit`, in the order they were kept."""
    folder = _folder(course, unit, trainee)
    found = sorted(folder.glob(f"[0-9]*/{RECORD}"), key=lambda path: int(path.parent.name))
    return tuple(_read(path) for path in found)


def counting(kept: tuple[Attempt, ...]) -> Attempt | None:
    """Return the attempt that counts: the newest that can be read, or else the newest."""
    return max(kept, key=lambda one: (one.whole, one.handed_in, one.number), default=None)


def keep(
    course: Course,
    unit: str,
    trainee: str,
    raw: bytes,
    *,
    handed_in: datetime,
    delivered: str,
    beside: Mapping[str, bytes],
    sent: bool = False,
) -> tuple[Attempt, bool]:
    """Keep an attempt, unless the very same is kept; return it, and whether it is new.

    Where a server counted what was `sent`, the same work sent once more is an attempt again:
    somebody went back to it.
    """
    digest = hashlib.sha256(raw).hexdigest()
    around = {name: hashlib.sha256(data).hexdigest() for name, data in beside.items()}
    kept = attempts(course, unit, trainee)
    for one in kept:
        same = (one.digest, one.beside) == (digest, around)
        if same and (not sent or one.delivered == delivered):
            return one, False
    number = max((one.number for one in kept), default=0) + 1
    folder = _folder(course, unit, trainee)
    folder.mkdir(parents=True, exist_ok=True)
    about = {
        "handed_in": handed_in.isoformat(),
        "digest": digest,
        "delivered": delivered,
        "whole": _is_whole(raw),
        "beside": around,
        "kept": datetime.now(UTC).isoformat(timespec="seconds"),
    }
    files = {**beside, f"{unit}.ipynb": raw, RECORD: json.dumps(about, indent=1).encode()}
    _put_folder(folder / f"{number:03}", files)
    return _read(folder / f"{number:03}" / RECORD), True


def retime(one: Attempt, handed_in: datetime) -> Attempt:
    """Correct when an attempt was handed in; return it as it is then."""
    record = one.folder / RECORD
    told = json.loads(record.read_bytes()) | {"handed_in": handed_in.isoformat()}
    put_whole(record, json.dumps(told, indent=1).encode(), 0o444)
    return _read(record)


def settle(course: Course, unit: str, trainee: str) -> Attempt | None:
    """Put the attempt that counts where marking looks for it; return it, None if none is kept.

    A notebook that lies there and is no attempt yet becomes one first, so that nothing is lost.
    Raises `SubmissionError` if something else lies there.
    """
    kept = attempts(course, unit, trainee)
    if kept and adopt(course, unit, trainee):
        kept = attempts(course, unit, trainee)
    one = counting(kept)
    if one is not None:
        others = {name for other in kept for name in other.beside} - one.beside.keys()
        _put_in_place(one, course.notebook("submitted", unit, trainee), others)
    return one


def adopt(course: Course, unit: str, trainee: str) -> Attempt | None:
    """Keep as an attempt what lies where marking looks; return it, None if there is nothing new."""
    place = course.notebook("submitted", unit, trainee)
    raw = _there(place)
    known = {one.digest for one in attempts(course, unit, trainee)}
    if raw is None or hashlib.sha256(raw).hexdigest() in known:
        return None
    name = str(place.relative_to(course.root))
    return keep(course, unit, trainee, raw, handed_in=_noted(place), delivered=name, beside={})[0]


def _folder(course: Course, unit: str, trainee: str) -> Path:
    return course.root / "submitted" / trainee / "attempts" / unit


def _read(record: Path) -> Attempt:
    """Return the attempt that `record` tells of; raise `SubmissionError` if it tells nothing."""
    try:
        told = json.loads(record.read_bytes())
        return Attempt(
            number=int(record.parent.name),
            handed_in=datetime.fromisoformat(told["handed_in"]),
            digest=str(told["digest"]),
            delivered=str(told["delivered"]),
            whole=bool(told["whole"]),
            beside=dict(told["beside"]),
            folder=record.parent,
        )
    except (ValueError, KeyError, TypeError) as error:
        raise SubmissionError(f"{record} must tell of an attempt, got: {error!r}") from error


def _is_whole(raw: bytes) -> bool:
    """Return whether `raw` is a notebook that can be read."""
    try:
        notebook_in(raw, "notebook")
    except SubmissionError:
        return False
    return True


def _put_folder(target: Path, files: Mapping[str, bytes]) -> None:
    """Write a folder of read-only `files`; it is there whole or not at all."""
    part = target.with_name(PART)
    shutil.rmtree(part, ignore_errors=True)
    part.mkdir()
    for name, data in files.items():
        put_whole(part / name, data, 0o444)
    os.rename(part, target)
    settle_folder(target.parent)


def _there(place: Path) -> bytes | None:
    """Return the notebook where marking looks, None if there is none."""
    if not os.path.lexists(place):
        return None
    try:
        return plain_file(place)
    except SubmissionError as error:
        raise SubmissionError(f"{place}: {error}; move it away") from error


def _noted(place: Path) -> datetime:
    """Return when the notebook at `place` was handed in: as is noted there, or its file's time."""
    with suppress(OSError, ValueError):
        text = (place.parent / NOTED).read_text(encoding="utf-8").strip().removesuffix(" UTC")
        return datetime.fromisoformat(text).replace(tzinfo=UTC)
    return datetime.fromtimestamp(place.stat().st_mtime, UTC)


def _put_in_place(one: Attempt, place: Path, others: set[str]) -> None:
    """Put an attempt where marking looks: time, files beside it, and last the notebook."""
    place.parent.mkdir(parents=True, exist_ok=True)
    for name in others:
        (place.parent / name).unlink(missing_ok=True)
    files = {NOTED: f"{one.handed_in.astimezone(UTC):%Y-%m-%d %H:%M:%S} UTC\n".encode()}
    files |= {name: (one.folder / name).read_bytes() for name in one.beside}
    files[place.name] = (one.folder / place.name).read_bytes()
    for name, data in files.items():
        path = place.parent / name
        if not (path.is_file() and path.read_bytes() == data):
            put_whole(path, data)
