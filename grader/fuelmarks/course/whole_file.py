"""Write a file so that at any moment the old one is there or the new one, and never half of it.

And open a stranger's file, which may be a link or a pipe.
"""

import errno
import os
from contextlib import suppress
from pathlib import Path

__all__ = ["open_strangers", "put_new", "put_whole", "settle_folder"]

FLAGS = ("O_BINARY", "O_NOFOLLOW", "O_NONBLOCK")
"""Asked for where a system has them: Windows has the first alone, others the rest."""


def put_whole(path: Path, data: bytes, mode: int = 0o644) -> None:
    """Put `data` at `path` in the place of whatever file lies there, and have it on the disk."""
    part = _written_beside(path, data, mode)
    os.replace(part, path)
    settle_folder(path.parent)


def put_new(path: Path, data: bytes, mode: int = 0o644) -> None:
    """Put `data` at `path`; raise `FileExistsError` if anything lies there."""
    part = _written_beside(path, data, mode)
    try:
        os.link(part, path)
    finally:
        part.unlink()
    settle_folder(path.parent)


def open_strangers(path: Path) -> int:
    """Return a handle to read the file at `path`: no link is followed, no pipe waited for."""
    if not hasattr(os, "O_NOFOLLOW") and path.is_symlink():
        raise OSError(errno.ELOOP, os.strerror(errno.ELOOP), str(path))
    return os.open(path, os.O_RDONLY | sum(getattr(os, name, 0) for name in FLAGS))


def settle_folder(folder: Path) -> None:
    """Have the names in `folder` on the disk, where the system can do that for folders."""
    with suppress(PermissionError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _written_beside(path: Path, data: bytes, mode: int) -> Path:
    """Return a file with `data` under another name; what an interrupted one left is replaced."""
    part = path.with_name(f".{path.name}.part")
    part.unlink(missing_ok=True)
    with part.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
    part.chmod(mode)
    return part
