"""From when till when a unit may be fetched and handed in: an examination by the server's clock.

[exam.05-off-idle]
opens = 2026-12-04T09:00:00
closes = 2026-12-04T10:30:00
longer = { t004 = 20 }               minutes more for one trainee
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from fuelmarks.course.error import CourseError

__all__ = ["Window", "read_windows"]

NAMES = ("opens", "closes", "longer")
LONGEST = 24 * 60


@dataclass(frozen=True)
class Window:
    """`opens` and `closes` bound it, where they are set; `longer` are minutes more for one."""

    opens: datetime | None = None
    closes: datetime | None = None
    longer: Mapping[str, float] = field(default_factory=dict)

    @classmethod
    def of(cls, plain: Mapping[str, Any]) -> "Window":
        """Return the window that `plain` data tell of, as `Window.plain` gives them."""
        opens, closes = (
            datetime.fromisoformat(plain[name]) if plain.get(name) else None
            for name in ("opens", "closes")
        )
        longer = dict(plain.get("longer") or {})
        return cls(opens, closes, {str(one): float(more) for one, more in longer.items()})

    def plain(self) -> dict[str, Any]:
        """Return it as data that JSON can carry."""
        opens, closes = (when and when.isoformat() for when in (self.opens, self.closes))
        return {"opens": opens, "closes": closes, "longer": dict(self.longer)}

    def begun(self, now: datetime) -> bool:
        """Say whether it has opened."""
        return self.opens is None or now >= self.opens

    def closes_for(self, trainee: str) -> datetime | None:
        """Return when it closes for `trainee`."""
        more = timedelta(minutes=self.longer.get(trainee, 0))
        return self.closes + more if self.closes else None

    def shut(self, trainee: str, now: datetime) -> str:
        """Return why `trainee` can neither fetch nor hand in at `now`; nothing if he can."""
        closes = self.closes_for(trainee)
        if self.opens and now < self.opens:
            return f"must be asked for once it opens, at {_clock(self.opens)}, got {_clock(now)}"
        if closes and now > closes:
            got = f"got {_clock(now)}; what you have written stays in your folder"
            return f"must be handed in before it closes, at {_clock(closes)}, {got}"
        return ""


def read_windows(path: Path, held: object) -> dict[str, Window]:
    """Return the windows that the table ``exam`` of the file at `path` holds, by unit."""
    if not isinstance(held, dict) or not all(isinstance(one, dict) for one in held.values()):
        raise CourseError(f"{path}: exam must be a table for each unit, got {held!r}")
    return {unit: _window(path, unit, said) for unit, said in held.items()}


def _window(path: Path, unit: str, said: Mapping[str, Any]) -> Window:
    """Return one window, everything checked."""
    for name in said.keys() - set(NAMES):
        raise CourseError(f"{path}: exam {unit} must say {', '.join(NAMES)}, got {name!r}")
    moments = [said.get(name) for name in ("opens", "closes")]
    for name, when in zip(NAMES, moments, strict=False):
        if when is not None and not isinstance(when, datetime):
            rule = f"exam {unit}: {name} must be like 2026-12-04T09:00:00"
            raise CourseError(f"{path}: {rule}, got {when!r}")
    opens, closes = (when.astimezone() if when else None for when in moments)
    if opens and closes and closes <= opens:
        raise CourseError(f"{path}: exam {unit}: closes must be after opens, got {said['closes']}")
    return Window(opens, closes, _longer(path, unit, said.get("longer", {})))


def _longer(path: Path, unit: str, said: object) -> dict[str, float]:
    """Return the minutes more, by trainee."""
    good = isinstance(said, dict) and all(
        isinstance(one, int | float) and not isinstance(one, bool) and 0 <= one <= LONGEST
        for one in said.values()
    )
    if not isinstance(said, dict) or not good:
        rule = f"exam {unit}: longer must be minutes from 0 to {LONGEST} for each trainee"
        raise CourseError(f"{path}: {rule}, got {said!r}")
    return {str(one): float(more) for one, more in said.items()}


def _clock(when: datetime) -> str:
    return f"{when.astimezone():%Y-%m-%d %H:%M:%S}"
