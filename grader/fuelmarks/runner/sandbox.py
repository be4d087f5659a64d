"""The outer wall: the command that starts the fork server where there is nothing to find.

Bubblewrap gives it no network, an empty file system with the Python installation and the modules
a notebook may import (read only), and no privileges. The folder of exercises, the course, the
gradebook and every submission are simply not there. Root becomes nobody inside; an ordinary user
gets a user namespace.
"""

import os
import shutil
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import fuelcircuits

import fuelmarks

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


def sandboxed() -> tuple[list[str], dict[str, str]]:
    """Return command and environment of a server inside bubblewrap, or raise `SandboxError`."""
    _need_linux()
    wall = shutil.which("bwrap")
    if wall is None:
        raise SandboxError("the sandbox needs bubblewrap: no `bwrap` on PATH")
    inside = [*_namespaces(), *_libraries(), *_python(), *_modules(), *_finish()]
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
    """Bind the installation, but nothing of this package that may lie in it."""
    prefixes = [Path(p) for p in dict.fromkeys([sys.base_prefix, sys.prefix])]
    for prefix in prefixes:
        yield from _bind(prefix, _seen(prefix))
    if any(_home(fuelmarks).is_relative_to(prefix) for prefix in prefixes):
        yield from ("--tmpfs", str(_seen(_home(fuelmarks))))


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
    for folder in reversed(target.parents[:-1]):
        yield from ("--perms", "0755", "--dir", str(folder))
    yield from ("--ro-bind", str(source), str(target))


def _finish() -> Sequence[str]:
    mounts = ["--proc", "/proc", "--dev", "/dev", "--perms", "1777", "--tmpfs", "/tmp"]
    return [*mounts, "--remount-ro", "/dev", "--remount-ro", "/", "--chdir", "/"]


def _home(package: object) -> Path:
    return Path(str(getattr(package, "__file__", ""))).resolve().parent
