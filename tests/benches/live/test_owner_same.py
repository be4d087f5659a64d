"""The browser's Python tells an owner what the kernel's does: card, day, report, word by word."""

import json
import runpy
from pathlib import Path
from typing import Any

import pytest
from fuelcircuits import faults
from fuelcircuits.benches.live.desk import Desk
from fuelcircuits.own_car import following

from tests.core import CARDS, told_by_core

FIRST = Path(__file__).parent / "few.py"
WRITTEN = {
    "entries": {"engine.displacement": "1.6 L", "low_speed.jet_bore": "0,80"},
    "ran_well": {"idle-vacuum": "18"},
}
SICK = {"idle-vacuum": "13 inHg", "idle-mixture": "1.38"}
LEVEL = {"level-at-idle": "11 mm"}


def day(readings: dict[str, str]) -> dict[str, Any]:
    """Return a day with these readings."""
    return {"day": "2026-05-02", "altitude": "300", "readings": readings, "owned": ["torch"]}


def asked() -> list[dict[str, Any]]:
    """Return what a page asks: how all stands, the card's check, and three days' reports."""
    owner: dict[str, Any] = {"ask": "owner", "written": WRITTEN}
    about: dict[str, Any] = {"ask": "day", "written": WRITTEN}
    work = 2 + len(runpy.run_path(str(FIRST))["SOME"])  # steps before the suspects are there
    reports = [
        {**about, "do": "report", "read": day(readings)}
        for readings, steps in ((SICK, work), (SICK | LEVEL, 0), ({"idle-mixture": "2 % CO"}, 0))
        for _ in range(steps + 2)
    ]
    stand = [{**owner, "do": do} for do in ("check", "stand")]
    return [*stand, {**about, "do": "stand", "read": day(SICK)}, *reports]


@pytest.fixture
def few(monkeypatch: pytest.MonkeyPatch) -> None:
    """Few faults and checks here too, until the test is over."""
    for module, name in ((faults, "fitting"), (following, "to_make")):
        monkeypatch.setattr(module, name, vars(module)[name])


@pytest.mark.usefixtures("few")
def test_card_day_and_report_are_the_same(tmp_path: Path) -> None:
    questions = asked()
    desk = Desk(CARDS)
    ours = [desk.ask(json.dumps(each)) for each in questions]
    whole = [one for one in map(json.loads, ours) if one.get("whole")]
    assert len({one["report"] for one in whole}) == len(whole) == 3
    assert told_by_core(questions, tmp_path, FIRST) == ours
