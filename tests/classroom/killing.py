"""Kill hand-out, collect and mark at random moments, run them again, and see what is there.

Run by hand, ``python -m tests.classroom.killing 50`` kills that often.
"""

import hashlib
import multiprocessing
import os
import random
import shutil
import signal
import sqlite3
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from itertools import count
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

from fuelmarks.authoring.build import build
from fuelmarks.classroom.attempts import attempts
from fuelmarks.classroom.collect import collect
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.course.course import Course
from fuelmarks.runner import Runner

from tests.classroom.box import Box
from tests.scratch_class import COMMENTS, ROWS
from tests.small_unit import UNIT, new_course, shelve

__all__ = ["SEED", "TRAINEES", "found_in", "kills", "new_class", "play"]

SEED = 20_261_128
STEPS: Mapping[str, Callable[[Course], Any]] = {
    "hand out": lambda course: list(hand_out(course, UNIT)),
    "collect": lambda course: collect(course, UNIT, course.root / "returned"),
    "mark": lambda course: list(mark_class(course, UNIT)),
}
CHANGES = ("os.rename", "os.remove", "os.link", "os.mkdir", "os.rmdir", "os.chmod")
LONG = 60.0
TRAINEES = 4


def new_class(folder: Path) -> Course:
    """Return a built course and what its class will return: two attempts each, one damaged."""
    course = new_course(folder, trainees=TRAINEES)
    (folder / "units" / UNIT / "figure.svg").write_text("<svg/>")
    build(course, UNIT)
    list(hand_out(course, UNIT))
    box = Box(course, folder / "returned")
    for number, trainee in enumerate(course.trainees(), start=1):
        box.put(f"{trainee.id}/a.ipynb", box.text(trainee.id, "1 mm2"), number)
        better = box.text(trainee.id, "3 mm2", "The float lifts. ![](gauge.png)")
        box.put(f"{trainee.id}/b.ipynb", better[:-400] if number == 1 else better, number + 10)
        box.put(f"{trainee.id}/gauge.png", b"a picture" * 1000, number)
    shutil.rmtree(folder / "handout")
    return course


def play(course: Course, runner: Runner) -> None:
    """Hand out, collect and mark, undisturbed."""
    STEPS["hand out"](course)
    STEPS["collect"](course)
    list(mark_class(course, UNIT, runner=runner))


def kills(
    course: Course, folder: Path, number: int, runner: Runner
) -> Iterator[tuple[str, Course]]:
    """Yield copies of `course`, each killed once at a random moment, then played to the end.

    Every other time the moment is just before a change of a file, which a clock rarely meets.
    """
    chance, length = random.Random(SEED), _lengths(course, folder / "measured")
    for at in range(number):
        name = list(STEPS)[at % len(STEPS)]
        copied = _copied(course, folder / f"{at:02}")
        for earlier in list(STEPS)[: at % len(STEPS)]:
            STEPS[earlier](copied)
        seconds, changes = length[name]
        if at % 2:
            moment, change = chance.uniform(0.0, seconds), 0
        else:
            moment, change = LONG, chance.randrange(changes) + 1
        done = _killed(copied, name, moment, change)
        play(copied, runner)
        where = f"change {change} of {changes}" if change else f"{moment:.3f} of {seconds:.3f} s"
        yield f"{name} at {where}, {'done before' if done else 'killed'}", copied
        shutil.rmtree(copied.root)


def found_in(course: Course) -> dict[str, Any]:
    """Return all that hand-out, collect and mark have left: files by content, attempts, marks."""
    folders = ("handout", "submitted", "autograded")
    files = [path for folder in folders for path in (course.root / folder).rglob("*")]
    found: dict[str, Any] = {
        str(path.relative_to(course.root)): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in files
        if path.is_file() and path.name != "attempt.json"
    }
    for trainee in course.trainees():
        kept = attempts(course, UNIT, trainee.id)
        found[f"attempts of {trainee.id}"] = [
            (one.number, one.handed_in, one.digest, one.delivered, one.whole) for one in kept
        ]
    with sqlite3.connect(course.root / "gradebook.db") as book:
        found["marks"] = book.execute(ROWS).fetchall()
        found["comments"] = book.execute(COMMENTS).fetchall()
        found["sound"] = book.execute("pragma integrity_check").fetchall()
    book.close()
    return found


def _copied(course: Course, folder: Path) -> Course:
    """Return a copy of `course`, the times of its files as they were."""
    shutil.copytree(course.root, folder)
    return Course.at(folder)


def _lengths(course: Course, folder: Path) -> dict[str, tuple[float, int]]:
    """Return how long each step lasts by itself [s], and how often it changes files."""
    copied = _copied(course, folder)
    found = {}
    for name in STEPS:
        process, said = _begun(copied, name)
        began = time.monotonic()
        changes = said.recv()
        found[name] = time.monotonic() - began, changes
        process.join()
        said.close()
    return found


def _killed(course: Course, name: str, moment: float, change: int) -> bool:
    """Kill a step `moment` seconds after it began, or at a change; return whether it was done."""
    process, said = _begun(course, name, change)
    done = False
    with suppress(EOFError):
        done = said.poll(moment) and bool(said.recv())
    process.kill()
    process.join()
    said.close()
    return done


def _begun(course: Course, name: str, change: int = 0) -> tuple[Any, Connection]:
    """Return a process that has just begun a step, everything loaded."""
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload([__name__])
    ours, theirs = context.Pipe()
    process = context.Process(target=_step, args=(str(course.root), name, theirs, change))
    process.start()
    theirs.close()
    ours.recv()
    return process, ours


def _step(root: str, name: str, said: Connection, change: int) -> None:
    """Do one step, and say when it begins, and how many files it changed when it is done."""
    shelve()
    seen = count()

    def watch(event: str, about: tuple[Any, ...]) -> None:
        if _changes(event, about, root) and next(seen) + 1 == change:
            os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(watch)
    said.send("begun")
    STEPS[name](Course.at(Path(root)))
    said.send(next(seen))


def _changes(event: str, about: tuple[Any, ...], root: str) -> bool:
    """Return whether an audited event changes a file of the course in `root`."""
    if not (about and isinstance(about[0], str) and about[0].startswith(root)):
        return False
    writes = event == "open" and isinstance(about[2], int) and about[2] & (os.O_WRONLY | os.O_RDWR)
    return bool(writes) or event in CHANGES


def _main() -> None:
    """Kill as often as is asked, and say what came of it."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        course = new_class(folder / "course")
        whole = _copied(course, folder / "whole")
        with Runner() as runner:
            play(whole, runner)
            wanted, bad = found_in(whole), 0
            for what, copied in kills(course, folder, int(sys.argv[1]), runner):
                same = found_in(copied) == wanted
                bad += not same
                print(f"{what}: {'the same as' if same else 'OTHER THAN'} undisturbed", flush=True)
        sys.exit(bad)


if __name__ == "__main__":
    _main()
