"""What a notebook says of itself: unit, trainee, the numbers in its set-up and its questions."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from fuelmarks.course.notebook import grade_id

__all__ = ["BEGIN", "HANDS_OVER", "Claim", "claim_in", "question_in", "salvaged"]

QUOTED = r"\\?[\"']([\w .-]{1,80})\\?[\"']"
BEGIN = re.compile(rf"\bbegin\(\s*{QUOTED}\s*,\s*trainee\s*=\s*{QUOTED}")
HANDS_OVER = re.compile(rf"\bhand_over\(\s*{QUOTED}\s*,\s*{QUOTED}")
GIVEN = re.compile(r"^[ \t]*(\w+)[ \t]*=[ \t]*(Q\([^()\n]*\)|[-+.\w]+)", re.M)
HEADING = re.compile(r"^\s*###\s+(\S[^\n]*?)\s+·\s+\d+ points?\b")


@dataclass(frozen=True)
class Claim:
    """What a notebook says of itself; `givens` by name as code, `asks` by question as text."""

    unit: str = ""
    trainee: str = ""
    givens: Mapping[str, str] = field(default_factory=dict)
    asks: Mapping[str, str] = field(default_factory=dict)


def claim_in(cells: Iterable[Mapping[str, Any]]) -> Claim:
    """Return what a notebook of these `cells` says of itself."""
    held = list(cells)
    code = [cell for cell in held if cell.get("cell_type") != "markdown"]
    begins = [(cell, hit) for cell in code if (hit := BEGIN.search(cell["source"]))]
    begins.sort(key=lambda found: not grade_id(found[0]).endswith("-begin"))
    asks = {name: cell["source"] for cell in held if (name := question_in(cell))}
    if begins:
        cell, hit = begins[0]
        return Claim(hit[1], hit[2], dict(GIVEN.findall(cell["source"])), asks)
    units = [hit[1] for cell in code if (hit := HANDS_OVER.search(cell["source"]))]
    return Claim(max(units, key=units.count, default=""), asks=asks)


def question_in(cell: Mapping[str, Any]) -> str:
    """Return the name of the question whose heading `cell` begins with, or nothing."""
    hit = HEADING.match(cell["source"]) if cell.get("cell_type") != "code" else None
    return "-".join(hit[1].lower().split()) if hit else ""


def salvaged(raw: bytes) -> Claim:
    """Return what can still be read in a damaged file: unit and trainee, if its set-up is whole."""
    hit = BEGIN.search(raw.decode("utf-8", "replace"))
    return Claim(hit[1], hit[2]) if hit else Claim()
