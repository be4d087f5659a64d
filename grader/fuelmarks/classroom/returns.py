"""What was delivered, file by file: a folder of any shape, a notebook, or a zip of either.

Names are only shown, and asked whose folder it is; they never say what a file is.
"""

import re
import unicodedata
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from fuelmarks.classroom.archive import ArchiveError, Member, Room, members
from fuelmarks.course.course import CourseError
from fuelmarks.gradebook.submission import LARGEST, SubmissionError, plain_file

__all__ = ["Delivered", "delivered", "printable"]

ZIP = b"PK\x03\x04"
OTHER_ARCHIVES = (b"7z\xbc\xaf\x27\x1c", b"Rar!", b"\x1f\x8b", b"BZh", b"\xfd7zXZ")
LARGEST_ARCHIVE = 200 << 20
DEEPEST = 2
"""A platform's archive holds archives of the trainees, and those nothing of the kind."""
NOISE = re.compile(r"\.[^.].*|__MACOSX|Thumbs\.db|desktop\.ini", re.IGNORECASE)
"""What systems and Jupyter lay down for themselves: hidden files, checkpoints, resource forks."""


@dataclass(frozen=True)
class Delivered:
    """One file: where it lay, when it was last changed, and how to read it.

    `read` raises `SubmissionError` where it cannot be had; `beside` are the files around it, and
    `note` says what is odd about its time. Where a server knows who sent it and when, `sender` is
    that trainee, and the time is beyond doubt.
    """

    parts: tuple[str, ...]
    handed_in: datetime
    read: Callable[[], bytes]
    beside: Mapping[str, Callable[[], bytes]] = field(default_factory=dict)
    note: str = ""
    sender: str = ""

    @property
    def name(self) -> str:
        """Return where it lay, fit to be printed."""
        return printable("/".join(self.parts))

    @property
    def order(self) -> tuple[datetime, int, str]:
        """Return what sorts the earlier before the later; a later copy carries a number."""
        copy = re.search(r"\((\d{1,4})\)\.\w+$", self.parts[-1])
        return self.handed_in, int(copy[1]) if copy else 0, self.name


def delivered(returned: Path, when: datetime | None = None) -> list[Delivered]:
    """Return all files in `returned`, the earliest first; `when` counts as the time of all.

    Raises `CourseError` if nothing lies there.
    """
    if returned.is_dir():
        found = [one for path in _walk(returned) for one in _file(path, returned)]
    elif returned.is_file():
        found = list(_file(returned, returned.parent))
    else:
        rule = "returned must be a folder of notebooks, a notebook or a zip"
        raise CourseError(f"{rule}, got {returned}")
    timed = [_timed(one, when) for one in _with_neighbours(found)]
    return sorted(timed, key=lambda one: one.order)


def printable(text: str) -> str:
    """Return `text` without what would break a line, move a cursor or turn the writing round."""
    return "".join(
        "�" if unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Zl", "Zp") else sign
        for sign in text
    )


def _timed(one: Delivered, when: datetime | None) -> Delivered:
    """Return a file with the time that counts; one that lies in the future is now."""
    if when is not None:
        return replace(one, handed_in=when)
    now = datetime.now(UTC)
    if one.handed_in <= now:
        return one
    note = f"its time was {one.handed_in:%Y-%m-%d %H:%M} UTC, which is still to come, so now counts"
    return replace(one, handed_in=now, note=note)


def _walk(folder: Path) -> Iterator[Path]:
    """Yield the files in `folder` and below, in order; links are not followed."""
    try:
        inside = sorted(folder.iterdir())
    except PermissionError:
        yield folder
        return
    for path in inside:
        if NOISE.fullmatch(path.name):
            continue
        if path.is_dir() and not path.is_symlink():
            yield from _walk(path)
        else:
            yield path


def _file(path: Path, root: Path) -> Iterator[Delivered]:
    """Yield a file, or all that is in it if it is an archive."""
    about = path.lstat()
    handed_in = datetime.fromtimestamp(about.st_mtime, UTC)
    parts = path.relative_to(root).parts
    whole = Delivered(parts, handed_in, partial(plain_file, path))
    if path.is_symlink() or not path.is_file() or not _begins_as(path, ZIP):
        yield whole
    elif about.st_size > LARGEST_ARCHIVE:
        rule = f"must be an archive of {LARGEST_ARCHIVE >> 20} MB or less"
        yield _refused(
            parts, handed_in, f"{rule}, got {about.st_size >> 20} MB; unpack it yourself"
        )
    else:
        yield from _inside(path.read_bytes(), parts, handed_in, Room(), 1)


def _begins_as(path: Path, sign: bytes) -> bool:
    """Return whether the file at `path` begins with `sign`."""
    try:
        with path.open("rb") as file:
            return file.read(len(sign)) == sign
    except OSError:
        return False


def _inside(
    raw: bytes, parts: tuple[str, ...], handed_in: datetime, room: Room, depth: int
) -> Iterator[Delivered]:
    """Yield the files of an archive, those of archives in it too."""
    try:
        for member in members(raw, room):
            if not any(NOISE.fullmatch(part) for part in member.parts):
                yield from _member(member, parts, handed_in, room, depth)
    except ArchiveError as error:
        yield _refused(parts, handed_in, str(error))


def _member(
    member: Member, parts: tuple[str, ...], handed_in: datetime, room: Room, depth: int
) -> Iterator[Delivered]:
    """Yield one file of an archive, or all that is in it if it is an archive too."""
    inner, when = (*parts, *member.parts), member.time or handed_in
    if member.parts[-1].lower().endswith(".zip") and depth < DEEPEST:
        try:
            raw = member.read()
        except ArchiveError as error:
            yield _refused(inner, when, str(error))
            return
        yield from _inside(raw, inner, when, room, depth + 1)
    elif member.size > LARGEST:
        rule = f"must be smaller than {LARGEST / 1e6:.0f} MB"
        yield _refused(inner, when, f"{rule}, got {member.size / 1e6:.0f} MB")
    else:
        yield Delivered(inner, when, partial(_from_archive, member))


def _from_archive(member: Member) -> bytes:
    """Return the bytes of a member; raise `SubmissionError` if it cannot be had."""
    try:
        return member.read()
    except ArchiveError as error:
        raise SubmissionError(str(error)) from error


def _refused(parts: tuple[str, ...], handed_in: datetime, why: str) -> Delivered:
    """Return a file that cannot be read, and says why when that is tried."""

    def read() -> bytes:
        raise SubmissionError(why)

    return Delivered(parts, handed_in, read)


def _with_neighbours(found: list[Delivered]) -> Iterator[Delivered]:
    """Yield the files, each with those that lie in the same folder."""
    folders: dict[tuple[str, ...], dict[str, Callable[[], bytes]]] = {}
    for one in found:
        folders.setdefault(one.parts[:-1], {})[one.parts[-1]] = one.read
    for one in found:
        around = folders[one.parts[:-1]]
        rest = {name: read for name, read in around.items() if name != one.parts[-1]}
        yield replace(one, beside=rest)
