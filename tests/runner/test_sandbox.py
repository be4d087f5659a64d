"""Where the walls cannot be put up nothing is run; where they can, nothing outlives them."""

import errno
import platform
import subprocess
import sys
from pathlib import Path
from time import monotonic, sleep

import pytest
from fuelmarks.runner import Cell, Runner, SandboxError

from tests.processes import alive, below


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
    end = monotonic() + 10
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
    """Numbers from the kernel's header for x86_64; on aarch64 these four, same source."""
    numbers = {"x86_64": (41, 56, 101, 272, 319), "aarch64": (198, 220, 117, 97, 279)}
    calls = [(number, 0x10000011) for number in numbers[platform.machine()]]
    source = (
        "import ctypes\nlibc = ctypes.CDLL(None, use_errno=True)\n"
        f"[(libc.syscall(n, a, 0, 0, 0, 0), ctypes.get_errno()) for n, a in {calls}]"
    )
    with Runner() as runner:
        text = runner.run([Cell("a", source)]).outcomes[0].text
    assert text == f"{[(-1, errno.EPERM)] * 5}\n"
