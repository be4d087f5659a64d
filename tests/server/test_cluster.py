"""Marking on other computers: the same marks, a worker lost on the way, nothing left running."""

import json
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.commands.cli import main
from fuelmarks.course.course import Course
from fuelmarks.runner import Cell, Limits, Runner, SandboxError
from fuelmarks.runner.far import FarRunner
from fuelmarks.runner.far_worker import read_result, write_task
from fuelmarks.runner.protocol import BadReplyError

from tests.cluster import Cluster
from tests.scratch_class import COMMENTS, rows, twin
from tests.small_unit import UNIT
from tests.written_class import written_class

ANSWERS = ["One.", "Two.", "Three.", "Four.", "Five.", "Six."]


@pytest.fixture(scope="module")
def cluster(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Cluster]:
    found = Cluster(tmp_path_factory.mktemp("cluster"))
    try:
        found.begin()
        found.wait(2)
        yield found
        found.end()
    finally:
        for one in found.processes:
            if one.poll() is None:
                one.kill()
                one.wait()


@pytest.fixture(scope="module")
def marked_here(tmp_path_factory: pytest.TempPathFactory, runner: Runner) -> Course:
    course = written_class(tmp_path_factory.mktemp("here"), ANSWERS)
    fresh = twin(course, tmp_path_factory.mktemp("apart") / "fresh")
    list(mark_class(course, UNIT, runner=runner))
    course.root.joinpath("fresh").write_text(str(fresh.root))
    return course


@pytest.fixture
def fresh(marked_here: Course, tmp_path: Path) -> Course:
    """The same class, not yet marked."""
    unmarked = Course.at(Path((marked_here.root / "fresh").read_text()))
    return twin(unmarked, tmp_path / "course")


def test_a_lost_workers_notebooks_go_to_another_and_the_marks_are_the_same(
    cluster: Cluster, marked_here: Course, fresh: Course, runner: Runner
) -> None:
    third = cluster.worker()
    cluster.wait(3)
    with FarRunner(cluster.address, cluster.papers) as far:
        marking = mark_class(fresh, UNIT, runner=far)
        states = [next(marking).state]
        third.kill()
        third.wait()
        cluster.processes.remove(third)
        states += [done.state for done in marking]
    assert states == ["marked"] * len(ANSWERS)
    assert rows(fresh) == rows(marked_here)
    assert rows(fresh, COMMENTS) == rows(marked_here, COMMENTS)
    assert {done.state for done in mark_class(fresh, UNIT, runner=runner)} == {"kept"}


def test_the_command_marks_there(
    cluster: Cluster, marked_here: Course, fresh: Course, capsys: pytest.CaptureFixture[str]
) -> None:
    where = ["--scheduler", cluster.address, "--papers", str(cluster.papers)]
    assert main(["mark", UNIT, *where, "--course", str(fresh.root)]) == 0
    assert f"{len(ANSWERS)} marked, 0 marked before" in capsys.readouterr().out
    assert rows(fresh) == rows(marked_here)


def test_what_harms_is_stopped_there_as_here(cluster: Cluster, runner: Runner) -> None:
    cells = [Cell("loop", "while True: pass"), Cell("after", "print(6 * 7)")]
    limits = Limits(cell_seconds=1, notebook_seconds=10)
    with FarRunner(cluster.address, cluster.papers) as elsewhere:
        far = elsewhere.run(cells, limits)
    here = runner.run(cells, limits)
    assert [(one.status, one.text) for one in far.outcomes] == [
        (one.status, one.text) for one in here.outcomes
    ]


def test_a_worker_without_a_sandbox_is_refused(tmp_path: Path) -> None:
    bare = Cluster(tmp_path)
    try:
        bare.begin(workers=0)
        bare.worker(PATH="/nonexistent")
        until = time.monotonic() + 60
        said = ""
        while "sandbox needs bubblewrap" not in said and time.monotonic() < until:
            try:
                FarRunner(bare.address, tmp_path).__enter__()
            except SandboxError as error:
                said = str(error)
        assert "every worker must have a sandbox" in said
        assert "sandbox needs bubblewrap" in said
        bare.end()
    finally:
        for one in bare.processes:
            if one.poll() is None:
                one.kill()
                one.wait()


@pytest.mark.parametrize("address", ["tcp://127.0.0.1:8786", "127.0.0.1:8786", "ucx://x:1"])
def test_a_scheduler_without_tls_is_refused(address: str, tmp_path: Path) -> None:
    with pytest.raises(SandboxError, match="scheduler must be at an address like tls://"):
        FarRunner(address, tmp_path)


def test_missing_papers_are_named(tmp_path: Path) -> None:
    (tmp_path / "ca.pem").write_text("")
    with pytest.raises(SandboxError, match=r"got no certificate\.pem"):
        FarRunner("tls://127.0.0.1:8786", tmp_path)


FORGED = {
    "other cells": '{"outcomes": [], "records": {}}',
    "a record from a cell that hands none over": (
        '{"outcomes": [{"cell": "a", "status": "ok"}], "records": {"a": {}}}'
    ),
    "no status": '{"outcomes": [{"cell": "a", "status": "well"}], "records": {}}',
}


@pytest.mark.parametrize("raw", FORGED.values(), ids=FORGED)
def test_what_comes_back_is_checked(raw: str) -> None:
    with pytest.raises(BadReplyError):
        read_result(raw.encode(), [Cell("a", "1")])


def test_only_cells_and_limits_travel() -> None:
    sent = write_task([Cell("a", "print(1)")], Limits()).decode()
    told = json.loads(sent)
    assert sorted(told) == ["cells", "limits"]
    assert told["cells"] == [{"id": "a", "source": "print(1)", "hands_over": False}]
