"""Starts everybody's server: a trainee's by a fork of the template, where that answers."""

import asyncio
import os
import pwd
import signal
from contextlib import suppress
from pathlib import Path

from jupyterhub.spawner import LocalProcessSpawner
from jupyterhub.utils import random_port
from traitlets import Unicode

from fuelmarks.server.own_forks.asking import Forked

__all__ = ["ForkingSpawner"]


class ForkingSpawner(LocalProcessSpawner):  # type: ignore[misc]
    """As the hub's own for local accounts; `template` is where to ask for a process."""

    template = Unicode(config=True, help="the template's socket; nothing to start by command")

    async def start(self) -> tuple[str, int]:
        """Start the server, and return its address and port."""
        if not self.template:
            return await self._by_command()
        port: int = getattr(self, "port", 0) or random_port()
        self.port = port
        told = {
            "account": self.user.name,
            "arguments": self.get_args(),
            "environment": self.get_env(),
            "folder": pwd.getpwnam(self.user.name).pw_dir,
        }
        try:
            forked = await asyncio.to_thread(Forked, Path(self.template), told)
        except OSError as error:
            self.log.warning("the template must answer, got: %s; starting without it", error)
            return await self._by_command()
        self.pid = forked.pid
        forked.leave()
        return (self.ip or "127.0.0.1", port)

    async def _signal(self, sig: int) -> bool:
        """Send a signal, the last one to all that the server's session holds; return if it runs."""
        if not self.pid or _ended(self.pid):
            return False
        if sig == signal.SIGKILL:
            with suppress(ProcessLookupError):
                os.killpg(self.pid, sig)
        running: bool = await super()._signal(sig)
        return running

    async def _by_command(self) -> tuple[str, int]:
        started: tuple[str, int] = await super().start()
        return started


def _ended(process: int) -> bool:
    """Return whether a process has ended, if only its parent has not asked how yet."""
    try:
        stat = Path(f"/proc/{process}/stat").read_text()
    except OSError:
        return True
    return stat.rpartition(") ")[2][0] == "Z"
