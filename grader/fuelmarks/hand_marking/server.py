"""The page for marking by hand, served to this computer alone and to whoever has the token.

The token comes once in the address and stays in a cookie that no script reads and no other site
can send. No script runs but our own, whatever stands in an answer.
"""

import hmac
import json
import secrets
from collections.abc import Mapping
from http import HTTPStatus
from http.cookies import CookieError, SimpleCookie
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from importlib.resources import files
from threading import Lock
from typing import Any
from urllib.parse import parse_qs, quote, unquote, urlsplit

from fuelcircuits.errors import CircuitError
from jinja2 import Environment

from fuelmarks.course.course import Course
from fuelmarks.course.templates import templates
from fuelmarks.gradebook.standing import standings
from fuelmarks.hand_marking.question import answers_to, question_of, written_questions
from fuelmarks.hand_marking.saving import save

__all__ = ["HandMarking"]

HOST = "127.0.0.1"
LONGEST = 100_000
HEADERS: Mapping[str, str] = {
    "Cache-Control": "no-store",
    "Content-Security-Policy": (
        "default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'self'; "
        "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    ),
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}


class HandMarking(ThreadingHTTPServer):
    """A server for the written questions of one unit; close it when marking is done."""

    daemon_threads = True

    def __init__(self, course: Course, unit: str, port: int = 0) -> None:
        self.course, self.unit = course, unit
        self.questions = written_questions(course, unit)
        self.token = secrets.token_urlsafe(24)
        self.saving = Lock()
        super().__init__((HOST, port), _Handler)

    @property
    def origin(self) -> str:
        """Return where the server is found."""
        return f"http://{HOST}:{self.server_port}"

    @property
    def cookie(self) -> str:
        """Return the name of the cookie, another one for each port."""
        return f"hand-marking-{self.server_port}"

    def address(self, question: str = "") -> str:
        """Return the address to open first, with the token in it."""
        return f"{self.origin}/{quote(question)}?token={self.token}"


class _Handler(BaseHTTPRequestHandler):
    """Answers one request."""

    server: HandMarking
    protocol_version = "HTTP/1.1"
    timeout = 30

    def do_GET(self) -> None:
        """Show the list of questions, one of them, or our own script."""
        asked = urlsplit(self.path)
        token = parse_qs(asked.query).get("token", [""])[0]
        if not self._is_for_us():
            return
        if hmac.compare_digest(token.encode(), self.server.token.encode()):
            self._go(asked.path)
        elif not self._has_cookie():
            self._refuse(HTTPStatus.FORBIDDEN, "Open the address that the command has printed.")
        elif asked.path == "/hand.js":
            script = files("fuelmarks") / "templates" / "hand" / "hand.js"
            self._send(HTTPStatus.OK, script.read_bytes(), "text/javascript; charset=utf-8")
        else:
            self._show(unquote(asked.path.strip("/")))

    def do_POST(self) -> None:
        """Enter one mark, and say what it came to."""
        name = unquote(urlsplit(self.path).path.strip("/"))
        if not self._is_for_us():
            return
        same = self.headers.get("Origin") == self.server.origin
        if not (same and self._has_cookie() and name in self.server.questions):
            self._refuse(HTTPStatus.FORBIDDEN, "This did not come from the page.")
            return
        try:
            self._say(HTTPStatus.OK, self._saved(name))
        except (CircuitError, OSError, RecursionError, ValueError) as error:
            self._say(HTTPStatus.CONFLICT, {"error": str(error)})

    def _saved(self, name: str) -> Mapping[str, Any]:
        """Return what the page is told about a mark that has been entered."""
        length = int(self.headers.get("Content-Length", "0"))
        if not 0 < length <= LONGEST:
            self.close_connection = True
            raise ValueError(f"a mark must have 1 to {LONGEST} bytes, got {length}")
        sent = json.loads(self.rfile.read(length))
        with self.server.saving:
            question = question_of(self.server.course, self.server.unit, name)
            saved = save(self.server.course, question, sent)
        return {"points": saved.points}

    def _show(self, name: str) -> None:
        """Show a page."""
        if name and name not in self.server.questions:
            self._refuse(HTTPStatus.NOT_FOUND, "There is no such page.")
            return
        try:
            page = self._page(name) if name else self._list()
        except CircuitError as error:
            self._refuse(HTTPStatus.CONFLICT, str(error))
            return
        self._send(HTTPStatus.OK, page.encode(), "text/html; charset=utf-8")

    def _list(self) -> str:
        """Return the list of questions, and how far each has got."""
        listed = []
        for name in self.server.questions:
            question = question_of(self.server.course, self.server.unit, name)
            found = standings(self.server.course, self.server.unit, question.grade_id)
            waiting = sum(one.points is None for one in found.values())
            listed.append((question, len(found), waiting))
        return (
            _pages().get_template("hand/list.html.j2").render(unit=self.server.unit, listed=listed)
        )

    def _page(self, name: str) -> str:
        """Return the page of one question."""
        course = self.server.course
        question = question_of(course, self.server.unit, name)
        answers = tuple(answers_to(course, question))
        present = {one.trainee.id for one in answers}
        absent = [one for one in course.trainees() if one.id not in present]
        return (
            _pages()
            .get_template("hand/question.html.j2")
            .render(question=question, answers=answers, absent=absent)
        )

    def _is_for_us(self) -> bool:
        """Say whether the request names this server and no other; refuse it if not."""
        if self.headers.get("Host") == urlsplit(self.server.origin).netloc:
            return True
        self.close_connection = True
        self._refuse(HTTPStatus.MISDIRECTED_REQUEST, f"Open {self.server.origin} itself.")
        return False

    def _has_cookie(self) -> bool:
        """Say whether the request comes from a page that was opened with the token."""
        try:
            held = SimpleCookie(self.headers.get("Cookie", "")).get(self.server.cookie)
        except CookieError:
            return False
        token = held.value if held else ""
        return hmac.compare_digest(token.encode(), self.server.token.encode())

    def _go(self, path: str) -> None:
        """Put the token into a cookie and out of the address."""
        self.send_response(HTTPStatus.SEE_OTHER)
        self.send_header("Location", f"/{path.lstrip('/')}")
        held = f"{self.server.cookie}={self.server.token}"
        self.send_header("Set-Cookie", f"{held}; HttpOnly; SameSite=Strict; Path=/")
        self.send_header("Content-Length", "0")
        self.end_headers()

    def _refuse(self, status: HTTPStatus, words: str) -> None:
        """Refuse a request in plain words."""
        self._send(status, words.encode(), "text/plain; charset=utf-8")

    def _say(self, status: HTTPStatus, held: Mapping[str, Any]) -> None:
        """Answer our own script."""
        self._send(status, json.dumps(held).encode(), "application/json")

    def _send(self, status: HTTPStatus, body: bytes, kind: str) -> None:
        """Send an answer."""
        self.send_response(status)
        for name, value in HEADERS.items():
            self.send_header(name, value)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_: Any) -> None:
        """Print nothing."""


def _pages() -> Environment:
    """Return the templates."""
    pages = templates()
    pages.filters["number"] = "{:g}".format
    return pages
