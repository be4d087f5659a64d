"""A warm interpreter that forks one process a notebook: ``python -m fuelmarks.runner.server``.

Standard input is a socket. Each message on it carries the limits, the slow libraries that will be
asked for, and one end of a channel; the answer carries a handle (pidfd) of the new process. The
server never runs a notebook's code and holds nothing but the modules a notebook may import.
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
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import NoReturn

import fuelcircuits

from fuelmarks.runner import isolation
from fuelmarks.runner.child import converse
from fuelmarks.runner.limits import Limits
from fuelmarks.runner.needs import SIGNS
from fuelmarks.runner.seccomp import forbid_system_calls
from fuelmarks.runner.shell import Shell, new_shell

__all__ = ["main"]

_WARM = ("asyncio", "numpy", "pint")
_REHEARSAL = (
    "from fuelcircuits.quantities.units import Q\nQ(1.5, 'psi').to('inHg')",
    "1 / 0",
    "!true",
)
_PLOTTING = "import matplotlib.pyplot as plt\n%matplotlib inline\nplt.plot([0, 1])"


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
        asked = json.loads(message)
        _load(shell, asked["needs"])
        _start(control, channel, shell, Limits(**asked["limits"]), confined)
        channel.close()


def _warm_up() -> Shell:
    """Import and use once what most notebooks use."""
    for name in _WARM:
        importlib.import_module(name)
    with _held_back(SIGNS):
        _import_ours()
    shell = new_shell()
    _rehearse(shell, _REHEARSAL)
    return shell


def _load(shell: Shell, names: Iterable[str]) -> None:
    """Import those of the slow libraries that will be asked for, and of ours what needs them."""
    new = [name for name in names if name in SIGNS and name not in sys.modules]
    if not new:
        return
    for name in new:
        with contextlib.suppress(Exception):
            importlib.import_module(name)
    with _held_back(name for name in SIGNS if name not in sys.modules):
        _import_ours()
    if "matplotlib.pyplot" in new:
        _paint_nothing()
        _rehearse(shell, (_PLOTTING,))


@contextmanager
def _held_back(names: Iterable[str]) -> Iterator[None]:
    """Let nobody import the libraries of these modules meanwhile."""
    tops = {name.partition(".")[0] for name in names} - sys.modules.keys()
    sys.modules.update(dict.fromkeys(tops))  # type: ignore[arg-type]
    try:
        yield
    finally:
        for name in tops:
            del sys.modules[name]


def _import_ours() -> None:
    """Import what notebooks may ask of us; a module that fails here fails in the notebook."""
    for module in pkgutil.walk_packages(fuelcircuits.__path__, "fuelcircuits.", _pass_over):
        with contextlib.suppress(Exception):
            importlib.import_module(module.name)


def _pass_over(name: str) -> None:
    """Leave a package that cannot be imported to whoever asks for it."""


def _paint_nothing() -> None:
    """Let figures be made and saved, but blank: no mark hangs on paint, and half the time does."""
    setattr(sys.modules["matplotlib.figure"].Figure, "draw", lambda *_: None)  # noqa: B010


def _rehearse(shell: Shell, cells: Iterable[str]) -> None:
    """Run cells once: first uses are paid for before a fork, and all of it is kept for good."""
    with open(os.devnull, "w") as nowhere, contextlib.redirect_stdout(nowhere):
        for source in cells:
            shell.run_cell(source, store_history=True)  # type: ignore[no-untyped-call]
    shell.reset(new_session=True)  # type: ignore[no-untyped-call]
    shell.execution_count = 1
    gc.collect()
    gc.freeze()


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
