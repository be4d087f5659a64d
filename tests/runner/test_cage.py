"""The kernel's limit on a notebook's memory: set where a group is ours to divide, and only there.

The groups here are folders like the kernel's; what the kernel does with them is its own affair.
"""

import os
from pathlib import Path

import pytest
from fuelmarks.runner import cage
from fuelmarks.runner.cage import Cage, find_cage

GROUP = "user.slice/user-1000.slice/user@1000.service/app.slice/shell.scope"


@pytest.fixture
def groups(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A tree of groups in which app.slice is ours to divide, and has memory to give."""
    monkeypatch.setattr(cage, "EMPTY_SECONDS", 0.01)
    (tmp_path / "own").write_text(f"3:cpu:/\n0::/{GROUP}\n")
    folder = tmp_path / "groups" / GROUP
    folder.mkdir(parents=True)
    (folder.parent / "cgroup.subtree_control").write_text("cpu memory pids\n")
    if os.geteuid() == 0:
        os.setxattr(folder.parent, cage.DELEGATED, b"1")
    return tmp_path / "groups"


def found(groups: Path) -> Cage | None:
    return find_cage(groups, groups.parent / "own")


def test_a_notebook_is_held_below_its_limit(groups: Path) -> None:
    made = found(groups)
    assert made is not None
    held = made.hold(4321, 1000)
    assert held is not None
    (folder,) = (groups / GROUP).parent.glob("fuelmarks-*/notebook-1")
    written = {path.name: path.read_text() for path in folder.iterdir()}
    assert written == {"memory.max": "1000", "cgroup.procs": "4321"}
    assert (folder.parent / "cgroup.subtree_control").read_text() == "+memory"


@pytest.mark.parametrize(
    ("events", "ran_over"),
    [
        ("low 0\nhigh 0\nmax 7\noom 1\noom_kill 1\n", True),
        ("oom 0\noom_kill 0\n", False),
        ("", False),
    ],
)
def test_what_the_kernel_stopped_is_known(groups: Path, events: str, ran_over: bool) -> None:
    made = found(groups)
    assert made is not None
    held = made.hold(4321, 1000)
    assert held is not None
    (folder,) = (groups / GROUP).parent.glob("fuelmarks-*/notebook-1")
    (folder / "memory.events").write_text(events)
    assert held.ran_over == ran_over


def test_what_may_not_be_moved_is_not_held_and_leaves_nothing(groups: Path) -> None:
    made = found(groups)
    assert made is not None
    (base,) = (groups / GROUP).parent.glob("fuelmarks-*")
    (base / "cgroup.subtree_control").unlink()
    base.rmdir()
    assert made.hold(4321, 1000) is None
    made.close()
    assert list((groups / GROUP).parent.glob("fuelmarks-*")) == []


def test_without_memory_to_give_there_is_none(groups: Path) -> None:
    ((groups / GROUP).parent / "cgroup.subtree_control").write_text("cpu pids\n")
    assert found(groups) is None


def test_a_group_of_somebody_elses_is_left_alone(
    groups: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: os.getuid() + 1)
    folder = (groups / GROUP).parent
    if cage.DELEGATED in os.listxattr(folder):
        os.removexattr(folder, cage.DELEGATED)
    assert found(groups) is None


@pytest.mark.parametrize("own", ["4:memory:/\n", "", "0::/../elsewhere\n"])
def test_other_kinds_of_groups_are_none(groups: Path, own: str) -> None:
    (groups.parent / "own").write_text(own)
    assert found(groups) is None


def test_nothing_is_found_where_there_is_nothing(tmp_path: Path) -> None:
    assert find_cage(tmp_path / "none", tmp_path / "own") is None
