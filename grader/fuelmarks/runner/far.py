"""Run notebooks on other computers, by way of a Dask scheduler that speaks TLS.

Whoever reaches a scheduler can run code on its workers, so one without TLS is refused. A worker
that is lost on the way leaves its notebooks to the others.
"""

import time
from collections.abc import Sequence
from concurrent.futures import CancelledError
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from distributed import Client, Future, KilledWorker
from distributed.comm import CommClosedError
from distributed.security import Security

from fuelmarks.runner.far_worker import Sandbox, read_result, run_task, write_task
from fuelmarks.runner.limits import Limits
from fuelmarks.runner.protocol import Cell, Outcome, RunResult
from fuelmarks.runner.sandbox import SandboxError

__all__ = ["FarRunner"]

FILES = ("ca.pem", "certificate.pem", "key.pem")
TRIES, ALONE = 2, 60.0
"""How often a notebook is sent again, and how long there may be no worker at all [s]."""


class FarRunner:
    """Runs notebooks as `Runner` does, on the workers of the scheduler at `address`.

    `papers` is the folder of ca.pem, certificate.pem and key.pem. Raises `SandboxError` on entry
    if the scheduler cannot be reached, has no worker, or one of them has no sandbox.
    """

    def __init__(self, address: str, papers: Path, limits: Limits | None = None) -> None:
        self.limits = limits or Limits()
        self.address, self.papers = address, papers
        if not address.startswith("tls://"):
            rule = "scheduler must be at an address like tls://host:8786"
            raise SandboxError(f"{rule}, for others let anybody run code there, got {address!r}")
        for name in FILES:
            if not (papers / name).is_file():
                rule = f"{papers} must hold {', '.join(FILES)}"
                raise SandboxError(f"{rule}, got no {name}")

    def __enter__(self) -> Self:
        """Reach the scheduler, and have every worker prove that it can confine a notebook."""
        authority, certificate, key = (str(self.papers / name) for name in FILES)
        security = Security(
            tls_ca_file=authority,
            tls_client_cert=certificate,
            tls_client_key=key,
            require_encryption=True,
        )
        try:
            self._client = Client(self.address, security=security, timeout=20, set_as_default=False)
        except (OSError, TimeoutError, ValueError) as error:
            rule = f"scheduler must answer at {self.address} with these certificates"
            raise SandboxError(f"{rule}, got: {error}") from error
        try:
            self.places = self._places()
            self._client.register_plugin(Sandbox())
        except BaseException as error:
            self.close()
            if isinstance(error, Exception):
                raise SandboxError(f"every worker must have a sandbox, got: {error}") from error
            raise
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Leave the scheduler."""
        self.close()

    def close(self) -> None:
        """Leave the scheduler; its workers end their sandboxes and go on waiting."""
        try:
            self._client.unregister_worker_plugin(Sandbox.name)
        except (OSError, ValueError, CommClosedError, TimeoutError):
            pass  # there is nobody left to tell
        finally:
            self._client.close()

    def run(self, cells: Sequence[Cell], limits: Limits | None = None) -> RunResult:
        """Run `cells` in order on some worker; return what became of each.

        May be called from several threads at once. Raises `SandboxError` if no worker is left.
        """
        task = write_task(cells, limits or self.limits)
        future = self._client.submit(run_task, task, pure=False, retries=TRIES)
        try:
            return read_result(self._waited_for(future), cells)
        except KilledWorker:
            return RunResult(tuple(Outcome(cell.id, "killed") for cell in cells))
        except (CancelledError, CommClosedError, OSError) as error:
            rule = f"scheduler at {self.address} must stay there"
            again = "start it, then run the same command again; what was entered is kept"
            raise SandboxError(f"{rule}, got none; {again}") from error

    def _places(self) -> int:
        """Return how many notebooks are worth sending at once: one that runs and one that waits."""
        workers = self._client.scheduler_info(n_workers=-1)["workers"].values()
        if not workers:
            raise SandboxError(f"scheduler at {self.address} must have workers, got none")
        return 2 * sum(int(one["nthreads"]) for one in workers)

    def _waited_for(self, future: "Future[Any]") -> bytes:
        """Return what comes back; raise `SandboxError` if for a while no worker is left."""
        seen = time.monotonic()
        while True:
            try:
                found: bytes = future.result(timeout=2)
                return found
            except TimeoutError:
                if self._client.scheduler_info(n_workers=-1)["workers"]:
                    seen = time.monotonic()
                if time.monotonic() - seen > ALONE:
                    again = "start one, then run the same command again; what was entered is kept"
                    raise SandboxError(f"one worker must be left, got none; {again}") from None
