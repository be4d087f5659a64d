"""The unit by which systemd starts a class server with the computer, where systemd is."""

import subprocess
from pathlib import Path

from fuelmarks.server.class_server import ClassServer

__all__ = ["NAME", "here", "install", "remove", "unit_of"]

# KillMode: a hub that is told to stop ends all it started; one that fails leaves the trainees'
# servers running, and takes them up again when it is started anew.
NAME = "fuelcircuits-server.service"
FOLDER = Path("/etc/systemd/system")
UNIT = """\
[Unit]
Description=Class server of the carburettor course
After=network-online.target
Wants=network-online.target

[Service]
Environment=FUELCIRCUITS_SERVER={root} LANG=C.UTF-8
Environment=PATH={root}/staff/bin:/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin
WorkingDirectory={root}/hub
ExecStart={root}/staff/bin/python -m jupyterhub -f {config}
StandardOutput=append:{root}/hub/hub.log
StandardError=inherit
Restart=on-failure
RestartSec=1
KillMode=process
TimeoutStopSec=60

[Install]
WantedBy=multi-user.target
"""


def here() -> bool:
    """Return whether systemd runs this computer."""
    return Path("/run/systemd/system").is_dir()


def unit_of(server: ClassServer) -> str:
    """Return the text of the unit."""
    return UNIT.format(root=server.root, config=config_of(server))


def config_of(server: ClassServer) -> Path:
    """Return the hub's configuration in the staff's environment."""
    (found,) = (server.root / "staff/lib").glob(
        "python*/site-packages/fuelmarks/server/jupyterhub_config.py"
    )
    return found


def install(server: ClassServer) -> None:
    """Lay the unit down and have it started with the computer, where systemd is."""
    if here():
        (FOLDER / NAME).write_text(unit_of(server))
        subprocess.run(["systemctl", "daemon-reload"], check=True)
        subprocess.run(["systemctl", "enable", "--quiet", NAME], check=True)


def remove() -> None:
    """Take the unit away again."""
    if here() and (FOLDER / NAME).exists():
        subprocess.run(["systemctl", "disable", "--quiet", NAME], check=False)
        (FOLDER / NAME).unlink()
        subprocess.run(["systemctl", "daemon-reload"], check=True)
