"""What the exchange can be asked, one class a question; who asks, the hub's token says."""

import http.client
import json
import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from fuelcircuits.errors import CircuitError
from jupyterhub.services.auth import HubAuth
from tornado.web import RequestHandler

from fuelmarks.course.window import Window
from fuelmarks.server.exchange.grades import Grades, Mark
from fuelmarks.server.exchange.packing import ExchangeRefusalError, unpacked, wired
from fuelmarks.server.exchange.people import People, Person, person_of
from fuelmarks.server.exchange.store import HandIn, Store
from fuelmarks.server.own_key import public_keys

__all__ = [
    "PLATFORM",
    "Feedback",
    "GiveFeedback",
    "HandIns",
    "Keys",
    "OneHandIn",
    "Question",
    "Release",
    "SendGrades",
    "SetWindow",
    "Units",
]

PLATFORM = "FUELCIRCUITS_PLATFORM"


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
        self.finish({"files": wired(self.store.fetch(unit, self.trainee()))})

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
        self.finish({"files": wired(self.store.one(unit, trainee, int(number)).files())})


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


def _about(one: HandIn) -> dict[str, Any]:
    when = one.handed_in.isoformat()
    about = {"number": one.number, "handed_in": when, "size": one.size}
    return {**about, "notebook": one.notebook, "names": one.names}
