"""The outer wall: the command that starts the fork server where there is nothing to find.

Bubblewrap gives it no network, an empty file system with the interpreter and the modules a
notebook may import (read only), and no privileges. The folder of exercises, the course, the
gradebook and every submission are simply not there, wherever a virtual environment lies. Root
becomes nobody inside; an ordinary user gets a user namespace.
"""

import os
import shutil
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

import fuelcircuits

import fuelmarks
from fuelmarks.runner.installation import installation

__all__ = ["SandboxError", "environment", "sandboxed", "trusted"]

_LIBRARIES = ("/lib", "/lib32", "/lib64", "/libx32", "/usr/lib", "/usr/lib32", "/usr/lib64")
_INSIDE = Path("/modules")
_VENV = Path("/environment")
_SERVER = ("-s", "-m", "fuelmarks.runner.server")


class SandboxError(Exception):
    """Notebooks cannot be run safely here; the message says what is missing."""


def environment() -> dict[str, str]:
    """Return the whole environment of the fork server; nothing of the caller's is handed on."""
    return {
        "LANG": "C.UTF-8",
        "MPLBACKEND": "agg",
        "OMP_NUM_THREADS": "1",
        "OPENBLAS_NUM_THREADS": "1",
        "PATH": "",
        "PYTHONDONTWRITEBYTECODE": "1",
        "PYTHONPATH": str(_INSIDE),
        "PYTHONSAFEPATH": "1",
    }


def trusted() -> tuple[list[str], dict[str, str]]:
    """Return command and environment of a server without walls, or raise `SandboxError`."""
    _need_linux()
    folders = {str(_home(package).parent) for package in (fuelcircuits, fuelmarks)}
    return [sys.executable, *_SERVER], {**environment(), "PYTHONPATH": os.pathsep.join(folders)}


def sandboxed(hidden: Iterable[Path] = ()) -> tuple[list[str], dict[str, str]]:
    """Return command and environment of a server inside bubblewrap.

    Raises `SandboxError` if there is no bubblewrap, or if one of the `hidden` folders would be
    seen inside.
    """
    _need_linux()
    wall = shutil.which("bwrap")
    if wall is None:
        raise SandboxError("the sandbox needs bubblewrap: no `bwrap` on PATH")
    inside = [*_namespaces(), *_libraries(), *_python(), *_modules(), *_finish()]
    _check_hidden(inside, hidden)
    return [
        wall,
        *inside,
        "--",
        str(_seen(Path(sys.executable))),
        *_SERVER,
        "confined",
    ], environment()


def _need_linux() -> None:
    if not sys.platform.startswith("linux"):
        raise SandboxError(f"the runner needs Linux (on Windows: WSL), this is {sys.platform}")


def _namespaces() -> list[str]:
    common = ["--die-with-parent", "--new-session", "--cap-drop", "ALL", "--hostname", "bench"]
    if os.geteuid() != 0:
        return [*common, "--unshare-all", "--uid", "65534", "--gid", "65534"]
    spaces = [f"--unshare-{kind}" for kind in ("ipc", "pid", "net", "uts", "cgroup-try")]
    return [*common, *spaces, "--cap-add", "CAP_SETUID", "--cap-add", "CAP_SETGID"]


def _libraries() -> Iterator[str]:
    for name in _LIBRARIES:
        folder = Path(name)
        if folder.is_symlink():
            yield from ("--symlink", os.readlink(folder), name)
        elif folder.is_dir():
            yield from _bind(folder, folder)
    yield from ("--ro-bind-try", "/etc/ld.so.cache", "/etc/ld.so.cache")


def _python() -> Iterator[str]:
    """Bind the interpreter, its library and the installed modules, and nothing of this package."""
    for path in installation():
        yield from _bind(path, _seen(path))
    executable = Path(sys.executable)
    if executable.is_symlink() and executable != Path(os.path.realpath(executable)):
        yield from _folders(_seen(executable))
        yield from ("--symlink", os.path.realpath(executable), str(_seen(executable)))
    graders = _home(fuelmarks)
    if any(graders.is_relative_to(path) for path in installation()):
        yield from ("--tmpfs", str(_seen(graders)))


def _check_hidden(command: Sequence[str], hidden: Iterable[Path]) -> None:
    """Raise `SandboxError` if a folder of `hidden` lies below anything that `command` binds."""
    sources = [Path(command[at + 1]) for at, word in enumerate(command) if word == "--ro-bind"]
    for folder in hidden:
        for source in sources:
            if folder.resolve().is_relative_to(source.resolve()):
                raise SandboxError(
                    f"the course must lie outside {source}, which notebooks can read, "
                    f"got {folder}; move it, or mark with a Python that lies elsewhere"
                )


def _seen(path: Path) -> Path:
    """Return where `path` stands inside: a virtual environment moves, it may lie below /tmp."""
    if sys.prefix == sys.base_prefix or not path.is_relative_to(sys.prefix):
        return path
    return _VENV / path.relative_to(sys.prefix)


def _modules() -> Iterator[str]:
    graders = _home(fuelmarks)
    for source, name in (
        (_home(fuelcircuits), "fuelcircuits"),
        (graders / "__init__.py", "fuelmarks/__init__.py"),
        (graders / "runner", "fuelmarks/runner"),
    ):
        yield from _bind(source, _INSIDE / name)


def _bind(source: Path, target: Path) -> Iterator[str]:
    """Show `source` as `target`, below folders that anyone may pass through."""
    yield from _folders(target)
    yield from ("--ro-bind", str(source), str(target))


def _folders(target: Path) -> Iterator[str]:
    """Make the folders above `target`."""
    for folder in reversed(target.parents[:-1]):
        yield from ("--perms", "0755", "--dir", str(folder))


def _finish() -> Sequence[str]:
    mounts = ["--proc", "/proc", "--dev", "/dev", "--perms", "1777", "--tmpfs", "/tmp"]
    return [*mounts, "--remount-ro", "/dev", "--remount-ro", "/", "--chdir", "/"]


def _home(package: object) -> Path:
    return Path(str(getattr(package, "__file__", ""))).resolve().parent
