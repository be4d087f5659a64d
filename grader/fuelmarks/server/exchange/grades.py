"""Marks on their way to a learning platform, each once, by its Assignment and Grade Services.

The steps are those of 1EdTech's "Assignment and Grade Services 2.0" (columns: 3.2, scores: 3.4)
and "Security Framework 1.0", 4.1: a token is had for a question that we have signed.
"""

import asyncio
import json
import secrets
import time
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from urllib.parse import urlencode, urlsplit, urlunsplit

from tornado.httpclient import AsyncHTTPClient, HTTPClientError

from fuelmarks.course.whole_file import put_whole
from fuelmarks.server.exchange.packing import ExchangeRefusalError
from fuelmarks.server.launches import LINE_ITEM, SCORE, UNIT, Launch, launch_of
from fuelmarks.server.own_key import signed

__all__ = ["Grades", "Mark"]

ASSERTION = "urn:ietf:params:oauth:client-assertion-type:jwt-bearer"
KIND = "application/vnd.ims.lis"
PATIENCE = 20.0
REFUSED = 424
"""HTTP's “failed dependency”: whoever asks is not to ask again by himself."""
NEVER_CAME = "has not come by way of the platform, or it gave no place for marks"


@dataclass(frozen=True)
class Mark:
    """What one trainee has in a unit; not `final` while something waits for a hand."""

    points: float
    out_of: float
    final: bool

    @classmethod
    def of(cls, told: Mapping[str, Any]) -> "Mark":
        """Return what was sent as a mark; raise `ValueError` or `TypeError` if it is none."""
        return cls(float(told["points"]), float(told["out_of"]), bool(told["final"]))


class Grades:
    """The way to the platform: `folder` holds launches and key, `kept` what was sent."""

    def __init__(self, folder: Path, kept: Path, told: Mapping[str, str]) -> None:
        self.folder, self.kept, self.told = folder, kept, told
        self._client = AsyncHTTPClient()
        self._at_work = asyncio.Lock()

    async def send(
        self, unit: str, marks: Mapping[str, Mark], accounts: Mapping[str, str]
    ) -> dict[str, str]:
        """Send what is new; return by trainee what became of it, in words."""
        if not UNIT.fullmatch(unit):
            raise ExchangeRefusalError(400, f"unit must be a plain name, got {unit[:80]!r}")
        async with self._at_work:  # who asks again meanwhile hears what was sent before
            return await self._send(unit, marks, accounts)

    async def _send(
        self, unit: str, marks: Mapping[str, Mark], accounts: Mapping[str, str]
    ) -> dict[str, str]:
        found, column, token = dict[str, str](), "", ""
        sent = self._sent(unit)
        for trainee, mark in sorted(marks.items()):
            launch = launch_of(self.folder, accounts.get(trainee, ""))
            before, now = sent.get(trainee), [mark.points, mark.out_of, mark.final]
            if launch is None or SCORE not in launch.scopes:
                found[trainee] = f"not sent: {NEVER_CAME}"
            elif before == now:
                found[trainee] = f"sent before: {mark.points:g} of {mark.out_of:g}"
            else:
                token = token or await self._token(launch)
                column = column or await self._column(unit, launch, mark.out_of, token)
                await self._score(column, launch, mark, token)
                sent[trainee] = now
                self._keep(unit, sent)
                found[trainee] = _words(mark, before)
        return found

    async def _token(self, launch: Launch) -> str:
        """Return the platform's token for this server."""
        now, where = int(time.time()), self.told["token_url"]
        own = {"iss": self.told["client_id"], "sub": self.told["client_id"]}
        own |= {"aud": self.told.get("audience") or where, "jti": secrets.token_urlsafe(16)}
        claims: dict[str, Any] = {**own, "iat": now, "exp": now + 60}
        form = {
            "grant_type": "client_credentials",
            "client_assertion_type": ASSERTION,
            "client_assertion": signed(self.folder / "key.pem", claims),
            "scope": " ".join(one for one in (SCORE, LINE_ITEM) if one in launch.scopes),
        }
        head = {"Content-Type": "application/x-www-form-urlencoded"}
        answer = await self._ask("POST", where, head, urlencode(form))
        return str(answer.get("access_token", ""))

    async def _column(self, unit: str, launch: Launch, out_of: float, token: str) -> str:
        """Return the address of the unit's column: the one that was linked, or one of that name."""
        if unit in launch.units:
            return launch.units[unit]
        if LINE_ITEM not in launch.scopes or not launch.columns:
            rule = f"the platform must have a column for {unit}"
            raise ExchangeRefusalError(
                409, f"{rule}: a link with the custom parameter unit={unit}, or let columns be made"
            )
        head = {"Authorization": f"Bearer {token}", "Accept": f"{KIND}.v2.lineitemcontainer+json"}
        asked = _with(launch.columns, query=urlencode({"resource_id": unit}))
        there = await self._ask("GET", asked, head)
        mine = [one for one in there or () if one.get("resourceId") == unit]
        if not mine:
            told = {"label": unit, "resourceId": unit, "scoreMaximum": out_of}
            head = {**head, "Content-Type": f"{KIND}.v2.lineitem+json"}
            mine = [await self._ask("POST", launch.columns, head, json.dumps(told))]
        return str(mine[0]["id"])

    async def _score(self, column: str, launch: Launch, mark: Mark, token: str) -> None:
        told = {
            "timestamp": datetime.now(UTC).isoformat(timespec="milliseconds"),
            "scoreGiven": mark.points,
            "scoreMaximum": mark.out_of,
            "activityProgress": "Completed",
            "gradingProgress": "FullyGraded" if mark.final else "PendingManual",
            "userId": launch.person,
        }
        head = {"Authorization": f"Bearer {token}", "Content-Type": f"{KIND}.v1.score+json"}
        await self._ask("POST", _with(column, path="/scores"), head, json.dumps(told))

    async def _ask(self, method: str, where: str, head: dict[str, str], body: str = "") -> Any:
        """Return what the platform answers; refuse in its own words what it refuses."""
        try:
            answer = await self._client.fetch(
                where,
                method=method,
                headers=head,
                body=body or None,
                raise_error=False,
                request_timeout=PATIENCE,
            )
        except (OSError, HTTPClientError) as error:
            raise ExchangeRefusalError(
                REFUSED, f"the platform must answer, got: {error}"
            ) from error
        text = (answer.body or b"").decode(errors="replace")
        if answer.code not in (200, 201, 202, 204):
            rule = f"the platform must take what is sent to {urlsplit(where).path}"
            raise ExchangeRefusalError(REFUSED, f"{rule}, got status {answer.code}: {text[:200]}")
        try:
            return json.loads(text) if text.strip() else {}
        except ValueError:
            return {}

    def _sent(self, unit: str) -> dict[str, Any]:
        path = self.kept / f"{unit}.json"
        return dict(json.loads(path.read_bytes())) if path.is_file() else {}

    def _keep(self, unit: str, sent: Mapping[str, Any]) -> None:
        self.kept.mkdir(parents=True, exist_ok=True)
        put_whole(self.kept / f"{unit}.json", json.dumps(sent).encode(), 0o600)


def _words(mark: Mark, before: Any) -> str:
    """Return what was sent, and in whose place."""
    waits = "" if mark.final else ", something waits for a hand"
    instead = f", in the place of {before[0]:g}" if before else ""
    return f"sent: {mark.points:g} of {mark.out_of:g}{waits}{instead}"


def _with(address: str, path: str = "", query: str = "") -> str:
    """Return an address with more to its path or to its query."""
    parts = urlsplit(address)
    both = "&".join(one for one in (parts.query, query) if one)
    return urlunsplit(parts._replace(path=parts.path.rstrip("/") + path, query=both))
