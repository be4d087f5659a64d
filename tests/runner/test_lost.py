"""What is lost on the way: processes, servers and files are given back, and the rest goes on."""

import os
import threading
from collections.abc import Iterator

import pytest
from fuelmarks.runner import Limits, Runner

from tests.runner.asking import cells, statuses


@pytest.fixture(scope="module")
def runner() -> Iterator[Runner]:
    with Runner(limits=Limits(cell_seconds=20, notebook_seconds=60)) as runner:
        yield runner


def test_no_file_is_left_open(runner: Runner) -> None:
    statuses(runner, "x = 1")
    before = len(os.listdir("/proc/self/fd"))
    for source in [
        "x = 1",
        "1 / 0",
        "import os; os._exit(0)",
        "import os; os.closerange(0, 99)",
    ] * 5:
        statuses(runner, source)
    assert len(os.listdir("/proc/self/fd")) <= before


def test_a_lost_server_is_replaced_and_the_notebook_tried_again(runner: Runner) -> None:
    threading.Timer(1.0, _kill_server, [runner]).start()
    assert statuses(runner, "import time; time.sleep(2)", "x = 1") == ["ok", "ok"]


def test_a_notebook_that_loses_the_server_twice_is_given_up(runner: Runner) -> None:
    stop = threading.Event()
    killer = threading.Thread(target=_kill_servers, args=(runner, stop))
    killer.start()
    assert statuses(runner, "import time; time.sleep(60)") == ["killed"]
    stop.set()
    killer.join()
    assert statuses(runner, "x = 1") == ["ok"]


def _kill_server(runner: Runner) -> None:
    assert runner._server is not None
    runner._server._process.kill()


def _kill_servers(runner: Runner, stop: threading.Event) -> None:
    while not stop.wait(0.5):
        if runner._server is not None:
            runner._server._process.kill()


class FullCage:
    """A group in which the kernel has stopped something for want of memory."""

    ran_over = True

    def __init__(self) -> None:
        self.held: list[tuple[int, int]] = []
        self.closed = 0

    def hold(self, process: int, most: int) -> "FullCage":
        self.held.append((process, most))
        return self

    def close(self) -> None:
        self.closed += 1


def test_what_the_kernel_stops_for_want_of_memory_is_told_as_such(
    runner: Runner, monkeypatch: pytest.MonkeyPatch
) -> None:
    cage = FullCage()
    monkeypatch.setattr(runner, "_cage", cage)
    limits = Limits(memory_bytes=400 << 20)
    (outcome,) = runner.run(cells("import os; os._exit(1)"), limits).outcomes
    assert (outcome.status, outcome.message) == ("killed", "more memory than allowed")
    assert [most for _, most in cage.held] == [500 << 20]
    assert cage.closed == 1
