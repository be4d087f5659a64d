"""A zip archive, looked into and never unpacked: each file in it with its time, or a refusal."""

import io
import stat
import struct
import zipfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import partial
from pathlib import PurePosixPath, PureWindowsPath

__all__ = ["ArchiveError", "Member", "Room", "members"]

MOST_MEMBERS = 10_000
NO_TIME = (1980, 1, 1)
"""The date of a member whose packer knew none."""


class ArchiveError(Exception):
    """An archive, or a file in one, cannot be taken; the message says why."""


@dataclass
class Room:
    """How many bytes may still be unpacked, over an archive and all the archives in it."""

    left: int = 1 << 30

    def take(self, size: int) -> None:
        """Take `size` bytes; raise `ArchiveError` if they are not left."""
        self.left -= size
        if self.left < 0:
            raise ArchiveError("must hold less than 1 GB unpacked, got more; unpack it yourself")


@dataclass(frozen=True)
class Member:
    """One file of an archive; `read` raises `ArchiveError` where it cannot be had."""

    parts: tuple[str, ...]
    size: int
    time: datetime | None
    read: Callable[[], bytes]


def members(raw: bytes, room: Room) -> Iterator[Member]:
    """Yield the files in the archive `raw`; raise `ArchiveError` if it is none, or a bomb.

    A damaged archive may raise whatever the library under it raises: each way to pack has its own.
    """
    try:
        archive = zipfile.ZipFile(io.BytesIO(raw))
    except Exception as error:
        raise ArchiveError(f"must be a whole zip archive, got: {error}") from error
    listed = [one for one in archive.infolist() if not one.filename.endswith("/")]
    if len(listed) > MOST_MEMBERS:
        raise ArchiveError(f"must hold {MOST_MEMBERS} files or fewer, got {len(listed)}")
    room.take(sum(one.file_size for one in listed))
    for one in listed:
        name = one.filename.replace("\\", "/")
        parts = PurePosixPath(name).parts or ("(no name)",)
        yield Member(parts, one.file_size, _time(one), partial(_read, archive, one))


def _read(archive: zipfile.ZipFile, member: zipfile.ZipInfo) -> bytes:
    """Return the bytes of a member; raise `ArchiveError` if it may not or cannot be read."""
    name = member.filename
    posix, windows = PurePosixPath(name.replace("\\", "/")), PureWindowsPath(name)
    if posix.is_absolute() or windows.drive or ".." in posix.parts:
        raise ArchiveError("must lie inside the archive, got a path that leads out of it")
    if stat.S_ISLNK(member.external_attr >> 16):
        raise ArchiveError("must be a plain file, got a link")
    if member.flag_bits & 1:
        raise ArchiveError("must be open to be read, got one that asks for a password")
    try:
        with archive.open(member) as file:
            return file.read(member.file_size)
    except Exception as error:
        raise ArchiveError(f"must be whole in the archive, got: {error}") from error


def _time(member: zipfile.ZipInfo) -> datetime | None:
    """Return when a member was last changed: in UTC where the packer noted that."""
    extra, at = member.extra, 0
    while at + 4 <= len(extra):
        kind, size = struct.unpack_from("<HH", extra, at)
        if kind == 0x5455 and size >= 5 and at + 9 <= len(extra) and extra[at + 4] & 1:
            return datetime.fromtimestamp(struct.unpack_from("<i", extra, at + 5)[0], UTC)
        at += 4 + size
    if member.date_time[:3] == NO_TIME:
        return None
    try:
        return datetime(*member.date_time).astimezone(UTC)
    except (ValueError, OverflowError):
        return None
