"""What an instructor sends to the exchange and takes from it, told trainee by trainee."""

import base64
from collections.abc import Iterator, Mapping
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Any

from nbgrader.exchange import abc

from fuelmarks.classroom.attempts import attempts
from fuelmarks.classroom.collect import take_in
from fuelmarks.classroom.collected import Collected
from fuelmarks.classroom.own_exchange import Link
from fuelmarks.classroom.returns import Delivered
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import read
from fuelmarks.gradebook.submission import SubmissionError, plain_file

__all__ = ["Said", "StaffLink", "collect_sent", "release", "send_feedback", "send_grades"]


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
