"""The processes of this computer, read from the kernel: see proc(5)."""

import os
from pathlib import Path

__all__ = ["alive", "below", "memory", "own_memory"]


def below(process: int) -> set[int]:
    """Return the processes that descend from `process`."""
    parents = {number: int(facts[1]) for number, facts in _facts().items()}
    family = {process}
    while more := {child for child, parent in parents.items() if parent in family} - family:
        family |= more
    return family - {process}


def alive(process: int) -> bool:
    """Return whether `process` exists and is more than an entry waiting to be read."""
    return _facts().get(process, ["Z"])[0] != "Z"


def memory(process: int) -> int:
    """Return the resident memory of `process` and all below it [bytes], shared pages each time."""
    return sum(own_memory(one) for one in {process, *below(process)})


def own_memory(process: int) -> int:
    """Return the resident memory of `process` alone [bytes], 0 if it has ended."""
    facts = _facts().get(process)
    return int(facts[21]) * os.sysconf("SC_PAGE_SIZE") if facts else 0


def _facts() -> dict[int, list[str]]:
    """Return by process what follows its name: state, parent, and so on."""
    facts = {}
    for path in Path("/proc").glob("[0-9]*/stat"):
        try:
            facts[int(path.parent.name)] = path.read_text().rpartition(") ")[2].split()
        except OSError:  # it ended meanwhile
            continue
    return facts
