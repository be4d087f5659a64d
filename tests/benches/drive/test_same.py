"""The browser's Python drives as the kernel's does: the same journey, the same words."""

import json
from typing import Any

import pytest
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.benches.live.desk import Desk

from tests.core import CARDS, told_by_core

NEAR = 1e-3
"""How far apart numbers may be: the two have other rules for a power's last digit."""
ENOUGH = {"torque": 0.5, "level": 1e-6}
"""Differences that are none, of what goes through nought [N m, m]; of flows, 0.1 mg/s."""


def questions() -> list[dict[str, Any]]:
    """Return a floored pedal on each rig, some steps a question."""
    asked: list[dict[str, Any]] = []
    for rig in CARDS:
        outing = {"speed": 83.8, "pedal": 0.03, "gear": "top", "fault": "blocked-pump-jet"}
        foot = ["top", 0.0, True, False]
        asked.append({"do": "begin", "rig": rig, "outing": outing})
        asked += [{"do": "go", "rig": rig, "feet": [[5, 0.03, *foot]]}]
        asked += [{"do": "go", "rig": rig, "feet": [[5, 1.0, *foot]]} for _ in range(12)]
    return [{"ask": "drive", **each} for each in asked]


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[dict[str, Any], dict[str, Any]]]:
    """Return what this Python and the browser's answer."""
    asked, desk = questions(), Desk(CARDS)
    theirs = told_by_core(asked, tmp_path_factory.mktemp("same"))
    ours = [desk.ask(json.dumps(each)) for each in asked]
    return [(json.loads(one), json.loads(other)) for one, other in zip(ours, theirs, strict=True)]


def test_numbers_are_near_at_every_moment(
    both: list[tuple[dict[str, Any], dict[str, Any]]],
) -> None:
    for one, other in both:
        for name, ours, theirs in zip(Row._fields, one["now"], other["now"], strict=True):
            assert theirs == pytest.approx(ours, rel=NEAR, abs=ENOUGH.get(name, 1e-7)), name


def test_words_are_the_same(both: list[tuple[dict[str, Any], dict[str, Any]]]) -> None:
    assert [one["said"] for one, _ in both] == [other["said"] for _, other in both]
    assert len({one["said"] for one, _ in both}) > 3
