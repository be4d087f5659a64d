"""Accounts of this computer, one for everybody in the class list; none that was there is touched.

An account is ours if it is in our group. Another program's account of the same name is refused,
unless somebody has put it into our group; then it is used, and stays when ours are removed.
"""

import csv
import grp
import os
import pwd
import re
import secrets
import subprocess
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from fuelmarks.course.class_list import Trainee
from fuelmarks.server.class_server import ServerError

__all__ = [
    "EXCHANGE",
    "STAFF",
    "TRAINEES",
    "Account",
    "account_of",
    "ensure_account",
    "ensure_groups",
    "ours",
    "remove_accounts",
    "remove_groups",
]

TRAINEES, STAFF, EXCHANGE = "fuelcircuits", "fuelstaff", "fuelexchange"
MADE = "made by fuelmarks"
"""What the system notes beside an account that was made here."""
NAME = re.compile(r"[a-z_][a-z0-9_-]{0,31}")
LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"
"""No sign among them that another looks like."""


@dataclass(frozen=True)
class Account:
    """An account of this computer, and whose it is."""

    name: str
    whose: str
    password: str = ""


def account_of(trainee: Trainee) -> str:
    """Return the name of a trainee's account: the id in small letters, after a t if it is a number.

    Raises `ServerError` if the system could not have an account of that name.
    """
    small = trainee.id.lower()
    name = small if small[0].isalpha() else f"t{small}"
    if not NAME.fullmatch(name):
        rule = "id must make a name of 32 characters or fewer for an account"
        raise ServerError(f"{rule}, got {trainee.id!r}")
    return name


def names_of(trainees: Iterable[Trainee]) -> dict[str, str]:
    """Return whose each account is; raise `ServerError` if two would have one."""
    found: dict[str, str] = {}
    for one in trainees:
        name = account_of(one)
        if name in found:
            raise ServerError(f"each id must make its own account, got {name!r} for two")
        found[name] = one.id
    return found


def ensure_groups() -> None:
    """Make our groups and the exchange's own user, if they are not there."""
    for group in (TRAINEES, STAFF):
        if not _known(grp.getgrnam, group):
            _run("groupadd", "--system", group)
    if not _known(pwd.getpwnam, EXCHANGE):
        _run(*("useradd", "--system", "--no-create-home", "--home-dir", "/nonexistent"), EXCHANGE)
    _run("usermod", "--append", "--groups", STAFF, EXCHANGE)


def ensure_account(name: str, group: str, whose: str, homes: Path) -> Account | None:
    """Make an account in `group`, with a home that only it may read; None if it is there.

    Raises `ServerError` if the name is taken by an account that is not ours.
    """
    if _known(pwd.getpwnam, name):
        if not ours(name):
            rule = f"account of {whose} must not be one that this computer had before"
            raise ServerError(f"{rule}, got {name!r}; give another id, or put it in group {group}")
        return None
    home = ("--create-home", "--base-dir", str(homes), "--key", "HOME_MODE=0700")
    note = ("--comment", MADE)
    _run("useradd", *home, *note, "--shell", "/bin/bash", "--groups", group, name)
    password = "-".join("".join(secrets.choice(LETTERS) for _ in range(4)) for _ in range(3))
    _run("chpasswd", said=f"{name}:{password}\n")
    return Account(name, whose, password)


def ours(name: str) -> bool:
    """Return whether an account is one that we made."""
    return any(name in _members(group) for group in (TRAINEES, STAFF))


def remove_accounts() -> list[str]:
    """Remove the accounts that were made here, with their homes; return the others of our groups.

    Those were on this computer before: they leave our groups, and all else of them stays.
    """
    left: list[str] = []
    for group in (TRAINEES, STAFF):
        for name in sorted(_members(group) - {EXCHANGE}):
            if _made_here(name):
                _run("userdel", "--remove", name)
            else:
                _run("gpasswd", "--delete", name, group)
                left.append(name)
    return left


def remove_groups() -> None:
    """Remove the exchange's own user, and each of our groups in which nobody is left."""
    if _known(pwd.getpwnam, EXCHANGE):
        _run("userdel", EXCHANGE)
    for group in (TRAINEES, STAFF, EXCHANGE):
        if _known(grp.getgrnam, group) and not _members(group):
            _run("groupdel", group)


def note_passwords(path: Path, made: Sequence[Account]) -> None:
    """Add new accounts with their first passwords to the file at `path`, which only root reads."""
    if not made:
        return
    new = not path.exists()
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_APPEND | os.O_NOFOLLOW, 0o600)
    with os.fdopen(handle, "w", newline="", encoding="utf-8") as file:
        table = csv.writer(file)
        if new:
            table.writerow(("account", "whose", "password"))
        table.writerows((one.name, one.whose, one.password) for one in made)


def _members(group: str) -> set[str]:
    """Return who is in a group; nobody where there is none."""
    return set(grp.getgrnam(group).gr_mem) if _known(grp.getgrnam, group) else set()


def _made_here(name: str) -> bool:
    """Return whether the system notes that an account was made here."""
    return _known(pwd.getpwnam, name) and pwd.getpwnam(name).pw_gecos.startswith(MADE)


def _known(look: object, name: str) -> bool:
    try:
        look(name)  # type: ignore[operator]
    except KeyError:
        return False
    return True


def _run(*words: str, said: str = "") -> None:
    """Run a command of the system; raise `ServerError` in its words if it fails."""
    done = subprocess.run(words, input=said, capture_output=True, text=True, check=False)
    if done.returncode:
        why = (done.stderr or done.stdout).strip().splitlines()[-1:] or ["no reason given"]
        raise ServerError(f"{words[0]} must do its work, got: {why[0]}")
