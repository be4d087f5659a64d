"""A warm interpreter that forks one process a notebook: ``python -m fuelmarks.runner.server``.

Standard input is a socket. The first message on it holds what is to be rehearsed: cells that were
handed out, run once before the first fork, so that whatever they load or work out is there for
every notebook after them. Each later one carries the limits, the slow libraries that will be asked
for, and one end of a channel; the answer carries a handle (pidfd) of the new process. The server
never runs what a trainee wrote, and holds nothing but what a notebook may import.
"""

import contextlib
import gc
import importlib
import json
import os
import signal
import socket
import sys
import tempfile
from collections.abc import Iterable, Iterator
from time import monotonic
from typing import NoReturn

from fuelcircuits.answer_sheet.sheet import forget

from fuelmarks.runner import isolation
from fuelmarks.runner.child import converse
from fuelmarks.runner.limits import Limits
from fuelmarks.runner.needs import SIGNS
from fuelmarks.runner.protocol import LONGEST_REHEARSAL
from fuelmarks.runner.seccomp import forbid_system_calls
from fuelmarks.runner.shell import Shell, new_shell

__all__ = ["main"]

_WARM = ("asyncio", "numpy")
_SMALL = ("from fuelcircuits import Q\nQ(1.5, 'psi').to('inHg')", "1 / 0")
_PLOTTING = "import matplotlib.pyplot as plt\n%matplotlib inline\nplt.plot([0, 1])"
_REHEARSAL_SECONDS = 10


def main() -> None:
    """Warm up, then fork until the other side goes away."""
    gc.disable()
    confined = sys.argv[1:] == ["confined"]
    if confined:
        isolation.step_down()
    with tempfile.TemporaryDirectory() as scratch:
        for name in ("HOME", "IPYTHONDIR", "MPLCONFIGDIR"):
            os.environ[name] = scratch
        control = socket.socket(fileno=os.dup(0))
        asked = json.loads(control.recv(LONGEST_REHEARSAL) or "{}")
        shell = _warm_up(asked.get("needs", ()), asked.get("cells", ()), scratch)
        _serve(control, shell, confined)


def _serve(control: socket.socket, shell: Shell, confined: bool) -> None:
    control.sendall(b"ready")
    while True:
        message, handles, _, _ = socket.recv_fds(control, 4096, 1)
        if not message:
            return
        channel = socket.socket(fileno=handles[0])
        asked = json.loads(message)
        _load(shell, asked["needs"])
        _start(control, channel, shell, Limits(**asked["limits"]), confined)
        channel.close()


def _warm_up(needs: Iterable[str], cells: Iterable[str], scratch: str) -> Shell:
    """Import and use once what most notebooks use, and what was handed out uses, in `scratch`."""
    for name in _WARM:
        importlib.import_module(name)
    shell = new_shell()
    _load(shell, needs)
    with contextlib.chdir(scratch):
        _rehearse(shell, (*_SMALL, *cells))
    return shell


def _load(shell: Shell, names: Iterable[str]) -> None:
    """Import those of the slow libraries that will be asked for."""
    new = [name for name in names if name in SIGNS and name not in sys.modules]
    for name in new:
        with contextlib.suppress(Exception):
            importlib.import_module(name)
    if "matplotlib.pyplot" in new:
        _paint_nothing()
        _rehearse(shell, (_PLOTTING,))


def _paint_nothing() -> None:
    """Let figures be made and saved, but blank: no mark hangs on paint, and half the time does."""
    setattr(sys.modules["matplotlib.figure"].Figure, "draw", lambda *_: None)  # noqa: B010


def _rehearse(shell: Shell, cells: Iterable[str]) -> None:
    """Run cells once, within a time, and forget what they did but for what they loaded."""
    end = monotonic() + _REHEARSAL_SECONDS
    with open(os.devnull, "w") as nowhere, contextlib.redirect_stdout(nowhere), _interrupted():
        for source in cells:
            if monotonic() < end:
                shell.run_cell(source, store_history=True)  # type: ignore[no-untyped-call]
    shell.reset(new_session=True)  # type: ignore[no-untyped-call]
    shell.execution_count = 1
    forget()
    gc.freeze()
    gc.enable()


@contextlib.contextmanager
def _interrupted() -> Iterator[None]:
    """Interrupt what takes too long, as one does in a notebook, and again every second."""
    signal.signal(signal.SIGALRM, signal.default_int_handler)
    signal.setitimer(signal.ITIMER_REAL, _REHEARSAL_SECONDS, 1.0)
    try:
        with contextlib.suppress(KeyboardInterrupt):
            yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, signal.SIG_DFL)


def _start(
    control: socket.socket, channel: socket.socket, shell: Shell, limits: Limits, confined: bool
) -> None:
    middle = os.fork()
    if middle == 0:
        _become_parent(control, channel, shell, limits, confined)
    if os.waitpid(middle, 0)[1] != 0:
        control.sendall(b"failed: no process could be started for a notebook")


def _become_parent(
    control: socket.socket, channel: socket.socket, shell: Shell, limits: Limits, confined: bool
) -> NoReturn:
    """Step into new namespaces and start the notebook's process as the first one in them."""
    try:
        if confined:
            isolation.own_namespaces()
        child = os.fork()
        if child == 0:
            control.close()
            _become_notebook(channel, shell, limits, confined)
        socket.send_fds(control, [b"started"], [os.pidfd_open(child)])
    except OSError as error:
        control.sendall(f"failed: {error}".encode())
    os._exit(0)


def _become_notebook(
    channel: socket.socket, shell: Shell, limits: Limits, confined: bool
) -> NoReturn:
    """Close everything but the channel, put up the walls, say so, and begin."""
    try:
        os.setsid()
        _keep_only(channel)
        isolation.limit(limits, count_processes=confined)
        if confined:
            isolation.cover(limits.scratch_bytes)
        os.chdir("/tmp" if confined else tempfile.mkdtemp(dir=os.environ["HOME"]))
        if confined:
            isolation.drop_privileges()
            forbid_system_calls()
    except BaseException as error:
        channel.sendall(f"failed: {error}\n".encode())
        os._exit(1)
    channel.sendall(b"ready\n")
    converse(channel, shell, limits)


def _keep_only(channel: socket.socket) -> None:
    nothing = os.open(os.devnull, os.O_RDWR)
    for standard in (0, 1, 2):
        os.dup2(nothing, standard)
    os.closerange(3, channel.fileno())
    os.closerange(channel.fileno() + 1, os.sysconf("SC_OPEN_MAX"))


if __name__ == "__main__":
    main()
