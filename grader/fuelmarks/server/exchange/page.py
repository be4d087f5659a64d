"""The status page for instructors: who is in, who has handed in what, and what memory it takes."""

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

import psutil
from jupyterhub.services.auth import HubOAuthCallbackHandler, HubOAuthenticated
from tornado.httpclient import AsyncHTTPClient
from tornado.web import HTTPError, RequestHandler, authenticated

from fuelmarks.course.templates import templates
from fuelmarks.server.exchange.packing import ExchangeRefusalError
from fuelmarks.server.exchange.people import People
from fuelmarks.server.exchange.store import HandIn, Store

__all__ = ["Health", "HubOAuthCallbackHandler", "StatusPage"]


@dataclass(frozen=True)
class Cell:
    """What is told of one trainee in one unit."""

    words: str
    handed_in: bool


@dataclass(frozen=True)
class Row:
    """What is told of one trainee."""

    trainee: str
    account: str
    running: bool
    seen: str
    memory: int
    units: tuple[Cell, ...]


class Health(RequestHandler):
    """Says that the exchange is there."""

    def get(self) -> None:
        """Answer anybody."""
        self.finish({"exchange": "is there"})


class StatusPage(HubOAuthenticated, RequestHandler):  # type: ignore[misc]
    """The page; the hub sends whoever is not an instructor away."""

    def initialize(self, store: Store, people: People, hub: Any) -> None:
        """Take what the service holds."""
        self.store, self.people, self.hub = store, people, hub

    @authenticated
    async def get(self) -> None:
        """Show it."""
        self._only_instructors()
        units = self.store.units()
        rows = self._rows(units, await self._users(), memory_of_accounts())
        self.set_header("Cache-Control", "no-store")
        page = _environment().get_template("server/status.html.j2")
        self.finish(
            page.render(
                now=f"{self.store.now().astimezone():%H:%M}",
                units=units,
                windows={unit: self._window(unit) for unit in units},
                rows=rows,
                memory=sum(row.memory for row in rows),
                free=psutil.virtual_memory().available,
            )
        )

    def _only_instructors(self) -> None:
        """Refuse a trainee whom the hub let through."""
        try:
            person = self.people.of(self.get_current_user()["name"])
        except ExchangeRefusalError as error:
            raise HTTPError(403) from error
        if not person.instructor:
            raise HTTPError(403)

    async def _users(self) -> dict[str, dict[str, Any]]:
        """Return what the hub knows of every account."""
        head = {"Authorization": f"token {self.hub.api_token}"}
        asked = f"{self.hub.api_url}/users?limit=1000"
        answer = await AsyncHTTPClient().fetch(asked, headers=head)
        return {one["name"]: one for one in json.loads(answer.body)}

    def _rows(
        self, units: list[str], users: dict[str, dict[str, Any]], memory: dict[str, int]
    ) -> list[Row]:
        """Return a row for every trainee."""
        rows = []
        for trainee, account in sorted(self.people.trainees().items()):
            user = users.get(account, {})
            rows.append(
                Row(
                    trainee=trainee,
                    account=account,
                    running=bool(user.get("servers")),
                    seen=_clock(user.get("last_activity")),
                    memory=memory.get(account, 0),
                    units=tuple(_cell(self.store.hand_ins(unit, trainee)) for unit in units),
                )
            )
        return rows

    def _window(self, unit: str) -> str:
        """Return from when till when a unit is open, in words."""
        window = self.store.window(unit)
        opens = f"from {_short(window.opens)}" if window.opens else ""
        closes = f"till {_short(window.closes)}" if window.closes else ""
        return f"{opens} {closes}".strip()


def memory_of_accounts() -> dict[str, int]:
    """Return by account the resident memory of all its processes [bytes]."""
    found: dict[str, int] = {}
    for process in psutil.process_iter(["username", "memory_info"]):
        name, memory = process.info["username"], process.info["memory_info"]
        if name and memory:
            found[name] = found.get(name, 0) + memory.rss
    return found


def _cell(tries: Iterable[HandIn]) -> Cell:
    """Return what is told of somebody's hand-ins of one unit."""
    kept = list(tries)
    if not kept:
        return Cell("—", handed_in=False)
    again = f", attempt {kept[-1].number}" if len(kept) > 1 else ""
    return Cell(f"{_short(kept[-1].handed_in)}{again}", handed_in=True)


def _short(when: datetime) -> str:
    return f"{when.astimezone():%a %H:%M}"


def _clock(text: str | None) -> str:
    return _short(datetime.fromisoformat(text)) if text else "never"


def _environment() -> Any:
    found = templates()
    found.filters["megabytes"] = lambda size: f"{size / 2**20:,.0f} MB"
    return found
