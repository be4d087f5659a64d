"""The term: the key from which the trainees' numbers are drawn, due dates, the rule on lateness.

key = "…"                              made at the first hand-out; nobody else's business
worked = ["05-off-idle"]               units whose worked answers stand on the trainees' pages
gradebook = "postgresql+psycopg://…"   a database server, in the place of gradebook.db

[due]
05-off-idle = 2026-12-04T18:00:00      this computer's time, or with an offset of its own
06-high-speed = 2026-12-11             till the end of that day

[due.t004]
05-off-idle = 2026-12-07T18:00:00      more time for one trainee

[late]
rule = "percent-a-day"                 or "shown" (costs nothing), or "zero"
percent = 10                           of the points earned, for each day begun

[exam.07-power]                        a unit by the clock of the class server: see `window`
opens = 2026-12-18T09:00:00
closes = 2026-12-18T10:30:00
"""

import json
import re
import secrets
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

from fuelmarks.course.error import CourseError
from fuelmarks.course.whole_file import put_new, put_whole
from fuelmarks.course.window import Window, read_windows

__all__ = [
    "RULES",
    "Lateness",
    "Term",
    "gradebook_of",
    "read_term",
    "term_key",
    "use_gradebook",
]

FILE = "term.toml"
KEYS = ("key", "worked", "gradebook", "due", "late", "exam")
LATE_KEYS = ("rule", "percent")
RULES = ("shown", "zero", "percent-a-day")
SHORTEST = 8
ADDRESSES = ("postgresql+psycopg://", "sqlite:///")
GRADEBOOK = re.compile(r"gradebook\s*=")
HEAD = "# Draws the trainees' numbers. Keep it to yourself, keep it all term, and keep a copy.\n"
MADE_WITH_IT = (
    *("handout/*/*/*.ipynb", "submitted/*/*/*.ipynb", "submitted/*/attempts/*/*/*.ipynb"),
    *("autograded/*/*/*.ipynb", "paper/*/handout/*.html", "paper/*/key/*.html"),
)
NOBODYS = ("specimen", "handout", "key")
"""Pages for nobody in particular, which hold the specimen's numbers."""


@dataclass(frozen=True)
class Lateness:
    """What lateness costs: the instructor's rule."""

    rule: str = ""
    percent: float = 0.0


@dataclass(frozen=True)
class Term:
    """What the file of the term says; `due` by unit, `own_due` by trainee and unit.

    `worked` are the units whose answers may be shown worked out, once they are marked.
    """

    key: str = ""
    due: Mapping[str, datetime] = field(default_factory=dict)
    own_due: Mapping[tuple[str, str], datetime] = field(default_factory=dict)
    late: Lateness = field(default_factory=Lateness)
    worked: frozenset[str] = frozenset()
    exams: Mapping[str, Window] = field(default_factory=dict)
    gradebook: str = ""

    def due_for(self, unit: str, trainee: str) -> datetime | None:
        """Return until when `trainee` may hand in `unit`; None if no date is set."""
        return self.own_due.get((trainee, unit), self.due.get(unit))


def read_term(root: Path) -> Term:
    """Return the term of the course in `root`; one without a file says nothing."""
    path = root / FILE
    held = _held(path)
    _check_keys(path, "name", held, KEYS)
    due = held.get("due", {})
    if not isinstance(due, dict):
        raise CourseError(f"{path}: due must be a table of units and dates, got {due!r}")
    own = {one: dates for one, dates in due.items() if isinstance(dates, dict)}
    for trainee, dates in own.items():
        for unit in dates.keys() - due.keys():
            rule = f"due {trainee}.{unit} must go with a date of the class"
            raise CourseError(f"{path}: {rule}, got no due {unit}")
    return Term(
        key=_key(path, held),
        due={unit: _moment(path, unit, when) for unit, when in due.items() if unit not in own},
        own_due={
            (trainee, unit): _moment(path, f"{trainee}.{unit}", when)
            for trainee, dates in own.items()
            for unit, when in dates.items()
        },
        late=_late(path, held.get("late", {})),
        worked=_worked(path, held.get("worked", [])),
        exams=read_windows(path, held.get("exam", {})),
        gradebook=_gradebook(path, held.get("gradebook", "")),
    )


def gradebook_of(root: Path) -> str:
    """Return the address of the gradebook of the course in `root`."""
    return read_term(root).gradebook or f"sqlite:///{root / 'gradebook.db'}"


def use_gradebook(root: Path, address: str) -> None:
    """Have the course in `root` keep its gradebook at `address` from now on."""
    path = root / FILE
    _gradebook(path, address)
    text = path.read_text(encoding="utf-8-sig") if path.exists() else ""
    lines = [line for line in text.splitlines() if not GRADEBOOK.match(line)]
    put_whole(path, "\n".join([f"gradebook = {json.dumps(address)}", *lines, ""]).encode(), 0o600)
    read_term(root)


def term_key(root: Path) -> str:
    """Return the term's key; before anything was handed out, one is made and kept.

    Raises `CourseError` if there is none and something made with it lies in the course.
    """
    if key := read_term(root).key:
        return key
    path = root / FILE
    if found := _made_with_a_key(root):
        raise CourseError(
            f"{path} must hold the term's key, with which {found.relative_to(root)} was made, "
            "got none; put it back from your copy, for a new key would draw other numbers"
        )
    made = f'{HEAD}key = "{secrets.token_hex(16)}"\n'
    if path.exists():
        put_whole(path, f"{made}\n{path.read_text(encoding='utf-8')}".encode(), 0o600)
    else:
        put_new(path, made.encode(), 0o600)
    return read_term(root).key


def _held(path: Path) -> dict[str, Any]:
    """Return what stands in the file, nothing if there is none."""
    try:
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except FileNotFoundError:
        return {}
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise CourseError(f"{path} must be TOML, got: {error}") from error


def _check_keys(path: Path, what: str, held: Mapping[str, Any], known: Sequence[str]) -> None:
    """Raise `CourseError` if something in a table is called as nothing is that is read."""
    for name in held.keys() - set(known):
        raise CourseError(f"{path}: {what} must be one of {', '.join(known)}, got {name!r}")


def _key(path: Path, held: Mapping[str, Any]) -> str:
    """Return the key, nothing if there is none."""
    key = held.get("key", "")
    if "key" in held and (not isinstance(key, str) or len(key) < SHORTEST):
        raise CourseError(f"{path}: key must be text of {SHORTEST} characters or more, got {key!r}")
    return str(key)


def _moment(path: Path, name: str, when: object) -> datetime:
    """Return a due date as a moment: without an offset in this computer's time."""
    if isinstance(when, datetime):
        return when.astimezone()
    if isinstance(when, date):
        return datetime.combine(when, time(23, 59, 59)).astimezone()
    raise CourseError(f"{path}: due {name} must be like 2026-12-04T18:00:00, got {when!r}")


def _late(path: Path, held: object) -> Lateness:
    """Return the rule on lateness."""
    said: dict[str, Any] = held if isinstance(held, dict) else {"rule": held}
    _check_keys(path, "key of late", said, LATE_KEYS)
    rule, percent = said.get("rule", ""), said.get("percent", 0)
    if rule and rule not in RULES:
        raise CourseError(f"{path}: rule on late must be one of {', '.join(RULES)}, got {rule!r}")
    number = isinstance(percent, int | float) and not isinstance(percent, bool)
    if not number or not 0 <= percent <= 100 or (rule == "percent-a-day") != (percent > 0):
        need = "between 0 and 100, and more than 0 for percent-a-day alone"
        raise CourseError(f"{path}: percent on late must be {need}, got {percent!r}")
    return Lateness(rule, float(percent))


def _gradebook(path: Path, held: object) -> str:
    """Return the address of the gradebook, nothing if none is set."""
    if not isinstance(held, str) or (held and not held.startswith(ADDRESSES)):
        rule = f"gradebook must begin with {' or '.join(ADDRESSES)}"
        raise CourseError(f"{path}: {rule}, got {held!r}")
    return held


def _worked(path: Path, held: object) -> frozenset[str]:
    """Return the units whose worked answers may be shown."""
    if not isinstance(held, list) or not all(isinstance(one, str) for one in held):
        raise CourseError(f"{path}: worked must be a list of units, got {held!r}")
    return frozenset(held)


def _made_with_a_key(root: Path) -> Path | None:
    """Return something in the course that holds numbers drawn with a key, if there is any."""
    found = (path for pattern in MADE_WITH_IT for path in sorted(root.glob(pattern)))
    return next((path for path in found if path.stem not in NOBODYS), None)
