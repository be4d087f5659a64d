"""What should run on Windows runs where all is missing that is missing there: `as_on_windows`.

Nobody has tried it on Windows; this shows that nothing of ours asks for what is not there.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from fuelmarks.course.course import Course
from fuelmarks.runner import Runner

from tests.places import COURSE_FOLDER, TOP
from tests.small_unit import UNIT
from tests.written_class import mark, written_class


def run(*words: str) -> subprocess.CompletedProcess[str]:
    """Run commands there; what they print goes where Windows has but 256 characters."""
    asked = (sys.executable, "-X", "warn_default_encoding", "-m", "tests.commands.as_on_windows")
    around = {**os.environ, "PYTHONIOENCODING": "cp1252"}
    return subprocess.run(
        [*asked, *words],
        cwd=TOP,
        env=around,
        capture_output=True,
        encoding="cp1252",
        check=False,
    )


def test_learning_alone_needs_nothing_of_linux(tmp_path: Path) -> None:
    done = run("study", "--course", str(COURSE_FOLDER), "--into", str(tmp_path / "my"), "--no-lab")
    assert done.returncode == 0, done.stderr
    assert "Your course lies in" in done.stdout
    assert (tmp_path / "my" / "02-float-bowl").is_dir()


def test_a_notebook_finds_all_it_asks_for() -> None:
    done = run()
    assert done.returncode == 0, done.stderr
    assert "Handed over: 1.5 N" in done.stdout


@pytest.fixture(scope="module")
def marked(tmp_path_factory: pytest.TempPathFactory, runner: Runner) -> Course:
    course = written_class(tmp_path_factory.mktemp("course"), ["Words.", "Wörter – 3 µm → genug."])
    assert mark(course, runner) == ["marked", "marked"]
    return course


def test_a_class_is_handed_out_and_reported(marked: Course) -> None:
    here = ["--course", str(marked.root)]
    commands = (["hand-out", UNIT], ["report", UNIT], ["term"])
    done = run(*" , ".join(" ".join([*one, *here]) for one in commands).split())
    assert done.returncode == 0, done.stderr
    assert (marked.root / "reports" / UNIT / "trainees" / "t002.html").is_file()
