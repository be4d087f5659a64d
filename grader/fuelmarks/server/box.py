"""A box for a class server that leaves nothing behind: accounts, folders and processes of its own.

Within it ``/etc`` is a copy and ``/srv`` a folder of the caller's, so accounts that are made there
are nobody's outside; when its first process ends, the kernel ends all the others with it. The
network is the computer's, so whoever stands outside can open what listens inside.
"""

import os
import shutil
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

from fuelmarks.server.class_server import ServerError

__all__ = ["HOMES", "INSIDE", "boxed", "check_box"]

INSIDE, HOMES = Path("/srv/fuelcircuits"), Path("/srv/home")
UNSHARE = ("unshare", "--mount", "--pid", "--fork", "--kill-child=SIGKILL", "--mount-proc")


def boxed(into: Path, command: Sequence[str]) -> list[str]:
    """Return the command that runs `command` in a box that keeps its files in `into`."""
    return [*UNSHARE, sys.executable, "-m", "fuelmarks.server.box", str(into.resolve()), *command]


def check_box() -> None:
    """Raise `ServerError` if this computer lets nobody make such a box."""
    done = subprocess.run([*UNSHARE, "true"], capture_output=True, text=True, check=False)
    if done.returncode:
        rule = "the demonstration must be run by root, where namespaces are allowed"
        raise ServerError(f"{rule}, got: {done.stderr.strip()}")


def _enter(into: Path, command: Sequence[str]) -> int:
    """Put the folders of the box in their places, run `command`, and return its exit status.

    This is the box's first process, so it also hears of the end of whatever has lost its parent.
    """
    shutil.rmtree(into / "etc", ignore_errors=True)
    subprocess.run(["cp", "--archive", "/etc", str(into / "etc")], check=True)
    for name in ("etc", "srv"):
        (into / name).mkdir(exist_ok=True)
        subprocess.run(["mount", "--bind", str(into / name), f"/{name}"], check=True)
    HOMES.mkdir(exist_ok=True)
    inside = os.posix_spawnp(command[0], list(command), os.environ)
    while True:
        ended, status = os.wait()
        if ended == inside:
            return os.waitstatus_to_exitcode(status)


if __name__ == "__main__":
    sys.exit(_enter(Path(sys.argv[1]), sys.argv[2:]))
