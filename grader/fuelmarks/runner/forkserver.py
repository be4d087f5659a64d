"""The trusted side's hold on the fork server: start it, ask it for a process, notice its end."""

import contextlib
import dataclasses
import json
import select
import socket
import subprocess
import tempfile
import threading
from collections.abc import Mapping, Sequence

from fuelmarks.runner.forbidden import is_forbidden, what_to_do
from fuelmarks.runner.limits import Limits
from fuelmarks.runner.needs import needs
from fuelmarks.runner.protocol import LONGEST_REHEARSAL, Cell
from fuelmarks.runner.sandbox import SandboxError

__all__ = ["ForkServer", "ServerLostError"]

_WARM_UP_SECONDS = 120.0
_START_SECONDS = 60.0
_END_SECONDS = 5.0


class ServerLostError(Exception):
    """The fork server ended, or no longer answers."""


class ForkServer:
    """One running fork server, which has run the cells of `rehearsal` once.

    Raises `SandboxError` if it does not come up.
    """

    def __init__(
        self, command: Sequence[str], environment: Mapping[str, str], rehearsal: Sequence[Cell] = ()
    ) -> None:
        self._asking = threading.Lock()
        self._control, theirs = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
        with theirs, tempfile.TemporaryFile() as complaints:
            self._process = subprocess.Popen(
                command,
                env=environment,
                stdin=theirs.fileno(),
                stdout=subprocess.DEVNULL,
                stderr=complaints,
                start_new_session=True,
            )
            theirs.close()
            self._rehearse(rehearsal)
            if self._receive(_WARM_UP_SECONDS)[0] != b"ready":
                self.close()
                complaints.seek(0)
                raise SandboxError(_why(complaints.read().decode(errors="replace")))

    def start(self, channel: socket.socket, limits: Limits, loaded: Sequence[str] = ()) -> int:
        """Start a process that talks through `channel`; return its handle (a pidfd).

        `loaded` are the slow libraries that it will ask for, of those in `needs.SIGNS`.
        """
        asked = {"limits": dataclasses.asdict(limits), "needs": list(loaded)}
        with self._asking:
            try:
                message = json.dumps(asked).encode()
                socket.send_fds(self._control, [message], [channel.fileno()])
            except OSError as error:
                raise ServerLostError("the fork server has ended") from error
            answer, handles = self._receive(_START_SECONDS)
        if answer.startswith(b"failed"):
            raise SandboxError(_why(answer.decode(errors="replace").removeprefix("failed: ")))
        if not handles:
            raise ServerLostError("the fork server does not answer")
        return handles[0]

    def lost(self) -> bool:
        """Return whether the server has ended."""
        with self._asking:
            if self._control.fileno() < 0 or self._process.poll() is not None:
                return True
            return bool(select.select([self._control], [], [], 0)[0])

    def close(self) -> None:
        """End the server and every process it started."""
        self._control.close()
        try:
            self._process.wait(_END_SECONDS)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()

    def _rehearse(self, cells: Sequence[Cell]) -> None:
        """Say what to run beforehand; what is too long for a message is begun with unrehearsed."""
        told = {"needs": needs(cells), "cells": [cell.source for cell in cells]}
        message = json.dumps(told).encode()
        with contextlib.suppress(OSError):  # whoever is not there is missed when it does not answer
            self._control.sendall(message if len(message) < LONGEST_REHEARSAL else b"{}")

    def _receive(self, seconds: float) -> tuple[bytes, list[int]]:
        self._control.settimeout(seconds)
        with contextlib.suppress(OSError):
            answer, handles, _, _ = socket.recv_fds(self._control, 4096, 1)
            return answer, handles
        return b"", []


def _why(complaints: str) -> str:
    """Return the reason why no notebook can be confined, with what to do if that is known."""
    last = (complaints.strip().splitlines() or ["it ended without a word"])[-1]
    return what_to_do(last) if is_forbidden(last) else f"the fork server did not start: {last}"
