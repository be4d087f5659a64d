"""Start and stop a class server, and find out whether it runs, and as what it was started."""

import hashlib
import os
import shutil
import signal
import socket
import ssl
import subprocess
import time
import urllib.request
from pathlib import Path

from fuelmarks.course.whole_file import put_whole
from fuelmarks.server import accounts, systemd
from fuelmarks.server.class_server import ClassServer, ServerError
from fuelmarks.server.environments import DONE
from fuelmarks.server.hub import only_root

__all__ = ["note_start", "process_of", "remove", "runs", "start", "stop"]

READY_WITHIN, ENDED_WITHIN = 90.0, 60.0


def start(server: ClassServer) -> None:
    """Start the server and wait until it answers; one that runs as it is told to is left alone."""
    only_root()
    for path in filter(None, (server.certificate, server.certificate_key)):
        if not Path(path).is_file():
            raise ServerError(f"certificate and its key must be files, got no file {path}")
    if not _runs_as_told(server):
        stop(server)
    elif runs(server):
        return
    if systemd.here():
        subprocess.run(["systemctl", "start", systemd.NAME], check=True)
    else:
        _start_alone(server)
    until = time.monotonic() + READY_WITHIN
    while not runs(server) or (server.forks and not _template_answers(server)):
        if time.monotonic() > until or not (systemd.here() or process_of(server)):
            log = server.root / "hub" / "hub.log"
            said = "\n".join(log.read_text(errors="replace").splitlines()[-6:])
            stop(server)
            raise ServerError(
                f"the hub must answer at {server.front}, got none; {log} ends:\n{said}"
            )
        time.sleep(0.2)


def note_start(server: ClassServer) -> None:
    """Note as what the server starts; the hub itself says so, whoever starts it."""
    put_whole(_started_as(server), _all_that_counts(server))


def _runs_as_told(server: ClassServer) -> bool:
    """Return whether what was started last was told the same, in the same environments."""
    noted = _started_as(server)
    return not noted.exists() or noted.read_bytes() == _all_that_counts(server)


def _all_that_counts(server: ClassServer) -> bytes:
    made = [server.root / name / DONE for name in ("trainees", "staff", "proxy")]
    digests = [path.read_bytes() for path in made if path.exists()]
    return hashlib.sha256(repr((server, digests)).encode()).hexdigest().encode()


def _started_as(server: ClassServer) -> Path:
    return server.root / "hub" / "started-as"


def stop(server: ClassServer) -> None:
    """Stop the server with all it started; what is on the disk stays."""
    only_root()
    if systemd.here():
        subprocess.run(["systemctl", "stop", systemd.NAME], check=False)
        return
    process = process_of(server)
    if not process:
        return
    os.kill(process, signal.SIGTERM)
    until = time.monotonic() + ENDED_WITHIN
    while process_of(server) and time.monotonic() < until:
        time.sleep(0.1)
    if process_of(server):
        os.killpg(process, signal.SIGKILL)
    _pid(server).unlink(missing_ok=True)


def runs(server: ClassServer) -> bool:
    """Return whether the hub answers, with its exchange."""
    trusting = ssl._create_unverified_context() if server.certificate else None
    for page in ("/hub/health", "/services/exchange/health"):
        try:
            with urllib.request.urlopen(server.front + page, timeout=3, context=trusting):
                pass
        except OSError:
            return False
    return True


def _template_answers(server: ClassServer) -> bool:
    """Return whether the trainees' template has imported all it needs, and listens."""
    with socket.socket(socket.AF_UNIX) as line:
        return line.connect_ex(str(server.template)) == 0


def remove(
    server: ClassServer, *, with_accounts: bool = False, with_work: bool = False
) -> list[str]:
    """Take the server off this computer; accounts and what was handed in only if that is said.

    Returns the accounts that stay though ours go, since this computer had them before. The user
    to whom the exchange belongs goes with what was handed in, and our groups with the last in them.
    """
    stop(server)
    systemd.remove()
    left = accounts.remove_accounts() if with_accounts else []
    for name in ("trainees", "staff", "proxy", "wheels", "hub"):
        shutil.rmtree(server.root / name, ignore_errors=True)
    if with_work:
        shutil.rmtree(server.root)
        accounts.remove_groups()
    return left


def _start_alone(server: ClassServer) -> None:
    """Start the hub as a process of its own, where there is no systemd."""
    kept = server.root / "hub"
    program = server.program("staff", "python")
    path = f"{Path(program).parent}:{os.environ['PATH']}"
    with (kept / "hub.log").open("ab") as log:
        hub = subprocess.Popen(
            [program, "-m", "jupyterhub", "-f", str(systemd.config_of(server))],
            cwd=kept,
            env={"FUELCIRCUITS_SERVER": str(server.root), "PATH": path, "LANG": "C.UTF-8"},
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=log,
            start_new_session=True,
        )
    put_whole(_pid(server), f"{hub.pid}\n".encode(), 0o600)


def _pid(server: ClassServer) -> Path:
    return server.root / "hub" / "hub.pid"


def process_of(server: ClassServer) -> int:
    """Return the hub's process, 0 if it has ended; another that has its number now is none."""
    try:
        number = int(_pid(server).read_text())
        words = Path(f"/proc/{number}/cmdline").read_bytes().split(b"\0")
        state = Path(f"/proc/{number}/stat").read_text().rpartition(") ")[2][0]
    except (OSError, ValueError):
        return 0
    return number if b"jupyterhub" in words and state != "Z" else 0
