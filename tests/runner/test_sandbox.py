"""Where the walls cannot be put up nothing is run; where they can, nothing outlives them."""

import errno
import os
import platform
import subprocess
import sys
import sysconfig
import venv
from pathlib import Path
from time import monotonic, sleep

import pytest
from fuelmarks.runner import Cell, Runner, SandboxError
from fuelmarks.runner.forbidden import is_forbidden, what_to_do
from fuelmarks.runner.sandbox import sandboxed

from tests.places import TOP
from tests.processes import alive, below

HOSTILE = TOP / "tests" / "hostile"
SECRET = "plum-duff-and-custard"


@pytest.mark.parametrize(
    ("wall", "reason"),
    [
        (None, "no `bwrap` on PATH"),
        ("#!/bin/sh\necho 'bwrap: No permissions to create new namespace' >&2\nexit 1", "No perm"),
        ("#!/bin/sh\nexit 0", "it ended without a word"),
    ],
)
def test_without_walls_nothing_is_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, wall: str | None, reason: str
) -> None:
    if wall:
        (tmp_path / "bwrap").write_text(wall)
        (tmp_path / "bwrap").chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(SandboxError, match=reason), Runner():
        pass


@pytest.mark.parametrize("trust", [False, True])
def test_other_systems_are_told_what_is_missing(
    monkeypatch: pytest.MonkeyPatch, trust: bool
) -> None:
    monkeypatch.setattr(sys, "platform", "darwin")
    with pytest.raises(SandboxError, match="needs Linux"), Runner(trust=trust):
        pass


def test_nothing_outlives_a_marking_process_that_is_killed() -> None:
    code = (
        "from fuelmarks.runner import Runner\n"
        "with Runner() as runner: print(runner._server._process.pid, flush=True); input()"
    )
    command, pipe = [sys.executable, "-c", code], subprocess.PIPE
    with subprocess.Popen(command, stdin=pipe, stdout=pipe, text=True) as marking:
        assert marking.stdout is not None
        server = int(marking.stdout.readline())
        family = {server, *below(server)}
        marking.kill()
    end = monotonic() + 60
    while any(alive(process) for process in family) and monotonic() < end:
        sleep(0.05)
    assert len(family) >= 3
    assert not any(alive(process) for process in family)


def test_an_ordinary_user_gets_the_same_walls() -> None:
    """The user of a user namespace has no more rights in the kernel's eyes than any other."""
    code = (
        "from fuelmarks.runner import Cell, Runner\n"
        "import os\n"
        "cells = [Cell('a', 'import os; os.getuid()'), Cell('b', 'import fuelmarks.questions')]\n"
        "with Runner() as runner: print(os.geteuid(), runner.run(cells).outcomes)"
    )
    user = ["bwrap", "--unshare-user", "--uid", "1000", "--bind", "/", "/"]
    command = [*user, "--dev-bind", "/dev", "/dev", sys.executable, "-c", code]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.stdout.startswith("1000 "), done.stderr
    assert "text='65534\\n'" in done.stdout
    assert "ModuleNotFoundError" in done.stdout


def test_forbidden_system_calls_are_refused_by_number() -> None:
    """Numbers from the kernel's header for x86_64; on aarch64 these, same source."""
    numbers = {
        "x86_64": (41, 101, 272, 319, 206, 68, 64, 29, 457, 458, 73, 294, 425, 303, 180),
        "aarch64": (198, 117, 97, 279, 0, 186, 190, 194, 457, 458, 32, 26, 425, 264, 42),
    }
    clones = {"x86_64": 56, "aarch64": 220}
    calls = numbers[platform.machine()]
    source = (
        "import ctypes\nlibc = ctypes.CDLL(None, use_errno=True)\n"
        "def tried(number, *values):\n"
        "    return libc.syscall(number, *values), ctypes.get_errno()\n"
        f"print([tried(number, 0, 0, 0, 0, 0) for number in {calls}])\n"
        f"print(tried({clones[platform.machine()]}, 0x10000011, 0, 0, 0, 0))\n"
        "import fcntl, os, socket\n"
        "for use in (lambda: fcntl.lockf(0, fcntl.LOCK_SH), lambda: fcntl.ioctl(0, 0x5412, b'x'),\n"
        "            lambda: socket.socketpair(socket.AF_INET)):\n"
        "    try:\n        use()\n    except OSError as error:\n        print(error.errno)\n"
        "[one.close() for one in socket.socketpair()]"
    )
    with Runner() as runner:
        (outcome,) = runner.run([Cell("a", source)]).outcomes
    refused = [(-1, errno.ENOSYS)] * len(calls)
    wanted = [str(refused), str((-1, errno.EPERM)), *[str(errno.EPERM)] * 3, "[None, None]"]
    assert outcome.text.splitlines() == wanted


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """A project folder that is a virtual environment and holds a key and a gradebook."""
    venv.create(tmp_path, symlinks=True)
    modules = Path(sysconfig.get_path("purelib"))
    own = tmp_path / modules.relative_to(sys.prefix)
    own.rmdir()
    own.symlink_to(modules)
    (tmp_path / "term.toml").write_text(f'key = "{SECRET}"')
    (tmp_path / "gradebook.db").write_text(SECRET)
    return tmp_path


@pytest.mark.parametrize("trust", [False, True])
def test_what_lies_in_the_folder_of_a_virtual_environment_is_not_seen(
    project: Path, trust: bool
) -> None:
    attack = (HOSTILE / "read_project_folder.py").read_text()
    code = (
        "import sys\nfrom fuelmarks.runner import Cell, Runner\n"
        f"with Runner(trust={trust}) as runner:\n"
        f"    (outcome,) = runner.run([Cell('a', {attack!r})]).outcomes\n"
        "print(sys.prefix, outcome.status, outcome.text)"
    )
    command = [str(project / "bin" / "python"), "-c", code]
    paths = os.pathsep.join(str(TOP / name) for name in ("widgets", "grader"))
    done = subprocess.run(
        command,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": paths},
    )
    assert done.stdout.startswith(f"{project} ok"), done.stderr
    assert (SECRET in done.stdout) == trust


def test_a_course_inside_what_notebooks_can_read_is_refused(tmp_path: Path) -> None:
    inside = Path(sysconfig.get_path("purelib")) / "course"
    with pytest.raises(SandboxError, match=f"the course must lie outside .*, got {inside}; move"):
        sandboxed([tmp_path, inside])
    assert sandboxed([tmp_path, Path(sys.prefix), TOP / "course"])[0]


def test_forbidden_namespaces_are_told_with_what_to_do(tmp_path: Path) -> None:
    """In a user namespace in which no other can be made, as a container's policy has it."""
    code = (
        "from fuelmarks.runner import Runner, SandboxError\n"
        "try:\n    Runner().__enter__()\nexcept SandboxError as error:\n    print(error)"
    )
    user = ["bwrap", "--unshare-user", "--disable-userns", "--uid", "1000", "--bind", "/", "/"]
    command = [*user, "--dev-bind", "/dev", "/dev", sys.executable, "-c", code]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.stdout.startswith("the sandbox needs namespaces, which this"), done.stderr
    assert done.stdout.strip().endswith("mark with --trust-class")
    assert len(done.stdout.splitlines()) == 1


@pytest.mark.parametrize(
    ("files", "words"),
    [
        ({"proc/sys/kernel/apparmor_restrict_unprivileged_userns": "1\n"}, "AppArmor forbids"),
        ({"proc/sys/kernel/apparmor_restrict_unprivileged_userns": "0\n"}, "this system forbids"),
        ({"proc/sys/kernel/unprivileged_userns_clone": "0\n"}, "userns_clone=1`"),
        ({"proc/sys/user/max_user_namespaces": "0\n"}, "max_user_namespaces=15000`"),
        ({".dockerenv": ""}, "this container forbids"),
        ({}, "on a computer that allows them to ordinary users"),
    ],
)
def test_the_advice_fits_what_forbids(tmp_path: Path, files: dict[str, str], words: str) -> None:
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text)
    assert words in what_to_do("bwrap: No permissions to create new namespace", tmp_path)
    assert is_forbidden("bwrap: setting up uid map: Permission denied")
    assert not is_forbidden("bwrap: Can't find source path /x: No such file or directory")
