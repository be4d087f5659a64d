"""A trainee's side of the class server's exchange, for nbgrader's Assignment List.

Everybody fetches a notebook of his own, hands in under his own name, and gets his own comments.
Who it is and when it was is for the service to say: this file runs with the trainee's rights, and
is trusted with nothing. It is copied by itself into the trainees' environment, so it needs nbgrader
and Python's own library alone.
"""

import base64
import http.client
import json
import os
import re
import stat
import time
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlsplit

from nbgrader.exchange import abc

__all__ = ["ADDRESS", "FetchAssignment", "FetchFeedback", "Link", "List", "Submit"]

ADDRESS, TOKEN = "FUELCIRCUITS_EXCHANGE", "JUPYTERHUB_API_TOKEN"
COURSE = "fuelcircuits"
LARGEST = 8 << 20
HIDDEN = re.compile(r"\..*|.*\.part")
SAFE = re.compile(r"[A-Za-z0-9][A-Za-z0-9_. -]{0,99}")


class Link:
    """The way to the exchange, as whoever this server's token stands for.

    A question that finds the exchange or its hub restarting is asked again for `patience` seconds;
    to hand in twice the same is to hand in once.
    """

    def __init__(self, patience: float = 20.0) -> None:
        self.address, self.token = os.environ.get(ADDRESS, ""), os.environ.get(TOKEN, "")
        self.patience = patience

    def ask(self, method: str, *path: str, body: object = None) -> Any:
        """Return the answer; raise `ExchangeError` in the exchange's own words if it refuses."""
        if not self.address:
            raise abc.ExchangeError("the exchange must be on a class server, got none here")
        until = time.monotonic() + self.patience
        while True:
            try:
                status, raw = self._once(method, path, body)
                if status < http.client.INTERNAL_SERVER_ERROR or time.monotonic() > until:
                    break
            except (OSError, http.client.HTTPException) as error:
                if time.monotonic() > until:
                    rule = "the exchange must answer, got none"
                    raise abc.ExchangeError(f"{rule} ({error}); try again in a minute") from error
            time.sleep(0.3)
        try:
            told = json.loads(raw)
        except ValueError:
            told = {"why": f"the exchange must answer in JSON, got status {status}"}
        if status != http.client.OK:
            raise abc.ExchangeError(told.get("why", f"the exchange refused, status {status}"))
        return told

    def _once(self, method: str, path: tuple[str, ...], body: object) -> tuple[int, bytes]:
        """Return status and bytes of one answer."""
        where = urlsplit(self.address)
        line = http.client.HTTPConnection(where.hostname or "", where.port, timeout=60)
        try:
            raw = None if body is None else json.dumps(body).encode()
            asked = "/".join(
                [where.path.rstrip("/"), "api", *(quote(one, safe="") for one in path)]
            )
            head = {"Authorization": f"token {self.token}", "Content-Type": "application/json"}
            line.request(method, asked, raw, head)
            answer = line.getresponse()
            return answer.status, answer.read()
        finally:
            line.close()


class _Own:
    """What the four classes share: the link, and where the work of a unit lies."""

    coursedir: Any
    assignment_dir: str
    log: Any

    def init_src(self) -> None:
        """Ask nothing of the file system."""
        self.link = Link()

    def init_dest(self) -> None:
        """Ask nothing of the file system."""

    @property
    def unit(self) -> str:
        """Return the unit that is asked for."""
        return str(self.coursedir.assignment_id)

    def place(self, unit: str) -> Path:
        """Return the folder in which the trainee works on `unit`."""
        return Path(self.assignment_dir, unit).absolute()


class List(_Own, abc.ExchangeList):  # type: ignore[misc]
    """What is released to whoever asks, or what was handed in by him."""

    def copy_files(self) -> None:
        """Copy nothing."""

    def remove_files(self) -> list[dict[str, Any]]:
        """Refuse: what is in the exchange is not the trainee's to take out."""
        raise abc.ExchangeError("what was released or handed in must stay, got a wish to remove it")

    def list_files(self) -> list[dict[str, Any]]:
        """Return the units in the form that the Assignment List shows."""
        units = self.link.ask("GET", "units")["units"]
        if self.inbound or self.cached:
            return [self._handed_in(one) for one in units if one["hand_ins"]]
        return [self._released(one["unit"]) for one in units]

    def _released(self, unit: str) -> dict[str, Any]:
        place = self.place(unit)
        found = sorted(place.glob("*.ipynb")) or [place / f"{unit}.ipynb"]
        return {
            "course_id": COURSE,
            "assignment_id": unit,
            "status": "fetched" if place.is_dir() else "released",
            "path": str(place),
            "notebooks": [{"notebook_id": one.stem, "path": str(one)} for one in found],
        }

    def _handed_in(self, one: dict[str, Any]) -> dict[str, Any]:
        tries = [self._try(one["unit"], each) for each in one["hand_ins"]]
        about = {"course_id": COURSE, "assignment_id": one["unit"], "student_id": "you"}
        return {**about, "status": "submitted", "submissions": tries}

    def _try(self, unit: str, one: dict[str, Any]) -> dict[str, Any]:
        folder = self.place(unit) / "feedback" / _stamp(one)
        page = folder / f"{unit}.html"
        feedback = {
            "has_local_feedback": page.is_file(),
            "has_exchange_feedback": bool(one["feedback"]),
            "feedback_updated": page.is_file() and _noted(folder) != one["feedback"],
            "local_feedback_path": str(folder) if page.is_file() else None,
        }
        path = str(self.place(unit))
        held = {"notebook_id": unit, "path": path, **feedback}
        about = {"course_id": COURSE, "assignment_id": unit, "student_id": "you"}
        when = {"timestamp": _stamp(one), "status": "submitted", "path": path}
        return {**about, **when, "notebooks": [held], **feedback}


class FetchAssignment(_Own, abc.ExchangeFetchAssignment):  # type: ignore[misc]
    """Fetch one's own notebook; what lies there already is left as it is."""

    def copy_files(self) -> None:
        """Write what is missing."""
        files = self.link.ask("GET", "release", self.unit)["files"]
        place = self.place(self.unit)
        if place.is_dir() and not self.replace_missing_files:
            raise abc.ExchangeError(f"{self.unit} must be fetched once, got a folder of that name")
        place.mkdir(exist_ok=True)
        for name, data in sorted(files.items()):
            if SAFE.fullmatch(name) and not (place / name).exists():
                _put(place / name, base64.b64decode(data))
        self.log.info("fetched %s into %s", self.unit, place)


class Submit(_Own, abc.ExchangeSubmit):  # type: ignore[misc]
    """Hand in the notebook, and the plain files beside it."""

    def copy_files(self) -> None:
        """Hand in once; the exchange says which attempt it is, and when it came."""
        files = _files(self.place(self.unit))
        if f"{self.unit}.ipynb" not in files:
            raise abc.ExchangeError(f"{self.unit}.ipynb must lie in {self.unit}, got no such file")
        sent = {name: base64.b64encode(data).decode() for name, data in files.items()}
        got = self.link.ask("POST", "hand-ins", self.unit, body={"files": sent})
        self.log.info("handed in %s, attempt %s of %s", self.unit, got["number"], got["handed_in"])


class FetchFeedback(_Own, abc.ExchangeFetchFeedback):  # type: ignore[misc]
    """Fetch the page of comments of every attempt that has one."""

    def copy_files(self) -> None:
        """Write each page into a folder named after the attempt's time."""
        units = {one["unit"]: one for one in self.link.ask("GET", "units")["units"]}
        for one in units.get(self.unit, {"hand_ins": []})["hand_ins"]:
            if not one["feedback"]:
                continue
            page = self.link.ask("GET", "feedback", self.unit, str(one["number"]))["page"]
            folder = self.place(self.unit) / "feedback" / _stamp(one)
            folder.mkdir(parents=True, exist_ok=True)
            _put(folder / f"{self.unit}.html", page.encode())
            _put(folder / ".digest", one["feedback"].encode())


def _stamp(one: dict[str, Any]) -> str:
    """Return time and number of an attempt as a name that sorts, and that any system can write."""
    when = datetime.fromisoformat(one["handed_in"]).astimezone(UTC)
    return f"{when:%Y-%m-%d %H.%M.%S} UTC, attempt {one['number']}"


def _noted(folder: Path) -> str:
    """Return the digest of the page that was fetched last."""
    try:
        return (folder / ".digest").read_text("utf-8")
    except OSError:
        return ""


def _put(path: Path, data: bytes) -> None:
    """Put `data` at `path`, whole or not at all."""
    part = path.with_name(f".{path.name}.part")
    part.write_bytes(data)
    part.replace(path)


def _files(place: Path) -> dict[str, bytes]:
    """Return the plain files in `place` by name; raise `ExchangeError` for a link or too much."""
    found: dict[str, bytes] = {}
    for path in sorted(place.iterdir() if place.is_dir() else ()):
        if path.is_dir() or not SAFE.fullmatch(path.name) or HIDDEN.fullmatch(path.name):
            continue
        try:
            handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK)
        except OSError as error:
            raise abc.ExchangeError(f"{path.name} must be a plain file, got a link") from error
        with os.fdopen(handle, "rb") as file:
            if not stat.S_ISREG(os.fstat(handle).st_mode):
                raise abc.ExchangeError(f"{path.name} must be a plain file, got another kind")
            found[path.name] = file.read(LARGEST + 1)
    if (size := sum(map(len, found.values()))) > LARGEST:
        rule = f"what is handed in must be {LARGEST >> 20} MB or less"
        raise abc.ExchangeError(f"{rule}, got {size / 2**20:.1f} MB; make the pictures smaller")
    return found
