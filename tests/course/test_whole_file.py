"""A file is there whole or not at all; one command at a time changes a course."""

import os
from pathlib import Path

import pytest
from fuelmarks.course.at_work import at_work
from fuelmarks.course.course import CourseError
from fuelmarks.course.whole_file import put_new, put_whole


def test_a_file_takes_the_place_of_the_old_one(tmp_path: Path) -> None:
    put_whole(tmp_path / "a", b"old")
    put_whole(tmp_path / "a", b"new", 0o444)
    assert (tmp_path / "a").read_bytes() == b"new"
    assert (tmp_path / "a").stat().st_mode & 0o777 == 0o444
    assert os.listdir(tmp_path) == ["a"]


def test_what_an_interrupted_write_left_is_replaced(tmp_path: Path) -> None:
    (tmp_path / ".a.part").write_bytes(b"hal")
    (tmp_path / ".a.part").chmod(0o444)
    put_whole(tmp_path / "a", b"whole")
    assert os.listdir(tmp_path) == ["a"]


def test_a_write_that_fails_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_whole(tmp_path / "a", b"old")

    def full(_: int) -> None:
        raise OSError("No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        put_whole(tmp_path / "a", b"new")
    assert (tmp_path / "a").read_bytes() == b"old"


def test_a_new_file_takes_nobodys_place(tmp_path: Path) -> None:
    put_new(tmp_path / "a", b"mine")
    with pytest.raises(FileExistsError):
        put_new(tmp_path / "a", b"yours")
    assert (tmp_path / "a").read_bytes() == b"mine"
    assert os.listdir(tmp_path) == ["a"]


def test_who_comes_second_is_told_who_is_at_work(tmp_path: Path) -> None:
    rule = rf"got hand-out during collect \(process {os.getpid()}\); wait until that has ended"
    second = at_work(tmp_path, "hand-out")
    with at_work(tmp_path, "collect"), pytest.raises(CourseError, match=rule), second:
        pytest.fail("two were at work")
    with at_work(tmp_path, "hand-out"):
        assert (tmp_path / ".at-work").read_text().startswith("hand-out")


def test_a_system_without_file_locks_still_lets_one_work_at_a_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("fuelmarks.course.at_work.fcntl", None)
    rule = r"got hand-out during collect \(process \d+\); .* no longer there, delete .*\.at-work"
    second = at_work(tmp_path, "hand-out")
    with at_work(tmp_path, "collect"), pytest.raises(CourseError, match=rule), second:
        pytest.fail("two were at work")
    with pytest.raises(ValueError, match="no such"), at_work(tmp_path, "hand-out"):
        raise ValueError("no such thing")
    assert os.listdir(tmp_path) == []
