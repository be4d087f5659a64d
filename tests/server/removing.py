"""Run in a box: make accounts as the set-up does, remove the server, and say what is left."""

import grp
import json
import pwd
import subprocess
import sys
from pathlib import Path

from fuelmarks.server import accounts, running, systemd
from fuelmarks.server.box import HOMES, INSIDE
from fuelmarks.server.class_server import ClassServer, write_server

NAMES = ("fuelcircuits", "fuelstaff", "fuelexchange", "ada", "bram", "carla")


def names() -> list[str]:
    """Return which of our names this computer knows, of users and of groups."""
    users = {f"user {one.pw_name}" for one in pwd.getpwall() if one.pw_name in NAMES}
    return sorted(
        users | {f"group {one.gr_name}" for one in grp.getgrall() if one.gr_name in NAMES}
    )


def main(steps: list[str]) -> None:
    """Set up; remove by the words of each step; print names, homes and answers as JSON."""
    systemd.here = lambda: False
    subprocess.run(["useradd", "--create-home", "--base-dir", str(HOMES), "carla"], check=True)
    before = names()
    accounts.ensure_groups()
    subprocess.run(["usermod", "--append", "--groups", accounts.STAFF, "carla"], check=True)
    accounts.ensure_account("ada", accounts.TRAINEES, "ada", HOMES)
    for name in ("bram", "carla"):
        accounts.ensure_account(name, accounts.STAFF, name, HOMES)
    server = ClassServer(INSIDE, instructors=("bram", "carla"))
    (server.root / "exchange").mkdir(parents=True)
    write_server(server)
    told = [before, names()]
    for step in steps:
        how = {"with_accounts": "accounts" in step, "with_work": "work" in step}
        told += [running.remove(server, **how), names()]
    homes = sorted(path.name for path in Path(HOMES).iterdir())
    print(json.dumps([*told, homes, server.root.exists()]))


if __name__ == "__main__":
    main(sys.argv[1:])
