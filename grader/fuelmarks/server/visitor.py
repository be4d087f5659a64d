"""Somebody at a browser, as far as a program can be: logs in, has a server started, asks it things.

Uses what the hub and Jupyter offer to any browser, and nothing else.
"""

import http.cookiejar
import json
import re
import time
import urllib.error
import urllib.parse
import urllib.request
from typing import Any

from fuelmarks.server.class_server import ServerError

__all__ = ["Visitor"]

TOKEN = re.compile(r'name="_xsrf" value="([^"]+)"')


class Visitor:
    """One browser, at the class server's `front`."""

    def __init__(self, front: str, name: str) -> None:
        self.front, self.name = front, name
        self.cookies = http.cookiejar.CookieJar()
        self._opener = urllib.request.build_opener(
            urllib.request.ProxyHandler({}), urllib.request.HTTPCookieProcessor(self.cookies)
        )

    def log_in(self, password: str) -> None:
        """Log in by name and password; raise `ServerError` if the hub lets nobody in."""
        token = TOKEN.search(self.page("/hub/login"))
        form = {"username": self.name, "password": password, "_xsrf": token[1] if token else ""}
        status, text = self.ask("POST", "/hub/login", form=form)
        if status != 200 or 'name="password"' in text:
            raise ServerError(f"{self.name} must be let in, got status {status}")

    def start(self, within: float = 120.0) -> None:
        """Have the own server started, and wait until it answers."""
        until = time.monotonic() + within
        self.page(f"/hub/spawn/{self.name}")
        while self.own("GET", "api/status")[0] != 200:
            if time.monotonic() > until:
                raise ServerError(f"server of {self.name} must start within {within:g} s, got none")
            time.sleep(0.4)
            self.page(f"/user/{self.name}/lab")

    def own(self, method: str, path: str, **sent: Any) -> tuple[int, str]:
        """Ask the visitor's own server; return status and text."""
        return self.ask(method, f"/user/{self.name}/{path}", **sent)

    def work(self, path: str) -> Any:
        """Return the notebook at `path` in the visitor's folder."""
        status, text = self.own("GET", f"api/contents/{path}")
        if status != 200:
            raise ServerError(f"{path} of {self.name} must be readable, got status {status}")
        return json.loads(text)["content"]

    def save(self, path: str, notebook: Any) -> None:
        """Save a notebook at `path` in the visitor's folder."""
        told = {"type": "notebook", "format": "json", "content": notebook}
        status, text = self.own("PUT", f"api/contents/{path}", told=told)
        if status not in (200, 201):
            raise ServerError(f"{path} of {self.name} must be saved, got status {status}: {text}")

    def press(self, action: str, unit: str) -> tuple[bool, str]:
        """Press a button of the Assignment List; return whether that went well, and the answer."""
        form = {"course_id": "fuelcircuits", "assignment_id": unit}
        status, text = self.own("POST", f"assignments/{action}", form=form)
        return status == 200 and bool(json.loads(text).get("success")), text

    def listed(self) -> list[dict[str, Any]]:
        """Return what the Assignment List shows."""
        _, text = self.own("GET", "assignments?course_id=fuelcircuits")
        told = json.loads(text)
        if not told["success"]:
            raise ServerError(f"assignments of {self.name} must be listed, got {told['value']}")
        listed: list[dict[str, Any]] = told["value"]
        return listed

    def token(self) -> str:
        """Return a new token of the visitor's, for programs."""
        status, text = self.ask("POST", f"/hub/api/users/{self.name}/tokens", told={"note": "own"})
        if status != 201:
            raise ServerError(f"{self.name} must get a token, got status {status}: {text}")
        return str(json.loads(text)["token"])

    def page(self, path: str) -> str:
        """Return the text of a page."""
        return self.ask("GET", path, head={"Accept": "text/html"})[1]

    def ask(
        self,
        method: str,
        path: str,
        *,
        form: dict[str, str] | None = None,
        told: object = None,
        head: dict[str, str] | None = None,
    ) -> tuple[int, str]:
        """Ask for `path`; return status and text."""
        sent = urllib.parse.urlencode(form).encode() if form else None
        heads = {"X-XSRFToken": self._xsrf(path), "Referer": self.front + path, **(head or {})}
        if told is not None:
            sent, heads["Content-Type"] = json.dumps(told).encode(), "application/json"
        asked = urllib.request.Request(self.front + path, sent, heads, method=method)
        try:
            with self._opener.open(asked, timeout=120) as answer:
                return int(answer.status), answer.read().decode(errors="replace")
        except urllib.error.HTTPError as error:
            with error:
                return error.code, error.read().decode(errors="replace")

    def _xsrf(self, path: str) -> str:
        """Return the token against forged questions that goes with `path`: its nearest cookie."""
        fit = [one for one in self.cookies if one.name == "_xsrf" and path.startswith(one.path)]
        return max(fit, key=lambda one: len(one.path)).value or "" if fit else ""
