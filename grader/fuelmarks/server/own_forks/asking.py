"""Ask a template for a process, and look after it as if it were one's own child."""

import json
import os
import select
import signal
import socket
from collections.abc import Mapping
from pathlib import Path
from typing import Any

__all__ = ["Forked"]

PATIENCE = 20.0
"""How long a template may take to fork [s]."""
LOST = -signal.SIGKILL
"""What is told of a process whose template ended before it."""


class Forked:
    """The process that the template at `where` made of itself for what is `told`.

    Raises `OSError` if nobody answers there.
    """

    stdin = stdout = stderr = None

    def __init__(self, where: Path, told: Mapping[str, Any]) -> None:
        self.returncode: int | None = None
        self._line = socket.socket(socket.AF_UNIX)
        try:
            self._line.settimeout(PATIENCE)
            self._line.connect(str(where))
            self._line.sendall(json.dumps(told).encode() + b"\n")
            self.pid = int(self._heard() or 0)
            if not self.pid:
                raise ConnectionError(f"{where} must answer with a process, got none")
            self._handle = os.pidfd_open(self.pid)
        except BaseException:
            self._line.close()
            raise

    def poll(self) -> int | None:
        """Return the exit status, None while the process runs."""
        if self.returncode is None and select.select([self._line], [], [], 0)[0]:
            self.returncode = int(self._heard() or LOST)
            self.leave()
        return self.returncode

    def wait(self) -> int:
        """Wait for the end; return the exit status."""
        if self.returncode is None:
            select.select([self._line], [], [])
        return self.poll() or 0

    def send_signal(self, number: int) -> None:
        """Send a signal to the process; raise `ProcessLookupError` if it has ended."""
        if self.returncode is not None:
            raise ProcessLookupError(f"process {self.pid} has ended")
        signal.pidfd_send_signal(self._handle, number)

    def kill(self) -> None:
        """End the process at once."""
        self.send_signal(signal.SIGKILL)

    def terminate(self) -> None:
        """Ask the process to end."""
        self.send_signal(signal.SIGTERM)

    def leave(self) -> None:
        """Look after it no longer."""
        self._line.close()
        os.close(self._handle)

    def _heard(self) -> bytes:
        """Return one line of the template's, without its end; nothing if it said no more."""
        heard = bytearray()
        while (sign := self._line.recv(1)) not in (b"", b"\n"):
            heard += sign
        return bytes(heard)
