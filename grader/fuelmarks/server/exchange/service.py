"""The exchange over HTTP: JSON in and out, identity from the hub's token, time from this clock."""

import base64
import http.client
import json
import os
import secrets
import signal
from collections.abc import Mapping
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from fuelcircuits.errors import CircuitError
from jupyterhub.services.auth import HubAuth, HubOAuth
from tornado.httpserver import HTTPServer
from tornado.ioloop import IOLoop, PeriodicCallback
from tornado.web import Application, RequestHandler

from fuelmarks.course.window import Window
from fuelmarks.server.exchange.grades import Grades, Mark
from fuelmarks.server.exchange.page import Health, HubOAuthCallbackHandler, StatusPage
from fuelmarks.server.exchange.people import People, Person, person_of
from fuelmarks.server.exchange.store import LARGEST, ExchangeRefusalError, HandIn, Store, unpacked
from fuelmarks.server.own_key import public_keys

__all__ = ["application", "main"]

LARGEST_BODY = LARGEST * 3 // 2
ROOT, PEOPLE = "FUELCIRCUITS_EXCHANGE_ROOT", "FUELCIRCUITS_PEOPLE"
PLATFORM, LTI = "FUELCIRCUITS_PLATFORM", "FUELCIRCUITS_LTI"


class Question(RequestHandler):
    """What all questions share: who asks, and words for what is refused."""

    store: Store
    person: Person

    def initialize(
        self, store: Store, people: People, hub: HubAuth, grades: Grades | None = None
    ) -> None:
        """Take what the service holds."""
        self.store, self.people, self.hub, self.grades = store, people, hub, grades

    def check_xsrf_cookie(self) -> None:
        """Ask for none: no cookie opens anything here, only a token in the header does."""

    async def prepare(self) -> None:
        """Find out who asks."""
        asked = self.request.headers.get("Authorization", "")
        self.person = await person_of(self.hub, self.people, asked)

    def trainee(self) -> str:
        """Return who asks, who must be a trainee."""
        if not self.person.trainee:
            raise ExchangeRefusalError(403, "whoever asks must be a trainee, got an instructor")
        return self.person.trainee

    def only_instructors(self) -> None:
        """Refuse everybody else."""
        if not self.person.instructor:
            rule = "whoever asks must be an instructor"
            raise ExchangeRefusalError(403, f"{rule}, got {self.person.account!r}")

    def body(self) -> Mapping[str, Any]:
        """Return what was sent."""
        try:
            told = json.loads(self.request.body)
        except (ValueError, RecursionError) as error:
            raise ExchangeRefusalError(
                400, "what is sent must be JSON, got another kind"
            ) from error
        if not isinstance(told, dict):
            raise ExchangeRefusalError(400, "what is sent must be a table, got another kind")
        return told

    def write_error(self, status_code: int, **kwargs: Any) -> None:
        """Say in JSON why something was refused."""
        error = kwargs.get("exc_info", (None, None))[1]
        why = str(error) if isinstance(error, CircuitError) else http.client.responses[status_code]
        self.finish({"why": why})

    def log_exception(self, kind: Any, error: Any, trace: Any) -> None:
        """Log what nobody meant, and not what was refused."""
        if not isinstance(error, ExchangeRefusalError):
            super().log_exception(kind, error, trace)

    def _handle_request_exception(self, error: BaseException) -> None:
        if isinstance(error, ExchangeRefusalError) and not self._finished:
            self.set_status(error.status)
            self.write_error(error.status, exc_info=(type(error), error, None))
            return
        super()._handle_request_exception(error)


class Units(Question):
    """What is released to a trainee, with what he has handed in; all units for an instructor."""

    def get(self) -> None:
        """Answer."""
        if self.person.instructor:
            self.finish({"units": [{"unit": one, "hand_ins": []} for one in self.store.units()]})
            return
        who = self.trainee()
        self.finish({"units": [self._unit(one, who) for one in self.store.released(who)]})

    def _unit(self, unit: str, who: str) -> dict[str, Any]:
        closes = self.store.window(unit).closes_for(who)
        tries = [
            {**_about(one), "feedback": self.store.feedback_digest(unit, who, one.number)}
            for one in self.store.hand_ins(unit, who)
        ]
        return {"unit": unit, "closes": closes and closes.isoformat(), "hand_ins": tries}


class Release(Question):
    """A trainee's own files."""

    def get(self, unit: str, trainee: str = "") -> None:
        """Give a trainee his own."""
        if trainee:
            raise ExchangeRefusalError(403, f"you must ask for your own, got {trainee!r}")
        self.finish({"files": _wired(self.store.fetch(unit, self.trainee()))})

    def put(self, unit: str, trainee: str = "") -> None:
        """Take what an instructor releases to a trainee."""
        self.only_instructors()
        if trainee not in self.people.trainees():
            rule = "trainee must have an account on this server"
            raise ExchangeRefusalError(404, f"{rule}, got {trainee!r}")
        self.store.release(unit, trainee, unpacked(self.body().get("files")))
        self.finish({})


class HandIns(Question):
    """What was handed in."""

    def post(self, unit: str) -> None:
        """Keep what a trainee hands in; the answer comes once it is on the disk."""
        files = unpacked(self.body().get("files"))
        self.finish(_about(self.store.hand_in(unit, self.trainee(), files)))

    def get(self, unit: str) -> None:
        """Tell an instructor what all have handed in."""
        self.only_instructors()
        found = self.store.class_of(unit).items()
        self.finish({"class": {who: [_about(one) for one in tries] for who, tries in found}})


class OneHandIn(Question):
    """The files of one hand-in, for instructors."""

    def get(self, unit: str, trainee: str, number: str) -> None:
        """Answer."""
        self.only_instructors()
        self.finish({"files": _wired(self.store.one(unit, trainee, int(number)).files())})


class Feedback(Question):
    """A page of comments."""

    def get(self, unit: str, number: str) -> None:
        """Give a trainee the page on his own attempt."""
        self.finish({"page": self.store.feedback(unit, self.trainee(), int(number))})


class GiveFeedback(Question):
    """A page of comments, from an instructor."""

    def put(self, unit: str, trainee: str, number: str) -> None:
        """Take it."""
        self.only_instructors()
        page = self.body().get("page")
        if not isinstance(page, str):
            raise ExchangeRefusalError(400, "page must be text, got another kind")
        self.store.give_feedback(unit, trainee, int(number), page)
        self.finish({})


class SetWindow(Question):
    """From when till when a unit may be worked on, from an instructor."""

    def put(self, unit: str) -> None:
        """Take it."""
        self.only_instructors()
        try:
            window = Window.of(self.body())
        except (TypeError, ValueError, AttributeError) as error:
            raise ExchangeRefusalError(400, f"window must be dates, got: {error}") from error
        self.store.set_window(unit, window)
        self.finish({})


class SendGrades(Question):
    """Marks of a unit, from an instructor, for the learning platform."""

    async def put(self, unit: str) -> None:
        """Send them on; say what became of each."""
        self.only_instructors()
        if self.grades is None:
            rule = "marks must have a platform to go to"
            raise ExchangeRefusalError(409, f"{rule}, got no token_url under lti in server.toml")
        try:
            told = dict(self.body()["marks"]).items()
            marks = {who: Mark.of(one) for who, one in told}
        except (KeyError, TypeError, ValueError) as error:
            raise ExchangeRefusalError(400, f"marks must be tables, got: {error}") from error
        self.finish({"told": await self.grades.send(unit, marks, self.people.trainees())})


class Keys(RequestHandler):
    """The public half of our key, for the platform."""

    def get(self) -> None:
        """Answer anybody."""
        path = Path(os.environ.get(PLATFORM, ""), "key.pem")
        self.finish(public_keys(path) if path.is_file() else {"keys": []})


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


def _about(one: HandIn) -> dict[str, Any]:
    when = one.handed_in.isoformat()
    about = {"number": one.number, "handed_in": when, "size": one.size}
    return {**about, "notebook": one.notebook, "names": one.names}


def _wired(files: Mapping[str, bytes]) -> dict[str, str]:
    return {name: base64.b64encode(data).decode() for name, data in files.items()}


if __name__ == "__main__":
    main()
