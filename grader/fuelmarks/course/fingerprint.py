"""A fingerprint of all that decides about a unit's marks: its questions, and the code that marks.

Whatever of it changes, a class is marked again; whatever does not, is left as it was marked.
"""

import hashlib
from functools import cache
from pathlib import Path

import fuelcircuits

import fuelmarks
from fuelmarks.course.unit_questions import blocks_of

__all__ = ["fingerprint"]

ROOMS = ("formula", "marking", "questions", "slips")
DRIVEN = ("benches/drive", "faults", "own_car/rigs", "physics")
"""What of the simulators decides about a drive that is handed in."""
KINDS = (".py", ".toml")


def fingerprint(root: Path, unit: str) -> str:
    """Return the fingerprint of the questions of `unit` and of the code that marks them."""
    own = hashlib.sha256(_of_package())
    for name, text in blocks_of(root, unit):
        own.update(f"{name}\0{text}\0".encode())
    return own.hexdigest()


@cache
def _of_package() -> bytes:
    """Return the fingerprint of every question and all the marking code of this package."""
    found = hashlib.sha256()
    for package, rooms in ((fuelmarks, ROOMS), (fuelcircuits, DRIVEN)):
        top = Path(str(package.__file__)).parent
        for path in sorted(path for room in rooms for path in (top / room).rglob("*")):
            if path.suffix in KINDS:
                found.update(f"{path.relative_to(top)}\0".encode() + path.read_bytes())
    return found.digest()
