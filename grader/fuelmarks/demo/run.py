"""The demonstration: an invented class from the first hand-out to the reports."""

import os
import shutil
import sys
import time
from pathlib import Path

from fuelmarks.authoring.build import build
from fuelmarks.book.class_record import class_record
from fuelmarks.book.class_table import class_table
from fuelmarks.book.pages import write_reports
from fuelmarks.classroom.collect import collect
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import mark_class, submitted
from fuelmarks.classroom.progress import Progress
from fuelmarks.course.class_list import COLUMNS
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.written import copy_written
from fuelmarks.demo.invented_class import class_list, hand_in
from fuelmarks.runner import Limits

__all__ = ["run_demo"]

UNIT = "02-float-bowl"
NOTE = "made-by-fuelmarks-demo.txt"
KEY = "the demonstration's key"
MOST = 1000
LIMITS = Limits(cell_seconds=4.0, notebook_seconds=60.0)


def run_demo(course: Course, into: Path, trainees: int) -> int:
    """Hand out, fill in, collect, mark and report `UNIT` with an invented class."""
    if not 1 <= trainees <= MOST:
        raise CourseError(f"trainees must be between 1 and {MOST}, got {trainees}")
    began = time.monotonic()
    scratch = _scratch(course, into, trainees)
    print(f"A class of {trainees}, invented, in {into}.")
    build(scratch, UNIT)
    handed = len(list(hand_out(scratch, UNIT)))
    print(f"Built {UNIT} and handed out {handed} notebooks, each with its own numbers.")
    habits = dict(hand_in(scratch, UNIT, into / "returned"))
    print(f"They hand in: {', '.join(dict.fromkeys(habits.values()))}.")
    collect(scratch, UNIT, into / "returned")
    _mark(scratch)
    record = class_record(scratch, UNIT)
    print(f"\n{class_table(record)}\n")
    pages = list(write_reports(scratch, UNIT))
    print(f"Class page:       {into / pages[0].relative_to(scratch.root)}   (opens in a browser)")
    print(f"Trainees' pages:  {into / 'reports' / UNIT / 'trainees'}   (one each)")
    print("Open the course:  make study")
    print(f"Formgrader:       cd {into} && {_jupyter(into)} lab   (menu Nbgrader)")
    print(f"All of it took {time.monotonic() - began:.0f} s.")
    return 0


def _jupyter(folder: Path) -> str:
    """Return how this environment's Jupyter is called from `folder`, activated or not."""
    program = Path(sys.executable).with_name("jupyter")
    return os.path.relpath(program, folder) if program.is_relative_to(Path.cwd()) else str(program)


def _mark(course: Course) -> None:
    """Mark with a bar, and say how long it took."""
    began = time.monotonic()
    names = submitted(course, UNIT)
    bar = Progress("marking", len(names))
    for done in mark_class(course, UNIT, limits=LIMITS):
        bar.step(done.trainee)
        if done.reason:
            bar.say(f"passed over {done.trainee}: {done.reason}")
    bar.close()
    print(f"Marked in {time.monotonic() - began:.1f} s, an endless loop and its wait included.")


def _scratch(course: Course, into: Path, trainees: int) -> Course:
    """Return a copy of `course` in `into` with an invented class; only our own is overwritten."""
    if into.exists() and any(into.iterdir()) and not (into / NOTE).exists():
        raise CourseError(f"into must be a new folder or an earlier demonstration, got {into}")
    shutil.rmtree(into, ignore_errors=True)
    into.mkdir(parents=True)
    (into / NOTE).write_text(
        "Everything here is invented and is overwritten by the next run.\n", "utf-8"
    )
    copy_written(course.root, into)
    lines = [",".join(COLUMNS)]
    lines += [
        ",".join((one.id, one.first_name, one.last_name, one.email)) for one in class_list(trainees)
    ]
    (into / "class.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    (into / "term.toml").write_text(f'key = "{KEY}"\n', encoding="utf-8")
    return Course.at(into)
