"""What the exchange holds, in a folder of its own user: releases, hand-ins, pages of comments.

    releases/UNIT/TRAINEE       the files that one trainee may fetch
    hand-ins/UNIT/TRAINEE/001   a line about it, then its files; written once, in one piece
    feedback/UNIT/TRAINEE/001   a page of comments on that attempt
    windows/UNIT                from when till when, if the unit is worked on by the clock

The time is this computer's, at the moment when all has arrived. What is answered with a number is
on the disk.
"""

import hashlib
import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from fuelmarks.course.whole_file import put_new, put_whole
from fuelmarks.course.window import Window
from fuelmarks.server.exchange.packing import (
    LARGEST,
    ExchangeRefusalError,
    Files,
    check_files,
    check_name,
    packed,
    unpacked_line,
)

__all__ = ["HandIn", "Store"]

UNIT = re.compile(r"\d\d-[a-z][a-z0-9-]{0,60}")
TRAINEE = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,60}")
MOST_TRIES, A_MINUTE = 60, 6
ALLOWANCE = 256 << 20
"""What one trainee's hand-ins may take altogether [bytes]."""


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
        return unpacked_line(self.path.read_bytes().split(b"\n", 1)[1])


def _now() -> datetime:
    return datetime.now(UTC)


class Store:
    """The folder of the exchange; `now` is the clock."""

    def __init__(self, root: Path, now: Callable[[], datetime] = _now) -> None:
        self.root, self.now = root, now

    def release(self, unit: str, trainee: str, files: Files) -> None:
        """Lay down what `trainee` may fetch; what was released before is replaced."""
        check_files(unit, files)
        put_whole(_made(self._place("releases", unit, trainee)), packed(files), 0o600)

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
        return unpacked_line(path.read_bytes())

    def hand_in(self, unit: str, trainee: str, files: Files) -> HandIn:
        """Keep a hand-in; the very same as the last one is that one."""
        check_files(unit, files)
        self.fetch(unit, trainee)
        before, raw = self.hand_ins(unit, trainee), packed(files)
        digest = hashlib.sha256(raw).hexdigest()
        if before and before[-1].digest == digest:
            return before[-1]
        now = self.now()
        self._check_room(before, trainee, len(raw), now)
        number = len(before) + 1
        notebook = hashlib.sha256(files[f"{unit}.ipynb"]).hexdigest()
        about = {
            "handed_in": now.isoformat(),
            "notebook": notebook,
            "digest": digest,
            "size": len(raw),
            "names": sorted(files),
        }
        path = self._place("hand-ins", unit, trainee, number)
        put_new(_made(path), json.dumps(about).encode() + b"\n" + raw, 0o400)
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
        check_name(unit, UNIT, "unit")
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
        check_name(unit, UNIT, "unit")
        parts = [kind, unit]
        if trainee:
            check_name(trainee, TRAINEE, "trainee")
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
