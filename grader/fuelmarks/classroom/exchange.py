"""An instructor's side of the exchange: release to each his own, collect, give comments back.

On a class server this is what nbgrader's and formgrader's own buttons do. Anywhere else there is
no exchange, and they refuse: nbgrader's own release gives everybody the specimen's numbers, with
which right answers would earn nothing.
"""

import base64
import os
from collections.abc import Iterator, Mapping
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Any

from nbgrader.exchange import abc

from fuelmarks.classroom.attempts import attempts
from fuelmarks.classroom.collect import take_in
from fuelmarks.classroom.collected import Collected, collection_table
from fuelmarks.classroom.own_exchange import ADDRESS, Link
from fuelmarks.classroom.returns import Delivered
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import read
from fuelmarks.gradebook.submission import SubmissionError, plain_file

__all__ = [
    "Collect",
    "List",
    "NoFetch",
    "Release",
    "ReleaseFeedback",
    "collect_sent",
    "release",
    "send_feedback",
    "send_grades",
]

WHY = (
    "assignment must be handed out by `fuelmarks hand-out {unit}`, which gives each trainee "
    "numbers of his own, got nbgrader's {step}, which gives all of them the same; "
    "nothing was {done}"
)


class RefusedError(CourseError, abc.ExchangeError):  # type: ignore[misc]
    """What the exchange refuses: one sentence of a command, and what nbgrader's buttons expect."""


class StaffLink(Link):
    """An instructor's way to the exchange: a command says in one sentence what is refused."""

    def ask(self, method: str, *path: str, body: object = None) -> Any:
        """Return the answer; raise `RefusedError` in the exchange's own words if it refuses."""
        try:
            return super().ask(method, *path, body=body)
        except abc.ExchangeError as error:
            raise RefusedError(str(error)) from error


Said = tuple[str, str]
"""A trainee, and why nothing was sent for him; nothing if it was."""


def release(course: Course, unit: str) -> Iterator[Said]:
    """Send the exchange everybody's own notebook of `unit`, and from when till when it is open."""
    link = StaffLink()
    exam = course.term.exams.get(unit)
    link.ask("PUT", "window", unit, body=exam.plain() if exam else {})
    for one in course.trainees():
        notebook = course.notebook("handout", unit, one.id)
        if not notebook.is_file():
            raise CourseError(f"{unit} must be handed out before it is released, got no {notebook}")
        files = {path.name: plain_file(path) for path in _shown(notebook.parent)}
        yield one.id, _refusal(link, "PUT", "release", unit, one.id, body={"files": _wired(files)})


def collect_sent(course: Course, unit: str) -> Collected:
    """Take in what was handed in on the class server, as `collect` takes in what was delivered."""
    course.text(unit)
    link = StaffLink()
    found = link.ask("GET", "hand-ins", unit)["class"]
    files = [_sent(link, unit, who, one) for who, tries in found.items() for one in tries]
    return take_in(course, unit, sorted(files, key=lambda file: file.handed_in))


def send_feedback(course: Course, unit: str) -> Iterator[Said]:
    """Send each trainee's page in `reports/` to the exchange, as comments on what was marked.

    To somebody who has handed in nothing there is nothing to give back.
    """
    link = StaffLink()
    found = link.ask("GET", "hand-ins", unit)["class"]
    for page in sorted((course.root / "reports" / unit / "trainees").glob("*.html")):
        who = page.stem
        if not course.notebook("autograded", unit, who).is_file():
            if found.get(who):
                yield who, f"what was handed in must be marked first; `fuelmarks mark {unit}`"
            continue
        one = _marked(course, unit, who, found.get(who, []))
        if one is None:
            yield who, "the attempt that counts was not handed in on the class server"
            continue
        told = {"page": page.read_text(encoding="utf-8")}
        yield who, _refusal(link, "PUT", "feedback", unit, who, str(one["number"]), body=told)


def send_grades(unit: str, marks: Mapping[str, Mapping[str, Any]]) -> dict[str, str]:
    """Have the class server send marks to the learning platform; return what became of each.

    Raises `CourseError` in the words of whoever refuses.
    """
    told: dict[str, str] = StaffLink().ask("PUT", "grades", unit, body={"marks": marks})["told"]
    return told


class _Shared:
    """What the classes share: the course, and a place where the exchange does not look."""

    coursedir: Any
    log: Any
    step, done = "", ""

    def init_src(self) -> None:
        """Refuse where there is no exchange."""
        self.unit = str(self.coursedir.assignment_id)
        if not os.environ.get(ADDRESS):
            self.refuse()
        self.course = Course.at(Path(self.coursedir.root))

    def init_dest(self) -> None:
        """Ask nothing of the file system."""

    def refuse(self) -> None:
        """Say what to do instead."""
        why = WHY.format(unit=self.unit, step=self.step, done=self.done)
        self.log.error(why)
        raise abc.ExchangeError(why)

    def tell(self, said: Iterator[Said]) -> None:
        """Log what became of each; fail if something was refused."""
        told = list(said)
        for who, why in told:
            (self.log.error if why else self.log.info)("%s: %s", who, why or "sent")
        if refused := [who for who, why in told if why]:
            raise abc.ExchangeError(f"all must be sent, got a refusal for {', '.join(refused)}")


class Release(_Shared, abc.ExchangeReleaseAssignment):  # type: ignore[misc]
    """In the place of nbgrader's release: to each his own, or nothing."""

    step, done = "release", "released"

    def copy_files(self) -> None:
        """Release."""
        self.tell(release(self.course, self.unit))


class NoFetch(_Shared, abc.ExchangeFetchAssignment):  # type: ignore[misc]
    """In the place of nbgrader's fetch: an instructor fetches nothing."""

    step, done = "fetch", "fetched"

    def init_src(self) -> None:
        """Refuse."""
        self.unit = str(self.coursedir.assignment_id)
        self.refuse()


class Collect(_Shared, abc.ExchangeCollect):  # type: ignore[misc]
    """In the place of nbgrader's collect: `fuelmarks collect`, from the class server."""

    step, done = "collect", "collected"

    def copy_files(self) -> None:
        """Collect."""
        found = collect_sent(self.course, self.unit)
        self.log.info("%s", collection_table(found) if found.rows else "nothing was handed in")


class ReleaseFeedback(_Shared, abc.ExchangeReleaseFeedback):  # type: ignore[misc]
    """In the place of nbgrader's release of feedback: the pages of `fuelmarks report`."""

    step, done = "release of feedback", "released"

    def copy_files(self) -> None:
        """Send the pages."""
        self.tell(send_feedback(self.course, self.unit))


class List(abc.ExchangeList):  # type: ignore[misc]
    """What has been released on the class server; elsewhere nothing has."""

    def init_src(self) -> None:
        """Ask nothing of the file system."""

    def init_dest(self) -> None:
        """Ask nothing of the file system."""

    def copy_files(self) -> None:
        """Copy nothing."""

    def list_files(self) -> list[dict[str, Any]]:
        """Return the units that were released."""
        if not os.environ.get(ADDRESS) or self.inbound or self.cached:
            return []
        units = StaffLink().ask("GET", "units")["units"]
        about = {"course_id": self.coursedir.course_id, "status": "released", "notebooks": []}
        return [{**about, "assignment_id": one["unit"], "path": one["unit"]} for one in units]


def _sent(link: Link, unit: str, who: str, one: dict[str, Any]) -> Delivered:
    """Return one hand-in as something delivered; it is fetched once somebody reads it."""
    kept: dict[str, bytes] = {}

    def read(name: str) -> bytes:
        if not kept:
            try:
                told = link.ask("GET", "hand-ins", unit, who, str(one["number"]))
            except abc.ExchangeError as error:
                raise SubmissionError(str(error)) from error
            kept.update({name: base64.b64decode(data) for name, data in told["files"].items()})
        return kept[name]

    notebook = f"{unit}.ipynb"
    when = datetime.fromisoformat(one["handed_in"])
    beside = {name: partial(read, name) for name in one["names"] if name != notebook}
    parts = (who, f"({one['number']})", notebook)
    return Delivered(parts, when, partial(read, notebook), beside, sender=who)


def _marked(course: Course, unit: str, who: str, tries: list[dict[str, Any]]) -> Any:
    """Return the hand-in that the marked notebook of `who` was, None if it is none of them."""
    marked = read(course.notebook("autograded", unit, who))
    number = int(marked.metadata.get("fuelmarks", {}).get("attempt", 0))
    attempt = next((one for one in attempts(course, unit, who) if one.number == number), None)
    if attempt is None:
        return None
    name = {f"{who}/({one['number']})/{unit}.ipynb": one for one in tries}
    return name.get(attempt.delivered)


def _shown(folder: Path) -> list[Path]:
    """Return what was handed out: no folder, nor what Jupyter hides beside what it has opened."""
    return [path for path in folder.iterdir() if not (path.is_dir() or path.name.startswith("."))]


def _refusal(link: Link, *asked: str, body: object) -> str:
    """Ask; return why it was refused, nothing if it was not."""
    try:
        link.ask(*asked, body=body)
    except abc.ExchangeError as error:
        return str(error)
    return ""


def _wired(files: dict[str, bytes]) -> dict[str, str]:
    return {name: base64.b64encode(data).decode() for name, data in files.items()}
