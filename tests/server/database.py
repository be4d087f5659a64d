"""A PostgreSQL of a test's own: no port, a socket in its folder, ended with the test."""

import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.processes import alive

__all__ = ["Database", "database"]


class Database:
    """One server in `folder`; PostgreSQL refuses to run as root, so it runs as its own user."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        (programs,) = sorted(Path("/usr/lib/postgresql").glob("*/bin"))[-1:]
        self.programs = programs
        self.user = "postgres" if os.geteuid() == 0 else pwd.getpwuid(os.geteuid()).pw_name
        account = pwd.getpwnam(self.user)
        os.chown(folder, account.pw_uid, account.pw_gid)
        self._run("initdb", "-D", str(folder / "data"), "-U", "course", "--auth=trust")

    def begin(self) -> None:
        options = f"-c listen_addresses= -k {self.folder}"
        log = ("-l", str(self.folder / "log"))
        self._run("pg_ctl", "-w", "-D", str(self.folder / "data"), *log, "-o", options, "start")

    def end(self) -> None:
        self._run("pg_ctl", "-w", "-m", "fast", "-D", str(self.folder / "data"), "stop")

    def kill(self) -> None:
        """End every process of it at once, as a power cut does."""
        leader = int((self.folder / "data" / "postmaster.pid").read_text().splitlines()[0])
        children = subprocess.run(
            ["ps", "-o", "pid=", "--ppid", str(leader)], capture_output=True, text=True, check=True
        )
        all_of_it = [leader, *map(int, children.stdout.split())]
        for process in all_of_it:
            os.kill(process, signal.SIGKILL)
        while any(alive(process) for process in all_of_it):
            time.sleep(0.02)
        # Where nobody waits for the dead their numbers stay taken; after a power cut none is.
        (self.folder / "data" / "postmaster.pid").unlink()
        (self.folder / ".s.PGSQL.5432.lock").unlink()

    def address(self, name: str) -> str:
        """Return the address of a new, empty database."""
        self._run("createdb", "-h", str(self.folder), "-U", "course", name)
        return f"postgresql+psycopg://course@/{name}?host={self.folder}"

    def _run(self, program: str, *words: str) -> None:
        done = subprocess.run(
            [str(self.programs / program), *words],
            user=self.user if os.geteuid() == 0 else None,
            cwd=self.folder,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            check=False,
        )
        assert done.returncode == 0, (program, words)


@contextmanager
def database() -> Iterator[Database]:
    """Yield a server that runs; its folder has a short name, as a socket's path must."""
    folder = Path(tempfile.mkdtemp(prefix="pg"))
    try:
        found = Database(folder)
        found.begin()
        try:
            yield found
        finally:
            found.end()
    finally:
        shutil.rmtree(folder)
