"""Predictions then and now: what a learner first wrote in a notebook, and what stands there."""

import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from fuelmarks.course.foretold import Foretold, foretold_in

__all__ = ["FILE", "Prediction", "keep_first", "predictions"]

FILE = "my-predictions.json"


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
    found = []
    for unit, one in _written(folder):
        name = one.name.replace("-", " ")
        if one.then:
            first.setdefault(f"{unit}/{name}", one.then)
        then = first.get(f"{unit}/{name}", "")
        found.append(Prediction(unit, name, then, one.now or one.then))
    if found:
        _keep(folder, first)
    return found


def keep_first(folder: Path, unit: str, name: str, letter: str) -> None:
    """Keep a letter as the first answer to a prediction, unless there is one."""
    first = _kept(folder / FILE)
    key = f"{unit}/{name.replace('-', ' ')}"
    if key not in first:
        _keep(folder, {**first, key: letter})


def _keep(folder: Path, first: Mapping[str, str]) -> None:
    (folder / FILE).write_text(json.dumps(first, indent=1), encoding="utf-8")


def _kept(path: Path) -> dict[str, str]:
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
        return {str(name): str(letter) for name, letter in found.items()}
    except (OSError, ValueError, AttributeError):
        return {}


def _written(folder: Path) -> Iterator[tuple[str, Foretold]]:
    """Yield unit and prediction of all that is written in the notebooks of a folder."""
    for path in sorted(folder.glob("*/*.ipynb")):
        if path.stem == path.parent.name:
            for one in foretold_in(_cells(path)).values():
                yield path.stem, one


def _cells(path: Path) -> list[Mapping[str, Any]]:
    """Return the cells of a notebook; none of what is none."""
    try:
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    except (OSError, ValueError, KeyError, TypeError):
        return []
    held = cells if isinstance(cells, list) else []
    return [cell for cell in held if isinstance(cell, Mapping)]
