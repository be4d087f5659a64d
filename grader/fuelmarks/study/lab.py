"""JupyterLab for somebody who learns alone: quiet, logged to a file, at addresses that work.

What it needs is laid below ``.study`` in the learner's folder; settings of one's own stay where
they are. Nothing here needs Linux.
"""

import json
import os
import secrets
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from fuelmarks.study.progress import ProgressError
from fuelmarks.study.server import ADDRESS

__all__ = ["Lab", "begun", "is_root", "lab", "served"]

SETTINGS: Mapping[str, Mapping[str, object]] = {
    "@jupyterlab/apputils-extension:notification": {"checkForUpdates": False, "fetchNews": "false"},
    "@jupyter-widgets/jupyterlab-manager:plugin": {"saveState": True},
}
"""No news; and a saved notebook keeps what its simulators show."""
DISABLED = {"@jupyter/nbgrader": True}
"""Menus of nbgrader, which a learner has no use for."""
PORTS = range(50)
PATIENCE = 120.0
"""Seconds that the server may take to start on a busy computer."""


class Lab(NamedTuple):
    """A server that can be started: its command, its surroundings, its log and its addresses."""

    command: list[str]
    environment: dict[str, str]
    log: Path
    port: int
    alive: str
    """An address that only this very server answers: it asks for its token."""
    home: str
    unit: str
    """Address of the unit to go on with; that of the home if there is none."""


def lab(folder: Path, unit: str, port: int) -> Lab:
    """Return JupyterLab on `folder`, for this computer only, at `port` or the next one free.

    Raises
    ------
    ProgressError
        If no port is free.
    """
    own = folder / ".study"
    _lay_down(own)
    free, token = _free(port), secrets.token_hex(16)
    top = f"http://127.0.0.1:{free}"
    home = f"{top}{ADDRESS}?token={token}"
    there = f"{top}/lab/tree/{unit}/{unit}.ipynb?token={token}" if unit else home
    command = [
        *(sys.executable, "-m", "jupyterlab", "--no-browser", "-y"),
        f"--ServerApp.port={free}",
        "--ServerApp.port_retries=0",
        "--ServerApp.ip=127.0.0.1",
        f"--ServerApp.root_dir={folder}",
        "--ServerApp.jpserver_extensions=fuelmarks.study.server=True",
        f"--LabApp.app_settings_dir={own / 'settings'}",
        *(("--allow-root",) if is_root() else ()),
    ]
    environment = {
        **os.environ,
        "JUPYTER_TOKEN": token,
        "JUPYTER_CONFIG_PATH": os.pathsep.join(
            filter(None, [str(own / "config"), os.environ.get("JUPYTER_CONFIG_PATH", "")])
        ),
        "IPYTHONDIR": str(own / "ipython"),
    }
    alive = f"{top}/api/status?token={token}"
    return Lab(command, environment, own / "server.log", free, alive, home, there)


def begun(folder: Path, unit: str, port: int) -> "tuple[Lab, subprocess.Popen[bytes]]":
    """Start a server as `lab` has it, and return both once it answers.

    Where somebody else has taken the port meanwhile, as another start does, the next one serves.

    Raises
    ------
    ProgressError
        As of `lab` and `served`.
    """
    one = lab(folder, unit, port)
    try:
        return one, served(one, folder)
    except ProgressError:
        if _is_free(one.port):
            raise
    return begun(folder, unit, one.port + 1)


def served(one: Lab, folder: Path) -> "subprocess.Popen[bytes]":
    """Start a server and return it once it answers.

    Raises
    ------
    ProgressError
        If it stops at once, or does not answer in time; its log says why.
    """
    with one.log.open("wb") as log:
        server = subprocess.Popen(
            one.command, cwd=folder, env=one.environment, stdout=log, stderr=subprocess.STDOUT
        )
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end and server.poll() is None:
        try:
            with urllib.request.urlopen(one.alive, timeout=5):
                return server
        except (urllib.error.URLError, OSError):
            time.sleep(0.2)
    server.kill()
    server.wait()
    raise ProgressError(f"JupyterLab must answer within {PATIENCE:g} s, got none: see {one.log}")


def is_root() -> bool:
    """Return whether this is the system's administrator, where a system has such a thing."""
    return getattr(os, "geteuid", lambda: 1)() == 0


def _lay_down(own: Path) -> None:
    """Write the settings, all made anew."""
    files = {
        own / "settings" / "overrides.json": json.dumps(SETTINGS),
        own / "config" / "labconfig" / "page_config.json": json.dumps(
            {"disabledExtensions": DISABLED}
        ),
    }
    for path, text in files.items():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def _free(port: int) -> int:
    """Return the first free port from `port` on; raise `ProgressError` if none of many is."""
    for one in (port + step for step in PORTS):
        if _is_free(one):
            return one
    raise ProgressError(f"port must be free, got none from {port} to {port + len(PORTS) - 1}")


def _is_free(port: int) -> bool:
    """Return whether nobody listens on a port of this computer."""
    with socket.socket() as probe:
        try:
            probe.bind(("127.0.0.1", port))
        except (OSError, OverflowError):  # the latter beyond the last port there is
            return False
    return True
