"""What the set-up made is removed again, and nothing that the computer had before."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

from fuelmarks.server.box import boxed

from tests.places import TOP

HAD = ["group carla", "user carla"]
OWN = ["group fuelcircuits", "group fuelexchange", "group fuelstaff", "user fuelexchange"]
ALL = sorted([*HAD, *OWN, "group ada", "group bram", "user ada", "user bram"])


def removed(into: Path, *steps: str) -> list[Any]:
    """Return what is told in a box: names before, after the set-up, and at each step."""
    inside = [sys.executable, "-m", "tests.server.removing", *steps]
    done = subprocess.run(
        boxed(into, inside), cwd=TOP, capture_output=True, text=True, timeout=120, check=False
    )
    assert done.returncode == 0, done.stderr[-2000:]
    told: list[Any] = json.loads(done.stdout)
    return told


def test_nothing_of_the_set_up_is_left_once_accounts_and_work_are_removed(tmp_path: Path) -> None:
    before, made, others, after, homes, root = removed(tmp_path, "accounts and work")
    assert (before, made) == (HAD, ALL)
    assert (others, after) == (["carla"], HAD)
    assert (homes, root) == (["carla"], False)


def test_what_was_handed_in_keeps_its_owner_as_long_as_it_is_there(tmp_path: Path) -> None:
    _, _, _, first, _, last, homes, root = removed(tmp_path, "accounts", "work")
    assert first == sorted([*HAD, *OWN])
    assert (last, homes, root) == (HAD, ["carla"], False)


def test_accounts_that_stay_keep_their_groups(tmp_path: Path) -> None:
    _, _, others, after, homes, _ = removed(tmp_path, "work")
    assert others == []
    assert after == [one for one in ALL if "fuelexchange" not in one]
    assert homes == ["ada", "bram", "carla"]
