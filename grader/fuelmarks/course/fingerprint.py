"""A fingerprint of all that decides about a unit's marks: its questions, and the code that marks.

Whatever of it changes, a class is marked again; whatever does not, is left as it was marked.
"""

import hashlib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import fuelcircuits

import fuelmarks
from fuelmarks.course.unit_questions import blocks_of

__all__ = ["deciding", "fingerprint"]

ROOMS = ("formula", "gradebook", "marking", "questions", "slips")
"""Of the other package all: units, benches, diagnosis and drives decide about marks as well."""
KINDS = (".json", ".py", ".toml")


def fingerprint(root: Path, unit: str) -> str:
    """Return the fingerprint of the questions of `unit` and of the code that marks them."""
    own = hashlib.sha256(_of_package())
    for name, text in blocks_of(root, unit):
        own.update(f"{name}\0{text}\0".encode())
    return own.hexdigest()


@cache
def _of_package() -> bytes:
    """Return the fingerprint of every question and all the code that marks."""
    found = hashlib.sha256()
    for path in deciding():
        found.update(f"{path.parent.name}/{path.name}\0".encode() + path.read_bytes())
    return found.digest()


def deciding() -> Iterator[Path]:
    """Yield the files of both packages that decide about marks, in an order of their own."""
    for package, rooms in ((fuelmarks, ROOMS), (fuelcircuits, (".",))):
        top = Path(str(package.__file__)).parent
        for path in sorted(path for room in rooms for path in (top / room).rglob("*")):
            if path.suffix in KINDS:
                yield path
