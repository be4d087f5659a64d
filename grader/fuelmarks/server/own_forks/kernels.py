"""Kernels forked from the template beside the server; started as ever where there is none."""

import asyncio
import os
from pathlib import Path
from typing import Any

from jupyter_client.connect import KernelConnectionInfo
from jupyter_client.provisioning.local_provisioner import LocalProvisioner

from .asking import Forked

__all__ = ["TEMPLATE", "ForkedProvisioner"]

TEMPLATE = "FUELCIRCUITS_TEMPLATE"
LAUNCHER = ["-m", "ipykernel_launcher"]


class ForkedProvisioner(LocalProvisioner):
    """Has the template at `TEMPLATE` make the kernel of itself."""

    process: Any

    async def launch_kernel(self, cmd: list[str], **kwargs: Any) -> KernelConnectionInfo:
        """Launch a kernel; by its command where the template does not answer."""
        if TEMPLATE not in os.environ or LAUNCHER[1] not in cmd:
            return await super().launch_kernel(cmd, **kwargs)
        told = {
            "arguments": cmd[cmd.index(LAUNCHER[1]) + 1 :],
            "environment": dict(kwargs.get("env") or os.environ),
            "folder": str(kwargs.get("cwd") or Path.cwd()),
        }
        try:
            forked = await asyncio.to_thread(Forked, Path(os.environ[TEMPLATE]), told)
        except OSError as error:
            self.log.warning("the template must answer, got: %s; starting without it", error)
            return await super().launch_kernel(cmd, **kwargs)
        self.process = forked
        self.pid = self.pgid = forked.pid
        self.cwd = kwargs.get("cwd", Path.cwd())
        return self.connection_info
