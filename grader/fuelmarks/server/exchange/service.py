"""The exchange over HTTP: JSON in and out, identity from the hub's token, time from this clock."""

import json
import os
import secrets
import signal
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from jupyterhub.services.auth import HubOAuth
from tornado.httpserver import HTTPServer
from tornado.ioloop import IOLoop, PeriodicCallback
from tornado.web import Application

from fuelmarks.server.exchange.grades import Grades
from fuelmarks.server.exchange.packing import LARGEST
from fuelmarks.server.exchange.page import Health, HubOAuthCallbackHandler, StatusPage
from fuelmarks.server.exchange.people import People
from fuelmarks.server.exchange.questions import (
    PLATFORM,
    Feedback,
    GiveFeedback,
    HandIns,
    Keys,
    OneHandIn,
    Question,
    Release,
    SendGrades,
    SetWindow,
    Units,
)
from fuelmarks.server.exchange.store import Store

__all__ = ["application", "main"]

LARGEST_BODY = LARGEST * 3 // 2
ROOT, PEOPLE, LTI = "FUELCIRCUITS_EXCHANGE_ROOT", "FUELCIRCUITS_PEOPLE", "FUELCIRCUITS_LTI"


def application(prefix: str, **held: Any) -> Application:
    """Return the service with what it holds: ``store``, ``people`` and ``hub``."""
    unit, who, number = r"([^/]+)", r"([^/]+)", r"(\d{1,6})"
    ways: list[tuple[str, type[Question]]] = [
        ("units", Units),
        (f"release/{unit}", Release),
        (f"release/{unit}/{who}", Release),
        (f"hand-ins/{unit}", HandIns),
        (f"hand-ins/{unit}/{who}/{number}", OneHandIn),
        (f"feedback/{unit}/{number}", Feedback),
        (f"feedback/{unit}/{who}/{number}", GiveFeedback),
        (f"window/{unit}", SetWindow),
        (f"grades/{unit}", SendGrades),
    ]
    return Application(
        [
            *((f"{prefix}api/{way}", handler, held) for way, handler in ways),
            (prefix, StatusPage, {name: held[name] for name in ("store", "people", "hub")}),
            (f"{prefix}health", Health),
            (f"{prefix}keys", Keys),
            (f"{prefix}oauth_callback", HubOAuthCallbackHandler),
        ],
        cookie_secret=secrets.token_bytes(32),
    )


def main() -> None:
    """Serve until told to end; the hub starts this and says where."""
    where = urlsplit(os.environ["JUPYTERHUB_SERVICE_URL"])
    os.umask(0o077)
    held = {
        "store": Store(Path(os.environ[ROOT])),
        "people": People(Path(os.environ[PEOPLE])),
        "hub": HubOAuth.instance(cache_max_age=60),
        "grades": _grades(),
    }
    server = HTTPServer(
        application(os.environ["JUPYTERHUB_SERVICE_PREFIX"], **held), max_body_size=LARGEST_BODY
    )
    server.listen(where.port or 0, where.hostname or "127.0.0.1")
    loop = IOLoop.current()
    for sign in (signal.SIGTERM, signal.SIGINT):
        signal.signal(sign, lambda *_: loop.add_callback_from_signal(loop.stop))
    hub = os.getppid()

    def look() -> None:
        """End with the hub: one that was killed tells nobody, and the next starts its own."""
        if os.getppid() != hub:
            loop.stop()

    PeriodicCallback(look, 500).start()
    loop.start()


def _grades() -> Grades | None:
    """Return the way to the learning platform, None if there is none."""
    told = json.loads(os.environ.get(LTI) or "{}")
    if not told.get("token_url"):
        return None
    return Grades(Path(os.environ[PLATFORM]), Path(os.environ[ROOT]) / "grades", told)


if __name__ == "__main__":
    main()
