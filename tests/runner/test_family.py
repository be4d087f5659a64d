"""A process and its offspring: the kernel's two ways to tell of them agree."""

import os
import subprocess
import sys
from collections.abc import Iterator

import pytest
from fuelmarks.runner.family import by_parents, children_listed, family, memory_of_family, resident

TREE = """
import os, sys, threading, time
def start():
    if not os.fork():
        if not os.fork():
            held = bytearray(30_000_000)
            os.write(1, b"x")
        time.sleep(600)
thread = threading.Thread(target=start)
thread.start()
time.sleep(600)
"""


@pytest.fixture
def tree() -> Iterator[int]:
    """A process that has a child of one of its threads, and that one a child that holds 30 MB."""
    with subprocess.Popen(
        [sys.executable, "-c", TREE], stdout=subprocess.PIPE, start_new_session=True
    ) as made:
        assert made.stdout is not None
        assert made.stdout.read(1) == b"x"
        yield made.pid
        os.killpg(made.pid, 9)


def test_both_ways_find_the_whole_family(tree: int) -> None:
    found = family(tree, by_parents())
    assert len(found) == 3
    assert family(tree, children_listed) == found


def test_the_memory_of_offspring_counts_beyond_what_is_shared(tree: int) -> None:
    shared = resident(tree)
    assert 25e6 < memory_of_family(tree, shared) < 60e6


def test_what_is_gone_takes_nothing() -> None:
    with subprocess.Popen(["true"]) as made:
        pass
    assert memory_of_family(made.pid, 0) == 0
