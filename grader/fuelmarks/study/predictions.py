"""Predictions then and now: what a learner first wrote in a notebook, and what stands there."""

import json
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

__all__ = ["FILE", "Prediction", "predictions"]

FILE = "my-predictions.json"
_LINE = re.compile(r"^(prediction|now)_(\w+)\s*=\s*[\"']([^\"']+)[\"']", re.MULTILINE)


class Prediction(NamedTuple):
    """One prediction: where it stands, what it was at first, and what its author says now."""

    unit: str
    name: str
    then: str
    now: str


def predictions(folder: Path) -> list[Prediction]:
    """Return every prediction in the units of a study folder; the first of each is kept there.

    A file of first predictions that cannot be read is begun anew.
    """
    first = _kept(folder / FILE)
    latest = dict[tuple[str, str], str]()
    for unit, which, name, letter in _written(folder):
        latest[unit, name] = letter
        if which == "prediction":
            first.setdefault(f"{unit}/{name}", letter)
    found = [
        Prediction(unit, name, first.get(f"{unit}/{name}", ""), letter)
        for (unit, name), letter in latest.items()
    ]
    if found:
        (folder / FILE).write_text(json.dumps(first, indent=1), encoding="utf-8")
    return found


def _kept(path: Path) -> dict[str, str]:
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
        return {str(name): str(letter) for name, letter in found.items()}
    except (OSError, ValueError, AttributeError):
        return {}


def _written(folder: Path) -> Iterator[tuple[str, str, str, str]]:
    """Yield unit, which of the two, name and letter of each prediction in a notebook."""
    for path in sorted(folder.glob("*/*.ipynb")):
        if path.stem != path.parent.name:
            continue
        for source in _sources(path):
            for which, name, letter in _LINE.findall(source):
                yield path.stem, which, name.replace("_", " "), letter.strip()


def _sources(path: Path) -> Iterator[str]:
    try:
        book: Mapping[str, list[Mapping[str, str]]] = json.loads(path.read_text(encoding="utf-8"))
        cells = book["cells"]
    except (OSError, ValueError, KeyError):
        return
    for cell in cells:
        if cell.get("cell_type") == "code":
            yield "".join(cell["source"])
