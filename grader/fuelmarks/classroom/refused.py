"""What `collect` refused of a trainee's, and why: kept beside the attempts, so that pages can say.

submitted/ID/attempts/UNIT/refused.json     file, time and reason of each, in the order they came
"""

import json
from dataclasses import asdict, dataclass
from pathlib import Path

from fuelmarks.course.course import Course
from fuelmarks.course.whole_file import put_whole
from fuelmarks.gradebook.submission import SubmissionError

__all__ = ["Refusal", "note_refusal", "refusals"]


@dataclass(frozen=True)
class Refusal:
    """One file that was not kept: as what and when it was delivered, and what is wrong with it."""

    delivered: str
    handed_in: str
    why: str


def refusals(course: Course, unit: str, trainee: str) -> tuple[Refusal, ...]:
    """Return what was refused of `trainee` in `unit`, in the order it came."""
    path = _path(course, unit, trainee)
    try:
        return tuple(Refusal(**one) for one in json.loads(path.read_bytes()))
    except FileNotFoundError:
        return ()
    except (ValueError, TypeError) as error:
        raise SubmissionError(f"{path} must tell of refusals, got: {error!r}") from error


def note_refusal(course: Course, unit: str, trainee: str, refusal: Refusal) -> None:
    """Keep one more refusal, unless it is noted already."""
    known = refusals(course, unit, trainee)
    if refusal not in known:
        path = _path(course, unit, trainee)
        path.parent.mkdir(parents=True, exist_ok=True)
        put_whole(path, json.dumps([asdict(one) for one in (*known, refusal)], indent=1).encode())


def _path(course: Course, unit: str, trainee: str) -> Path:
    return course.root / "submitted" / trainee / "attempts" / unit / "refused.json"
