"""The class server as a whole, in a box: set up, one round through the hub, and nothing left."""

import pwd
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.places import TOP

TRAINEES = ("demo-001", "demo-002")


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Path]:
    """What the demonstration says, and where it was."""
    into = tmp_path_factory.mktemp("box") / "demo"
    asked = ("server", "demo", "--quick", "--trainees", "2", "--course", str(TOP / "course"))
    done = subprocess.run(
        [sys.executable, "-m", "fuelmarks.commands.cli", *asked, "--into", str(into)],
        capture_output=True,
        text=True,
        timeout=900,
        check=False,
    )
    assert done.returncode == 0, done.stdout[-3000:] + done.stderr[-3000:]
    return done.stdout, into


def test_everybody_fetches_and_hands_in_through_the_hub(told: tuple[str, Path]) -> None:
    for name in TRAINEES:
        assert re.search(rf"{name} \(.*\): fetched True, handed in True", told[0])


def test_what_was_handed_in_is_kept_marked_and_given_back(told: tuple[str, Path]) -> None:
    assert "2 released on the class server, 0 not" in told[0]
    assert "5 kept of 5 delivered" in told[0]
    assert "2 marked, 0 marked before, 0 passed over" in told[0]
    assert "2 given back on the class server, 0 not" in told[0]
    for name in TRAINEES:
        assert f"{name}: 1 page of comments" in told[0]


def test_a_hub_killed_in_the_middle_of_a_hand_in_loses_nothing(told: tuple[str, Path]) -> None:
    (line,) = re.findall(r"the hub was killed while (.*)", told[0])
    assert line == "demo-001 handed in: 3 answered, 3 kept; the same server went on"


def test_no_trainee_comes_near_what_is_anothers_or_the_staffs(told: tuple[str, Path]) -> None:
    (line,) = re.findall(r"closed to trainees: (.*)", told[0])
    assert line == (
        "another's home, another's server, exchange, formgrader, fuelmarks, gradebook, hub, "
        "passwords, staff's environment, status page"
    )


def test_setting_up_again_changes_nothing(told: tuple[str, Path]) -> None:
    assert "2 trainees, 3 new accounts." in told[0]
    assert "2 trainees, 0 new accounts." in told[0]


def test_nothing_is_left(told: tuple[str, Path]) -> None:
    assert not told[1].exists()
    for name in (*TRAINEES, "teacher", "fuelexchange"):
        with pytest.raises(KeyError):
            pwd.getpwnam(name)
    left = [path for path in Path("/proc").glob("[0-9]*/mountinfo") if in_box(path, told[1])]
    assert not left


def in_box(mounts: Path, box: Path) -> bool:
    """Return whether a process sees the folders of the box in their places."""
    try:
        return f"{box}/" in mounts.read_text()
    except OSError:  # it ended meanwhile
        return False
