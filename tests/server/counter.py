"""The exchange as a process of its own, before a hub that knows a few tokens."""

import http.client
import json
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

from fuelmarks.server.exchange.store import Store

from tests.ports import own_ports

__all__ = ["TOKENS", "Counter", "counter"]

TOKENS = {
    "token-of-teacher": {"name": "teacher", "kind": "user"},
    "token-of-t001": {"name": "t001", "kind": "user"},
    "token-of-t002": {"name": "t002", "kind": "user"},
    "token-of-stranger": {"name": "stranger", "kind": "user"},
    "token-of-a-service": {"name": "t001", "kind": "service"},
}
PEOPLE = {"instructors": ["teacher"], "trainees": {name: name for name in ("t001", "t002", "t003")}}
PREFIX = "/services/exchange/"


class Hub(BaseHTTPRequestHandler):
    """The one question that the exchange asks of a hub: whose is this token?"""

    def do_GET(self) -> None:
        known = TOKENS.get(self.headers.get("Authorization", "").removeprefix("token "))
        raw = json.dumps({**known, "scopes": [], "groups": []} if known else {}).encode()
        self.send_response(200 if known and self.path.startswith("/hub/api/user") else 403)
        self.send_header("Content-Length", str(len(raw)))
        self.end_headers()
        self.wfile.write(raw)

    def log_message(self, *_: object) -> None:
        """Say nothing."""


class Counter:
    """The exchange: where it is, how it is asked, how it is killed."""

    def __init__(self, folder: Path, hub: int, port: int) -> None:
        self.store = Store(folder / "exchange")
        self.port, self.address = port, f"http://127.0.0.1:{port}{PREFIX}"
        (folder / "people.json").write_text(json.dumps(PEOPLE))
        self.around = {
            **os.environ,
            "JUPYTERHUB_SERVICE_URL": f"http://127.0.0.1:{port}",
            "JUPYTERHUB_SERVICE_PREFIX": PREFIX,
            "JUPYTERHUB_API_URL": f"http://127.0.0.1:{hub}/hub/api",
            "JUPYTERHUB_API_TOKEN": "token-of-the-exchange",
            "JUPYTERHUB_CLIENT_ID": "service-exchange",
            "FUELCIRCUITS_EXCHANGE_ROOT": str(folder / "exchange"),
            "FUELCIRCUITS_PEOPLE": str(folder / "people.json"),
        }

    def begin(self) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-m", "fuelmarks.server.exchange.service"], env=self.around
        )
        until = time.monotonic() + 60
        while self.ask("GET", "../health", "")[0] != 200:
            assert self.process.poll() is None
            assert time.monotonic() < until
            time.sleep(0.05)

    def kill(self) -> None:
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()

    def end(self) -> None:
        self.process.terminate()
        assert self.process.wait(60) == 0

    def ask(
        self, method: str, path: str, token: str, body: object = None, raw: bytes | None = None
    ) -> tuple[int, Mapping[str, Any]]:
        """Return status and answer; status 0 if the line was cut."""
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        sent = raw if raw is not None else None if body is None else json.dumps(body).encode()
        where = PREFIX + "health" if path == "../health" else f"{PREFIX}api/{path}"
        try:
            line.request(method, where, sent, {"Authorization": f"token {token}"} if token else {})
            answer = line.getresponse()
            text = answer.read()
        except (OSError, http.client.HTTPException):
            return 0, {}
        finally:
            line.close()
        return answer.status, json.loads(text) if text.startswith(b"{") else {}


@contextmanager
def counter(folder: Path) -> Iterator[Counter]:
    """Yield an exchange that runs; it and its hub are ended afterwards."""
    hub = ThreadingHTTPServer(("127.0.0.1", 0), Hub)
    asked = threading.Thread(target=hub.serve_forever, daemon=True)
    asked.start()
    found = Counter(folder, hub.server_address[1], own_ports())
    try:
        found.begin()
        yield found
        found.end()
    finally:
        if found.process.poll() is None:
            found.kill()
        hub.shutdown()
        hub.server_close()
        asked.join()
