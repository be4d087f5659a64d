"""What the exchange holds, in a folder of its own user: releases, hand-ins, pages of comments.

    releases/UNIT/TRAINEE       the files that one trainee may fetch
    hand-ins/UNIT/TRAINEE/001   a line about it, then its files; written once, in one piece
    feedback/UNIT/TRAINEE/001   a page of comments on that attempt
    windows/UNIT                from when till when, if the unit is worked on by the clock

The time is this computer's, at the moment when all has arrived. What is answered with a number is
on the disk.
"""

import base64
import binascii
import hashlib
import json
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from fuelcircuits.errors import CircuitError

from fuelmarks.course.whole_file import put_new, put_whole
from fuelmarks.course.window import Window

__all__ = ["LARGEST", "ExchangeRefusalError", "HandIn", "Store"]

UNIT = re.compile(r"\d\d-[a-z][a-z0-9-]{0,60}")
TRAINEE = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,60}")
NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_. -]{0,99}")
LARGEST = 8 << 20
MOST_FILES, MOST_TRIES, A_MINUTE = 50, 60, 6
ALLOWANCE = 256 << 20
"""What one trainee's hand-ins may take altogether [bytes]."""

Files = Mapping[str, bytes]


class ExchangeRefusalError(CircuitError):
    """Something is refused; the message says why, `status` is HTTP's."""

    def __init__(self, status: int, why: str) -> None:
        super().__init__(why)
        self.status = status


@dataclass(frozen=True)
class HandIn:
    """One hand-in: number, time of arrival, digests of its notebook and of all of it, bytes."""

    number: int
    handed_in: datetime
    notebook: str
    digest: str
    size: int
    names: tuple[str, ...]
    path: Path

    def files(self) -> dict[str, bytes]:
        """Return its files."""
        return _unpacked(self.path.read_bytes().split(b"\n", 1)[1])


def _now() -> datetime:
    return datetime.now(UTC)


class Store:
    """The folder of the exchange; `now` is the clock."""

    def __init__(self, root: Path, now: Callable[[], datetime] = _now) -> None:
        self.root, self.now = root, now

    def release(self, unit: str, trainee: str, files: Files) -> None:
        """Lay down what `trainee` may fetch; what was released before is replaced."""
        _check_files(unit, files)
        put_whole(_made(self._place("releases", unit, trainee)), _packed(files), 0o600)

    def released(self, trainee: str) -> list[str]:
        """Return the units that `trainee` may see now."""
        found = sorted(path.parent.name for path in self.root.glob(f"releases/*/{trainee}"))
        return [unit for unit in found if self.window(unit).begun(self.now())]

    def fetch(self, unit: str, trainee: str) -> dict[str, bytes]:
        """Return the files of `trainee`; refuse them before the unit opens and after it closes."""
        path = self._place("releases", unit, trainee)
        if not path.is_file():
            raise ExchangeRefusalError(404, f"{unit} must have been released to you, got nothing")
        if why := self.window(unit).shut(trainee, self.now()):
            raise ExchangeRefusalError(403, f"{unit} {why}")
        return _unpacked(path.read_bytes())

    def hand_in(self, unit: str, trainee: str, files: Files) -> HandIn:
        """Keep a hand-in; the very same as the last one is that one."""
        _check_files(unit, files)
        self.fetch(unit, trainee)
        before, packed = self.hand_ins(unit, trainee), _packed(files)
        digest = hashlib.sha256(packed).hexdigest()
        if before and before[-1].digest == digest:
            return before[-1]
        now = self.now()
        self._check_room(before, trainee, len(packed), now)
        number = len(before) + 1
        notebook = hashlib.sha256(files[f"{unit}.ipynb"]).hexdigest()
        about = {
            "handed_in": now.isoformat(),
            "notebook": notebook,
            "digest": digest,
            "size": len(packed),
            "names": sorted(files),
        }
        path = self._place("hand-ins", unit, trainee, number)
        put_new(_made(path), json.dumps(about).encode() + b"\n" + packed, 0o400)
        return _read(path)

    def hand_ins(self, unit: str, trainee: str) -> tuple[HandIn, ...]:
        """Return what `trainee` has handed in, in order."""
        folder = self._place("hand-ins", unit, trainee, 0).parent
        return tuple(_read(path) for path in sorted(folder.glob("[0-9]*")))

    def one(self, unit: str, trainee: str, number: int) -> HandIn:
        """Return one hand-in."""
        path = self._place("hand-ins", unit, trainee, number)
        if not path.is_file():
            raise ExchangeRefusalError(404, f"attempt must be one of {trainee}'s, got {number}")
        return _read(path)

    def class_of(self, unit: str) -> dict[str, tuple[HandIn, ...]]:
        """Return everybody's hand-ins of `unit`, of those too who have none."""
        _check_name(unit, UNIT, "unit")
        found = {path.name for path in self.root.glob(f"releases/{unit}/[!.]*")}
        found |= {path.name for path in self.root.glob(f"hand-ins/{unit}/*")}
        return {trainee: self.hand_ins(unit, trainee) for trainee in sorted(found)}

    def units(self) -> list[str]:
        """Return the units of which something was released."""
        return sorted(path.name for path in self.root.glob("releases/*"))

    def give_feedback(self, unit: str, trainee: str, number: int, page: str) -> None:
        """Lay down the page of comments on one attempt; what was there before is replaced."""
        self.one(unit, trainee, number)
        raw = page.encode()
        if len(raw) > LARGEST:
            raise ExchangeRefusalError(413, f"page must be {LARGEST >> 20} MB or less, got more")
        put_whole(_made(self._place("feedback", unit, trainee, number)), raw, 0o600)

    def feedback(self, unit: str, trainee: str, number: int) -> str:
        """Return the page of comments on one attempt."""
        path = self._place("feedback", unit, trainee, number)
        if not path.is_file():
            raise ExchangeRefusalError(
                404, f"attempt {number} of {unit} must have comments, got none yet"
            )
        return path.read_text(encoding="utf-8")

    def feedback_digest(self, unit: str, trainee: str, number: int) -> str:
        """Return the digest of the page of comments on one attempt, nothing if there is none."""
        path = self._place("feedback", unit, trainee, number)
        return hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else ""

    def window(self, unit: str) -> Window:
        """Return from when till when `unit` may be worked on."""
        path = self._place("windows", unit)
        return Window.of(json.loads(path.read_bytes())) if path.is_file() else Window()

    def set_window(self, unit: str, window: Window) -> None:
        """Say from when till when `unit` may be worked on."""
        put_whole(_made(self._place("windows", unit)), json.dumps(window.plain()).encode(), 0o600)

    def _check_room(
        self, before: tuple[HandIn, ...], trainee: str, size: int, now: datetime
    ) -> None:
        """Refuse a hand-in too many, too soon, or beyond what one trainee may fill."""
        if len(before) >= MOST_TRIES:
            rule = f"a unit must be handed in {MOST_TRIES} times or fewer"
            raise ExchangeRefusalError(429, f"{rule}, got one more; ask your instructor")
        lately = [one for one in before if (now - one.handed_in).total_seconds() < 60]
        if len(lately) >= A_MINUTE:
            rule = f"a unit must be handed in {A_MINUTE} times a minute or fewer"
            raise ExchangeRefusalError(429, f"{rule}, got one more; wait a minute")
        kept = sum(path.stat().st_size for path in self.root.glob(f"hand-ins/*/{trainee}/[0-9]*"))
        if kept + size > ALLOWANCE:
            rule = f"your hand-ins must take {ALLOWANCE >> 20} MB or less altogether"
            raise ExchangeRefusalError(413, f"{rule}, got more; ask your instructor")

    def _place(self, kind: str, unit: str, trainee: str = "", number: int | None = None) -> Path:
        """Return where something lies, or is to lie. Every name is checked here."""
        _check_name(unit, UNIT, "unit")
        parts = [kind, unit]
        if trainee:
            _check_name(trainee, TRAINEE, "trainee")
            parts.append(trainee)
        if number is not None:
            parts.append(f"{number:03}")
        return self.root.joinpath(*parts)


def _made(path: Path) -> Path:
    """Return `path`, its folder made: only what is written makes one, never what is asked for."""
    path.parent.mkdir(parents=True, exist_ok=True)
    return path


def _read(path: Path) -> HandIn:
    """Return the hand-in at `path`, without its files."""
    with path.open("rb") as file:
        told = json.loads(file.readline())
    when = datetime.fromisoformat(told["handed_in"])
    told |= {"handed_in": when, "names": tuple(told["names"])}
    return HandIn(number=int(path.name), path=path, **told)


def _check_name(value: str, pattern: re.Pattern[str], what: str) -> None:
    """Refuse a name that could lead anywhere else."""
    if not pattern.fullmatch(value):
        raise ExchangeRefusalError(400, f"{what} must be a plain name, got {value[:80]!r}")


def _check_files(unit: str, files: Files) -> None:
    """Refuse files that are no notebook of `unit` and what may lie beside it."""
    if f"{unit}.ipynb" not in files:
        raise ExchangeRefusalError(400, f"{unit}.ipynb must be among the files, got none")
    if len(files) > MOST_FILES:
        rule = f"files must be {MOST_FILES} or fewer"
        raise ExchangeRefusalError(413, f"{rule}, got {len(files)}")
    for name in files:
        _check_name(name, NAME, "name of a file")
    if (size := sum(map(len, files.values()))) > LARGEST:
        rule = f"files must be {LARGEST >> 20} MB or less altogether"
        raise ExchangeRefusalError(413, f"{rule}, got {size / 2**20:.1f} MB")


def _packed(files: Files) -> bytes:
    """Return files as one line of JSON, the same for the same files."""
    held = {name: base64.b64encode(data).decode() for name, data in sorted(files.items())}
    return json.dumps(held).encode()


def _unpacked(raw: bytes) -> dict[str, bytes]:
    """Return the files that `_packed` packed."""
    return unpacked(json.loads(raw))


def unpacked(held: Any) -> dict[str, bytes]:
    """Return files by name from base64 by name; refuse anything else."""
    if not isinstance(held, dict):
        raise ExchangeRefusalError(
            400, "files must be a table of names and base64, got another kind"
        )
    try:
        return {str(name): base64.b64decode(data, validate=True) for name, data in held.items()}
    except (TypeError, ValueError, binascii.Error) as error:
        raise ExchangeRefusalError(400, f"files must be in base64, got: {error}") from error
