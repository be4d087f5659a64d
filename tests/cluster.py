"""A Dask scheduler and its workers on this computer, with certificates of their own."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

from distributed import Client
from distributed.security import Security

from tests.processes import alive, below

__all__ = ["Cluster"]

PAPERS = ("ca.pem", "certificate.pem", "key.pem")


class Cluster:
    """A scheduler and its workers, each a process of its own."""

    def __init__(self, folder: Path) -> None:
        self.papers = folder
        made = Security.temporary()
        texts = (made.tls_ca_file, made.tls_client_cert, made.tls_client_key)
        for name, text in zip(PAPERS, texts, strict=True):
            (folder / name).write_text(text)
        pairs = zip(("--tls-ca-file", "--tls-cert", "--tls-key"), PAPERS, strict=True)
        self.tls = [word for flag, name in pairs for word in (flag, str(folder / name))]
        self.address = ""
        self.processes: list[subprocess.Popen[bytes]] = []

    def begin(self, workers: int = 2) -> None:
        """Start the scheduler and so many workers."""
        told = self.papers / "scheduler.json"
        self._start("scheduler", "--host", "tls://127.0.0.1:0", "--scheduler-file", str(told))
        until = time.monotonic() + 60
        while not told.exists() and time.monotonic() < until:
            time.sleep(0.05)
        self.told = told
        for _ in range(workers):
            self.worker()
        self.address = told.read_text().split('"address": "')[1].split('"')[0]

    def worker(self, **around: str) -> subprocess.Popen[bytes]:
        """Start one more worker, with these words in its environment."""
        own = ("--nthreads", "1", "--no-nanny", "--memory-limit", "0", "--host", "127.0.0.1")
        where = ("--scheduler-file", str(self.told), "--local-directory", str(self.papers))
        return self._start("worker", *where, *own, **around)

    def wait(self, workers: int) -> None:
        """Wait until so many workers are there."""
        files = (str(self.papers / name) for name in PAPERS)
        security = Security(
            **dict(zip(("tls_ca_file", "tls_client_cert", "tls_client_key"), files, strict=True)),
            require_encryption=True,
        )
        with Client(self.address, security=security, set_as_default=False) as client:
            client.wait_for_workers(workers, timeout=60)

    def end(self) -> None:
        """Tell all to end as a system does, workers first, and see that they do."""
        left = set().union(*(below(one.pid) for one in self.processes))
        for one in reversed(self.processes):
            one.send_signal(signal.SIGTERM)
            one.wait(60)
        assert not [process for process in left if alive(process)]

    def _start(self, what: str, *words: str, **around: str) -> subprocess.Popen[bytes]:
        program = str(Path(sys.executable).with_name("dask"))
        quiet = {"DASK_DISTRIBUTED__COMM__REQUIRE_ENCRYPTION": "True", **around}
        with (self.papers / "log").open("ab") as log:
            one = subprocess.Popen(
                [program, what, *words, "--no-dashboard", *self.tls],
                env={**os.environ, **quiet},
                stdout=log,
                stderr=log,
            )
        self.processes.append(one)
        return one
