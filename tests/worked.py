"""Runs what a unit's text shows in code: the worked example, and the gaps once they are filled."""

import re
from collections.abc import Mapping
from math import pi, sqrt
from typing import Any

from fuelcircuits.quantities.units import Q

from tests.places import COURSE_FOLDER

__all__ = ["filled", "worked"]

UNITS = COURSE_FOLDER / "units"
CODE = re.compile(r"^```\{code-cell\} ipython3\n(.*?)^```$", re.M | re.S)


def worked(unit: str) -> dict[str, Any]:
    """Return what the worked example of `unit` has worked out, by name."""
    return _run(_section(unit, "A worked example"), {})


def filled(unit: str, gaps: Mapping[str, str]) -> dict[str, Any]:
    """Return what the gaps of `unit` come to once each is filled with the code in `gaps`."""
    code = _section(unit, "The same with gaps")
    for name, filling in gaps.items():
        code, found = re.subn(rf"^{name} = \.\.\.", f"{name} = {filling}", code, flags=re.M)
        assert found == 1, name
    return _run(code, {"pi": pi, "sqrt": sqrt})


def _section(unit: str, head: str) -> str:
    """Return the code of one part of a unit's text."""
    text = (UNITS / unit / "unit.md").read_text(encoding="utf-8")
    part = text.split(f"## {head}")[1].split("\n## ")[0]
    return "\n".join(CODE.findall(part))


def _run(code: str, names: dict[str, Any]) -> dict[str, Any]:
    """Return the names that `code` leaves behind."""
    assert code
    found = {"Q": Q, **names}
    exec(code, found)
    return found
