"""The template: it imports everything once, and becomes two for each that asks.

There are two kinds of it. The first is root's. It is started with an empty environment, and never
reads what is asked: the new process does that, takes the trainee's account, and lets go of all
that it could still write to. It has become that trainee's own template, which forks his server and
then his kernels. So no process of root's hears a trainee, and nothing of one is in the memory that
the next begins with.
"""

import gc
import grp
import importlib
import json
import os
import pwd
import random
import selectors
import signal
import socket
import sys
import time
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

import ipywidgets
from ipykernel.kernelapp import IPKernelApp
from jupyterhub.singleuser.extension import main as server_main
from jupyterlab.commands import get_user_settings_dir, get_workspaces_dir

__all__ = ["LOADED", "Template", "main"]

GROUP = "fuelcircuits"
LOG, SOCKET = "server.log", "template.sock"
LARGEST = 1 << 20
GRACE = 2.0
"""How long kernels have to end once their server has ended [s]."""
LOADED = (
    *("jupyterlab.labapp", "jupyterlab_server.handlers"),
    *("nbgrader.apps.baseapp", "nbgrader.server_extensions.assignment_list.handlers"),
    *("jupyter_server_terminals.app", "jupyter_server.gateway.managers", "own_exchange"),
    *("own_forks.kernels", "ipykernel.ipkernel"),
    *("ipykernel.zmqshell", "IPython.core.completer", "jupyter_server.services.kernels.websocket"),
)
"""What servers and kernels import, but `fuelcircuits`, whose public names are all looked up."""
NOTES_HOME = ("send2trash.plat_other",)
"""Modules that look for the home's folders when they are imported; `LabApp` does so too."""


class Template:
    """A process that becomes two whenever somebody asks at `where`.

    Whoever asks sends a line of JSON. He gets the number of the new process, and its exit status
    once it has ended.
    """

    def __init__(self, where: Path) -> None:
        where.unlink(missing_ok=True)
        self.listener = socket.socket(socket.AF_UNIX)
        before = os.umask(0o177)
        self.listener.bind(str(where))
        os.umask(before)
        self.listener.listen(128)
        self.waiting = selectors.PollSelector()
        self.waiting.register(self.listener, selectors.EVENT_READ)
        self.children: dict[int, tuple[int, socket.socket | None]] = {}

    def serve(self, until: int) -> dict[str, Any] | None:
        """Answer until process `until` ends; return None then, in a new one what was asked."""
        ends = self._handle_of(until)
        while ends in self.waiting.get_map():
            for key, _ in self.waiting.select():
                if key.fileobj is self.listener:
                    line, _ = self.listener.accept()
                    if not self.fork(line):
                        return _asked(line)
                elif key.fd in self.children:
                    self._reap(key.fd)
                else:
                    self.waiting.unregister(key.fd)
        return None

    def fork(self, line: socket.socket | None = None) -> int:
        """Become two; return 0 in the new process, and its number in the old one."""
        number = os.fork()
        if number:
            handle = os.pidfd_open(number)
            self.children[handle] = (number, line)
            self.waiting.register(handle, selectors.EVENT_READ)
            return number
        for _, other in self.children.values():
            if other:
                other.detach()
        self.children.clear()
        self.listener.detach()
        _let_go(line)
        _forget_signals()
        _draw_anew()
        return 0

    def end(self) -> None:
        """End what was forked: first by asking, then without."""
        self.listener.close()
        for sign, patience in ((signal.SIGTERM, GRACE), (signal.SIGKILL, GRACE)):
            for number, _ in self.children.values():
                _send(number, sign)
            until = time.monotonic() + patience
            while self.children and time.monotonic() < until:
                for key, _ in self.waiting.select(0.1):
                    self._reap(key.fd)

    def _reap(self, handle: int) -> None:
        """Tell whoever asked for a process how it ended."""
        if handle not in self.children:
            return
        number, line = self.children.pop(handle)
        self.waiting.unregister(handle)
        os.close(handle)
        status = os.waitstatus_to_exitcode(os.waitpid(number, 0)[1])
        if line:
            with line, suppress(OSError):  # perhaps nobody looks after it any longer
                line.sendall(f"{status}\n".encode())

    def _handle_of(self, process: int) -> int:
        """Return the handle that tells of the end of a process, of a child or another."""
        for handle, (number, _) in self.children.items():
            if number == process:
                return handle
        handle = os.pidfd_open(process)
        self.waiting.register(handle, selectors.EVENT_READ)
        return handle


def main() -> None:
    """Be root's template at the place that is named; the parent's end is its own."""
    os.umask(0o022)
    parent = os.getppid()
    load()
    if len(threads := os.listdir("/proc/self/task")) > 1:
        raise RuntimeError(f"a template must have one thread, got {len(threads)}")
    gc.collect()
    gc.freeze()
    asked = Template(Path(sys.argv[1])).serve(until=parent)
    if asked is not None:
        own(asked)


def load() -> None:
    """Import all that servers and kernels need."""
    for name in LOADED:
        importlib.import_module(name)
    course = importlib.import_module("fuelcircuits")
    for name in course.__all__:
        getattr(course, name)


def own(asked: Mapping[str, Any]) -> None:
    """Become the template of one trainee, who gets a server, and kernels as that asks for them."""
    become(asked["account"])
    take(asked)
    runtime = Path(os.environ["JUPYTER_RUNTIME_DIR"])
    runtime.mkdir(mode=0o700, exist_ok=True)
    _write_to(runtime / LOG)
    os.environ["FUELCIRCUITS_TEMPLATE"] = str(runtime / SOCKET)
    template = Template(runtime / SOCKET)
    server = template.fork()
    if not server:
        run_server(asked["arguments"])
        return
    for sign in (signal.SIGINT, signal.SIGTERM):
        signal.signal(sign, lambda number, _: _send(server, number))
    kernel = template.serve(until=server)
    if kernel is not None:
        take(kernel)
        run_kernel(kernel["arguments"])
        return
    template.end()


def become(name: str) -> None:
    """Take the rights of a trainee's account, for good; refuse every other."""
    account = pwd.getpwnam(name)
    if account.pw_uid == 0 or name not in grp.getgrnam(GROUP).gr_mem:
        raise PermissionError(f"account must be one of group {GROUP}, got {name!r}")
    os.initgroups(name, account.pw_gid)
    os.setgid(account.pw_gid)
    os.setuid(account.pw_uid)


def take(asked: Mapping[str, Any]) -> None:
    """Take folder and environment as they are asked for, and nothing of what was there."""
    os.environ.clear()
    os.environ.update(asked["environment"])
    os.environ["JPY_PARENT_PID"] = str(os.getppid())
    time.tzset()
    os.chdir(asked["folder"])


def run_server(arguments: list[str]) -> None:
    """Be a trainee's server; what was noted of a home at the import is put right."""
    for name in NOTES_HOME:
        importlib.reload(sys.modules[name])
    places = (
        f"--LabApp.user_settings_dir={get_user_settings_dir()}",
        f"--LabApp.workspaces_dir={get_workspaces_dir()}",
    )
    sys.argv = ["jupyterhub-singleuser", *places, *arguments]
    server_main()


def run_kernel(arguments: list[str]) -> None:
    """Be a trainee's kernel; widgets were imported before there was one, so it is told of them."""
    sys.argv = ["ipykernel_launcher", *arguments]
    app: Any = IPKernelApp.instance()
    app.initialize(arguments)
    ipywidgets.register_comm_target()
    app.start()


def _asked(line: socket.socket) -> dict[str, Any]:
    """Return what the new process is asked for; say its number, and let go of the line."""
    os.setsid()
    with line, line.makefile("rb") as heard:
        said = heard.readline(LARGEST)
        if not said:  # somebody wanted to know whether anybody is here
            os._exit(0)
        told: dict[str, Any] = json.loads(said)
        line.sendall(f"{os.getpid()}\n".encode())
    return told


def _let_go(line: socket.socket | None) -> None:
    """Close everything that was open in the old process, but `line` and what it says."""
    kept = line.fileno() if line else -1
    for number in map(int, os.listdir("/proc/self/fd")):
        if number > 2 and number != kept:
            with suppress(OSError):  # the list's own
                os.close(number)


def _send(process: int, sign: int) -> None:
    """Send a signal to a process, if there still is one."""
    with suppress(ProcessLookupError):
        os.kill(process, sign)


def _forget_signals() -> None:
    """Take signals as a process does that has just begun."""
    signal.signal(signal.SIGINT, signal.default_int_handler)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)


def _draw_anew() -> None:
    """Begin each process with a random state of its own."""
    random.seed()
    if numpy := sys.modules.get("numpy"):
        numpy.random.seed()


def _write_to(path: Path) -> None:
    """Write from now on into a file of one's own, not into the hub's log."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | os.O_NOFOLLOW
    handle = os.open(path, flags, 0o600)
    for number in (1, 2):
        os.dup2(handle, number)
    os.close(handle)


if __name__ == "__main__":
    main()
