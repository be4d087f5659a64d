"""Collecting a box of returned work, and looking at what became of it."""

import hashlib
from pathlib import Path

from fuelmarks.classroom.attempts import attempts, counting
from fuelmarks.classroom.collect import collect
from fuelmarks.classroom.collected import Collected

from tests.classroom.box import Box
from tests.small_unit import UNIT

__all__ = ["own", "placed", "prints", "taken"]


def taken(box: Box) -> Collected:
    """Return the table of what is in the box, after what was to be collected before it."""
    for folder in box.before:
        collect(box.course, UNIT, folder)
    return collect(box.course, UNIT, box.root, box.when)


def prints(folder: Path) -> dict[str, str]:
    """Return the fingerprints of all files in and below a folder."""
    files = [path for path in folder.rglob("*") if path.is_file() and not path.is_symlink()]
    return {str(path): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


def own(box: Box, trainee: str = "t001") -> list[str]:
    """Return the answers in the attempts of a trainee, the one that counts marked with a star."""
    kept = attempts(box.course, UNIT, trainee)
    counts = counting(kept)
    found = []
    for one in kept:
        text = (one.folder / f"{UNIT}.ipynb").read_text()
        answer = text.partition('seat_area = \\"')[2].partition(" ")[0]
        found.append(f"{answer}*" if one == counts else answer)
    return found


def placed(box: Box, trainee: str = "t001") -> str:
    """Return the answer in the notebook that is where marking looks."""
    text = box.course.notebook("submitted", UNIT, trainee).read_text()
    return text.partition('seat_area = \\"')[2].partition(" ")[0]
