"""A warm interpreter that forks one process a notebook: ``python -m fuelmarks.runner.server``.

Standard input is a socket. Each message on it carries the limits and one end of a channel; the
answer carries a handle (pidfd) of the new process. The server never runs a notebook's code and
holds nothing but the modules a notebook may import.
"""

import contextlib
import gc
import importlib
import json
import os
import pkgutil
import socket
import sys
import tempfile
from typing import NoReturn

import fuelcircuits

from fuelmarks.runner import isolation
from fuelmarks.runner.child import converse
from fuelmarks.runner.limits import Limits
from fuelmarks.runner.seccomp import forbid_system_calls
from fuelmarks.runner.shell import Shell, new_shell

__all__ = ["main"]

_WARM = ("asyncio", "numpy", "pint", "matplotlib.pyplot", "ipywidgets", "anywidget")
_REHEARSAL = (
    "from fuelcircuits.quantities.units import Q\nQ(1.5, 'psi').to('inHg')",
    "import matplotlib.pyplot as plt\n%matplotlib inline\nplt.plot([0, 1])",
    "1 / 0",
    "!true",
)


def main() -> None:
    """Warm up, then fork until the other side goes away."""
    confined = sys.argv[1:] == ["confined"]
    if confined:
        isolation.step_down()
    with tempfile.TemporaryDirectory() as scratch:
        for name in ("HOME", "IPYTHONDIR", "MPLCONFIGDIR"):
            os.environ[name] = scratch
        _serve(socket.socket(fileno=os.dup(0)), _warm_up(), confined)


def _serve(control: socket.socket, shell: Shell, confined: bool) -> None:
    control.sendall(b"ready")
    while True:
        message, handles, _, _ = socket.recv_fds(control, 4096, 1)
        if not message:
            return
        channel = socket.socket(fileno=handles[0])
        _start(control, channel, shell, Limits(**json.loads(message)), confined)
        channel.close()


def _warm_up() -> Shell:
    """Import and use once what notebooks use; a module that fails here fails in the notebook."""
    for name in _WARM:
        importlib.import_module(name)
    for module in pkgutil.walk_packages(fuelcircuits.__path__, "fuelcircuits.", _pass_over):
        with contextlib.suppress(Exception):
            importlib.import_module(module.name)
    shell = new_shell()
    _paint_nothing()
    _rehearse(shell)
    gc.collect()
    gc.freeze()
    return shell


def _pass_over(name: str) -> None:
    """Leave a package that cannot be imported to whoever asks for it."""


def _paint_nothing() -> None:
    """Let figures be made and saved, but blank: no mark hangs on paint, and half the time does."""
    setattr(sys.modules["matplotlib.figure"].Figure, "draw", lambda *_: None)  # noqa: B010


def _rehearse(shell: Shell) -> None:
    """Run every kind of cell once, so that first uses are paid for before the first fork."""
    with open(os.devnull, "w") as nowhere, contextlib.redirect_stdout(nowhere):
        for source in _REHEARSAL:
            shell.run_cell(source, store_history=True)  # type: ignore[no-untyped-call]
    shell.reset(new_session=True)  # type: ignore[no-untyped-call]
    shell.execution_count = 1


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
