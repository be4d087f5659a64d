"""Set a class server up on this computer, again and again without harm."""

import json
import os
import pwd
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from fuelmarks.course.at_work import at_work
from fuelmarks.course.class_list import read_class
from fuelmarks.course.whole_file import put_whole
from fuelmarks.course.written import copy_written
from fuelmarks.server import accounts, systemd
from fuelmarks.server.class_server import ClassServer, ServerError, write_server
from fuelmarks.server.environments import ensure_environments, ensure_proxy, furnish_staff
from fuelmarks.server.hub import only_root
from fuelmarks.server.own_key import ensure_key

__all__ = ["set_up"]

Say = Callable[[str], None]


def set_up(
    server: ClassServer,
    checkout: Path,
    class_list: Path | None,
    say: Say,
    *,
    homes: Path = Path("/home"),
    compiled: bool = True,
) -> None:
    """Make or renew all that the class server needs; `say` is told what is being done.

    `class_list` is taken for the course if it has none yet; from then on the course's counts.
    """
    only_root()
    with _plain_umask():
        server.root.mkdir(parents=True, exist_ok=True)
        with at_work(server.root, "setup of the class server"):
            say(f"Environments, in {server.root}; at first this takes a few minutes.")
            accounts.ensure_groups()
            ensure_environments(server, checkout, compiled=compiled)
            ensure_proxy(server)
            made = _instructors(server, homes)
            server = _with_course(server, checkout, class_list)
            furnish_staff(server)
            trainees = read_class(Path(server.course) / "class.csv")
            names = accounts.names_of(trainees)
            made += _made(names, accounts.TRAINEES, homes)
            accounts.note_passwords(server.root / "passwords.csv", made)
            _keep(server, names)
            write_server(server)
            systemd.install(server)
    say(f"{len(names)} trainees, {len(made)} new accounts.")
    if made:
        say(f"First passwords: {server.root / 'passwords.csv'}")


def _instructors(server: ClassServer, homes: Path) -> list[accounts.Account]:
    return _made({name: name for name in server.instructors}, accounts.STAFF, homes)


def _made(names: dict[str, str], group: str, homes: Path) -> list[accounts.Account]:
    """Return the accounts that were made, of those asked for."""
    found = (accounts.ensure_account(name, group, whose, homes) for name, whose in names.items())
    return [one for one in found if one]


def _with_course(server: ClassServer, checkout: Path, class_list: Path | None) -> ClassServer:
    """Return the server with its course: the first instructor's, copied if there is none yet."""
    owner = pwd.getpwnam(server.instructors[0])
    course = Path(server.course or Path(owner.pw_dir) / "course")
    if not (course / "units").is_dir():
        copy_written(checkout / "course", course)
        shutil.copytree(checkout / "course" / "release", course / "release")
        _own(course, owner)
    if not (course / "class.csv").exists():
        if class_list is None:
            rule = f"{course / 'class.csv'} must hold the class"
            raise ServerError(f"{rule}, got no such file; name one with --class")
        read_class(class_list)
        put_whole(course / "class.csv", class_list.read_bytes())
        os.chown(course / "class.csv", owner.pw_uid, owner.pw_gid)
    return replace(server, course=str(course))


def _own(folder: Path, owner: pwd.struct_passwd) -> None:
    """Give a folder that we have just made to its owner."""
    for path in (folder, *folder.rglob("*")):
        os.chown(path, owner.pw_uid, owner.pw_gid, follow_symlinks=False)


def _keep(server: ClassServer, names: dict[str, str]) -> None:
    """Make the folders of the hub and the exchange, and note whose account is whose."""
    exchange = pwd.getpwnam(accounts.EXCHANGE)
    (server.root / "hub").mkdir(mode=0o700, exist_ok=True)
    (server.root / "exchange").mkdir(mode=0o700, exist_ok=True)
    os.chown(server.root / "exchange", exchange.pw_uid, exchange.pw_gid)
    if server.login == "lti":
        server.platform.mkdir(mode=0o750, exist_ok=True)
        os.chown(server.platform, 0, exchange.pw_gid)
        server.platform.chmod(0o2750)
        ensure_key(server.platform / "key.pem", exchange.pw_gid)
    people = {"instructors": list(server.instructors), "trainees": names}
    put_whole(server.root / "people.json", json.dumps(people).encode(), 0o640)
    os.chown(server.root / "people.json", 0, exchange.pw_gid)


@contextmanager
def _plain_umask() -> Iterator[None]:
    """Make files that others can read, whatever root is used to."""
    before = os.umask(0o022)
    try:
        yield
    finally:
        os.umask(before)
