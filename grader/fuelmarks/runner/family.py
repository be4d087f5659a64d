"""A process with all that it has started, and the memory that these take; see proc(5)."""

import os
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import TypeAlias

__all__ = ["by_parents", "children_listed", "family", "memory_of_family", "resident"]

LISTED = os.path.exists(f"/proc/self/task/{os.getpid()}/children")
"""Whether the kernel lists children, which is much quicker than to look through all processes."""
Children: TypeAlias = Callable[[int], Iterable[int]]


def resident(process: int) -> int:
    """Return the memory of one process [bytes], 0 if it is gone."""
    with suppress(OSError):
        pages = Path(f"/proc/{process}/statm").read_text().split()[1]
        return int(pages) * os.sysconf("SC_PAGE_SIZE")
    return 0


def memory_of_family(first: int, shared: int) -> int:
    """Return the memory of a process and its offspring, each less `shared` [bytes]."""
    found = family(first, children_listed if LISTED else by_parents())
    return sum(max(0, resident(process) - shared) for process in found)


def family(first: int, children: Children) -> set[int]:
    """Return a process and its offspring; in a notebook's namespace orphans are the first's."""
    found, waiting = set[int](), [first]
    while waiting:
        process = waiting.pop()
        found.add(process)
        waiting += [child for child in children(process) if child not in found]
    return found


def children_listed(process: int) -> list[int]:
    """Return the children of a process, as the kernel lists them for each of its threads."""
    found: list[int] = []
    with suppress(OSError):
        for thread in os.listdir(f"/proc/{process}/task"):
            found += map(int, Path(f"/proc/{process}/task/{thread}/children").read_text().split())
    return found


def by_parents() -> Children:
    """Return what finds the children of a process by the parent that each process names."""
    found: dict[int, list[int]] = {}
    for name in filter(str.isdecimal, os.listdir("/proc")):
        with suppress(OSError):
            facts = Path(f"/proc/{name}/stat").read_bytes().rpartition(b") ")[2].split()
            found.setdefault(int(facts[1]), []).append(int(name))
    return lambda process: found.get(process, ())
