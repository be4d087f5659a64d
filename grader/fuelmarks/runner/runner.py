"""Run notebooks, each in a process of its own, and bring back nothing but values."""

import os
import socket
import threading
from collections.abc import Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from types import TracebackType
from typing import Self

from fuelcircuits.answer_sheet.record import Record

from fuelmarks.runner.cage import Cage, find_cage
from fuelmarks.runner.forkserver import ForkServer, ServerLostError
from fuelmarks.runner.limits import Limits
from fuelmarks.runner.needs import needs
from fuelmarks.runner.protocol import Cell, Outcome, RunResult
from fuelmarks.runner.sandbox import SandboxError, sandboxed, trusted
from fuelmarks.runner.warden import EndedError, Warden

__all__ = ["Runner"]

_TRIES = 2


class Runner:
    """A warm fork server and the right to use it: ``with Runner() as runner: ...``.

    Parameters
    ----------
    limits : Limits
        What each notebook may use, unless `run` is told otherwise.
    trust : bool
        Run notebooks without the sandbox, with all the rights of the caller. Only for notebooks
        whose authors the instructor would let sit down at this computer.
    hidden : iterable of Path
        Folders that no notebook may see, such as the course's.
    rehearsal : sequence of Cell
        What was handed out and is to be run by many: run once beforehand, to be quicker after.

    Raises
    ------
    SandboxError
        On entry, if notebooks cannot be confined here; the message names what is missing.
    """

    def __init__(
        self,
        *,
        limits: Limits | None = None,
        trust: bool = False,
        hidden: Iterable[Path] = (),
        rehearsal: Sequence[Cell] = (),
    ) -> None:
        self.limits = limits or Limits()
        self._trust, self._hidden, self._rehearsal = trust, tuple(hidden), rehearsal
        self.places = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else 1
        self._cage: Cage | None = None
        self._server: ForkServer | None = None
        self._changing = threading.Lock()
        # Bubblewrap ends with the thread that started it, so one thread starts them all.
        self._keeper = ThreadPoolExecutor(1, "runner")

    def __enter__(self) -> Self:
        """Start the server and prove that it can confine a notebook."""
        try:
            self._cage = find_cage()
            self._attempt([Cell("first", "")], self.limits)
        except ServerLostError as error:
            self.close()
            raise SandboxError(str(error)) from error
        except BaseException:
            self.close()
            raise
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """End the server and all that it started."""
        self.close()

    def close(self) -> None:
        """End the server and all that it started."""
        with self._changing:
            if self._server is not None:
                self._server.close()
            self._server = None
        self._keeper.shutdown()
        if self._cage is not None:
            self._cage.close()

    def run(self, cells: Sequence[Cell], limits: Limits | None = None) -> RunResult:
        """Run `cells` in order in a fresh process; return what became of each.

        May be called from several threads at once. If the server is lost on the way it is
        started again and the notebook tried once more, then given up as "killed".
        """
        if len({cell.id for cell in cells}) != len(cells):
            raise ValueError("cell ids must be unique, got one twice")
        for _ in range(_TRIES):
            try:
                return self._attempt(cells, limits or self.limits)
            except ServerLostError:
                continue
        return RunResult(tuple(Outcome(cell.id, "killed") for cell in cells))

    def _attempt(self, cells: Sequence[Cell], limits: Limits) -> RunResult:
        server = self._ready_server()
        ours, theirs = socket.socketpair()
        with ours, theirs:
            handle = server.start(theirs, limits, needs(cells))
            theirs.close()
            try:
                with Warden(ours, handle, limits, self._cage) as warden:
                    result = _run_all(warden, cells)
            except EndedError as error:
                raise ServerLostError(str(error)) from error
        if warden.stopped and any(o.status == "killed" for o in result.outcomes) and server.lost():
            raise ServerLostError("the fork server ended while a notebook ran")
        return result

    def _ready_server(self) -> ForkServer:
        with self._changing:
            if self._server is None or self._server.lost():
                if self._server is not None:
                    self._server.close()
                self._server = None
                self._server = self._keeper.submit(self._new_server).result()
            return self._server

    def _new_server(self) -> ForkServer:
        command, around = trusted() if self._trust else sandboxed(self._hidden)
        return ForkServer(command, around, self._rehearsal)


def _run_all(warden: Warden, cells: Sequence[Cell]) -> RunResult:
    outcomes: list[Outcome] = []
    records: dict[str, Record] = {}
    for cell in cells:
        if warden.stopped:
            outcomes.append(Outcome(cell.id, "not-reached"))
            continue
        outcome, record = warden.run(cell)
        outcomes.append(outcome)
        if record is not None:
            records[cell.id] = record
    return RunResult(tuple(outcomes), records, sum(o.seconds for o in outcomes))
