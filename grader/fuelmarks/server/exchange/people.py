"""Who somebody is: the hub tells the account of a token, a list of ours whose account that is."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from jupyterhub.services.auth import HubAuth

from fuelmarks.server.exchange.packing import ExchangeRefusalError

__all__ = ["People", "Person"]


@dataclass(frozen=True)
class Person:
    """Whoever asks: an instructor, or the trainee of that name in the class list."""

    account: str
    trainee: str = ""
    instructor: bool = False


@dataclass
class People:
    """The list of accounts, read again once it has changed.

    ``{"instructors": [account], "trainees": {account: id}}``
    """

    path: Path
    _read: tuple[float, Mapping[str, Any]] = field(default=(-1.0, {}))

    def of(self, account: str) -> Person:
        """Return who has `account`; refuse one that is in no list."""
        held = self._held()
        if account in held["instructors"]:
            return Person(account, instructor=True)
        if account not in held["trainees"]:
            rule = "account must be in the class list of this server"
            raise ExchangeRefusalError(403, f"{rule}, got {account!r}")
        return Person(account, held["trainees"][account])

    def trainees(self) -> dict[str, str]:
        """Return accounts by the trainee's id."""
        return {trainee: account for account, trainee in self._held()["trainees"].items()}

    def _held(self) -> Mapping[str, Any]:
        changed = self.path.stat().st_mtime_ns
        if changed != self._read[0]:
            self._read = (changed, json.loads(self.path.read_bytes()))
        return self._read[1]


async def person_of(hub: HubAuth, people: People, header: str) -> Person:
    """Return whose token stands in the header ``Authorization``; refuse one that is nobody's."""
    kind, _, token = header.partition(" ")
    if kind.lower() not in ("token", "bearer") or not token:
        raise ExchangeRefusalError(401, "a token of the hub must come with the question, got none")
    user = await hub.user_for_token(token.strip(), sync=False)
    if not user or user.get("kind") != "user":
        raise ExchangeRefusalError(
            401, "token must be one that the hub gave to a user, got another"
        )
    return people.of(user["name"])
