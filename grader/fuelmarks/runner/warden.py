"""The trusted side's hold on one notebook: ask, wait no longer than allowed, stop it."""

import contextlib
import os
import secrets
import select
import signal
import socket
from pathlib import Path
from time import monotonic
from types import TracebackType
from typing import Any, Self

from fuelcircuits.answer_sheet.record import Record

from fuelmarks.runner.cage import Cage, Held
from fuelmarks.runner.family import memory_of_family, resident
from fuelmarks.runner.limits import Limits
from fuelmarks.runner.protocol import (
    BadReplyError,
    Cell,
    Outcome,
    Reply,
    longest_reply,
    read_reply,
    write_request,
)

__all__ = ["EndedError", "Warden"]

_LOOK_EVERY = 0.1
_READY_SECONDS = 15.0
_GRACE_SECONDS = 1.0
_END_SECONDS = 10.0
_TOO_LONG = "longer than allowed"
_TOO_MUCH = "more memory than allowed"


class EndedError(Exception):
    """The notebook's process is gone."""


class _LateError(Exception):
    """The time for an answer is over."""


class Warden:
    """Asks one notebook's process to run cells, one at a time, within `limits`."""

    def __init__(
        self, channel: socket.socket, handle: int, limits: Limits, cage: Cage | None = None
    ) -> None:
        self._channel, self._handle, self._limits, self._cage = channel, handle, limits, cage
        self._received = b""
        self._process = _process(handle)
        self._memory_at_start = 0
        self._held: Held | None = None
        self._looked = monotonic()
        self._end = self._looked + _READY_SECONDS
        channel.setblocking(False)

    def __enter__(self) -> Self:
        """Wait until the walls are up; raise `EndedError` with the reason if they are not."""
        try:
            hello = self._receive(self._end)
        except (BadReplyError, EndedError, _LateError):
            hello = b"no word from the notebook's process"
        if hello != b"ready":
            self.stop()
            raise EndedError(hello.decode(errors="replace"))
        self._memory_at_start = resident(self._process)
        if self._cage is not None:
            self._held = self._cage.hold(self._process, self._most)
        self._end = monotonic() + self._limits.notebook_seconds
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Stop the notebook, whatever it is doing."""
        self.stop()

    def run(self, cell: Cell) -> tuple[Outcome, Record | None]:
        """Run one cell; return its outcome, and its record or None."""
        began = monotonic()
        outcome, record = self._ask(cell)
        seconds = monotonic() - began
        return Outcome(cell.id, **outcome, seconds=seconds), record

    @property
    def stopped(self) -> bool:
        """Whether this notebook can run no more cells."""
        return self._handle < 0

    def stop(self) -> None:
        """Kill the process and everything it started; its memory is free on return."""
        if self._handle >= 0:
            with contextlib.suppress(ProcessLookupError):
                signal.pidfd_send_signal(self._handle, signal.SIGKILL)
            select.select([self._handle], [], [], _END_SECONDS)
            os.close(self._handle)
            self._handle = -1
            self._channel.close()
            if self._held is not None:
                self._held.close()

    def _ask(self, cell: Cell) -> tuple[dict[str, Any], Record | None]:
        nonce = secrets.token_hex(8)
        try:
            late, line = self._exchange(write_request(cell, nonce))
            reply = read_reply(line, nonce, cell, self._limits.output_bytes)
        except _LateError:
            self.stop()
            return {"status": "timeout", "message": _TOO_LONG}, None
        except EndedError as error:
            message = _TOO_MUCH if self._ran_over else str(error)
            self.stop()
            return {"status": "killed", "message": message}, None
        except BadReplyError as error:
            self.stop()
            return {"status": "error", "error": "BadReplyError", "message": str(error)}, None
        return _told(reply, late)

    def _exchange(self, request: bytes) -> tuple[bool, bytes]:
        """Return whether the cell had to be interrupted, and the line it answered with."""
        end = min(self._end, monotonic() + self._limits.cell_seconds)
        try:
            self._send(request, end)
            return False, self._receive(end)
        except _LateError:
            if monotonic() >= self._end:
                raise
            signal.pidfd_send_signal(self._handle, signal.SIGINT)
            return True, self._receive(monotonic() + _GRACE_SECONDS)

    def _send(self, request: bytes, end: float) -> None:
        while request:
            self._wait(select.POLLOUT, end)
            try:
                request = request[self._channel.send(request) :]
            except (BrokenPipeError, ConnectionResetError) as error:
                raise EndedError("the process ended") from error

    def _receive(self, end: float) -> bytes:
        while b"\n" not in self._received:
            if len(self._received) > longest_reply(self._limits.output_bytes):
                raise BadReplyError("a reply must not be that long")
            self._wait(select.POLLIN, end)
            self._received += self._read()
        line, _, self._received = self._received.partition(b"\n")
        return line

    def _read(self) -> bytes:
        try:
            piece = self._channel.recv(1 << 16)
        except ConnectionResetError:
            piece = b""
        if not piece:
            raise EndedError("the process ended")
        return piece

    def _wait(self, event: int, end: float) -> None:
        poll = select.poll()
        poll.register(self._channel, event)
        ready: list[tuple[int, int]] = []
        while not ready:
            ready = poll.poll(1000 * max(0.0, min(_LOOK_EVERY, end - monotonic())))
            self._check_memory()
            if monotonic() >= end:
                raise _LateError

    def _check_memory(self) -> None:
        """Look by the clock, whether the notebook is silent or talks all the time."""
        if monotonic() < self._looked + _LOOK_EVERY:
            return
        taken = memory_of_family(self._process, self._memory_at_start)
        self._looked = monotonic()
        if taken > self._most or self._ran_over:
            raise EndedError(_TOO_MUCH)

    @property
    def _most(self) -> int:
        """Return how much memory is too much [bytes]."""
        return int(1.25 * self._limits.memory_bytes)

    @property
    def _ran_over(self) -> bool:
        """Say whether the kernel has stopped something for want of memory."""
        return self._held is not None and self._held.ran_over


def _told(reply: Reply, late: bool) -> tuple[dict[str, Any], Record | None]:
    if late:
        return {"status": "timeout", "message": _TOO_LONG, "text": reply.text}, None
    told = {"error": reply.error, "message": reply.message, "text": reply.text}
    return {"status": "error" if reply.error else "ok", **told}, reply.record


def _process(handle: int) -> int:
    """Return the process number behind a pidfd, as this side of the walls counts."""
    for line in Path(f"/proc/self/fdinfo/{handle}").read_text().splitlines():
        if line.startswith("Pid:"):
            return int(line.split()[1])
    return -1
