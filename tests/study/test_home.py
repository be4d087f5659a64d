"""The learner's home: a map of the course, predictions then and now, and a server that is quiet."""

import json
import os
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest
from fuelmarks.commands.cli import main
from fuelmarks.marking.marking import Mark
from fuelmarks.study import lab as study_lab
from fuelmarks.study.folder import lay_out
from fuelmarks.study.home import home_page, places
from fuelmarks.study.lab import Lab, begun, is_root, lab, served
from fuelmarks.study.predictions import predictions
from fuelmarks.study.progress import FILE, Progress, note, read_progress

from tests.places import TOP
from tests.ports import own_ports
from tests.scratch_class import own_jupyter
from tests.small_unit import EXERCISES, UNIT, new_course, shelve

DAY = "2026-11-28"
WITHOUT_LINUX = """
import os, signal, sys
import IPython, jinja2, jupytext, nbconvert.exporters, nbformat
import nbgrader.api, numpy, pint, sqlalchemy
for name in [name for name in dir(os) if name in (
    "geteuid", "getuid", "getegid", "getgid", "fork", "killpg", "getpgid", "uname", "setsid"
)]:
    delattr(os, name)
for name in ("SIGKILL", "SIGHUP", "SIGUSR1", "pidfd_send_signal", "pthread_sigmask"):
    if hasattr(signal, name):
        delattr(signal, name)
for name in ("fcntl", "resource", "termios", "tty", "pty", "pwd", "grp", "syslog"):
    sys.modules[name] = None
from fuelmarks.commands.cli import main
sys.exit(main(sys.argv[1:]))
"""
"""Libraries ask themselves where they are, so they are loaded first; what is ours, after."""

ANSWERING = """
import sys
from http.server import BaseHTTPRequestHandler, HTTPServer

class Page(BaseHTTPRequestHandler):
    def do_GET(self):
        known = sys.argv[2].endswith(self.path)
        self.send_response(200 if known else 403)
        self.end_headers()
        self.wfile.write(b"here" if known else b"who?")

class Alone(HTTPServer):
    allow_reuse_address = False

Alone(("127.0.0.1", int(sys.argv[1])), Page).serve_forever()
"""


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    """A learner's folder with the small unit in it."""
    shelve()
    return lay_out(new_course(tmp_path / "course"), tmp_path / "mine")


def answered(mine: Path, exercise: str, points: float, said: str) -> None:
    one = EXERCISES[exercise]
    mark = Mark(exercise, points, one.points, "right" if points else "wrong", said, "")
    note(mine / FILE, UNIT, mark, DAY, shown=False)


def predicted(mine: Path, letter: str, now: str = "") -> None:
    text = f'prediction_more_air = "{letter}"  # write', f'now_more_air = "{now}"  # write'
    cells = [{"cell_type": "code", "source": [line]} for line in text]
    (mine / UNIT / f"{UNIT}.ipynb").write_text(json.dumps({"cells": cells}))


def test_a_unit_is_not_begun_then_begun_then_done(mine: Path) -> None:
    states = [places([EXERCISES], Progress())[0].state]
    for exercise in EXERCISES:
        answered(mine, exercise.id, exercise.points, "Right.")
        states.append(places([EXERCISES], read_progress(mine / FILE, DAY))[0].state)
    assert states == ["not begun", "begun", "begun", "done"]


def test_the_page_says_what_is_next_and_what_was_said_last(mine: Path) -> None:
    answered(mine, "seat-area", 0.5, "The bore is a <b>diameter</b>; halve it first.")
    page = home_page(mine, "/base/")
    assert f'href="/base/lab/tree/{UNIT}/{UNIT}.ipynb">Continue here' in page
    assert "begun, 0 of 3" in page
    assert "The bore is a &lt;b&gt;diameter&lt;/b&gt;; halve it first." in page


def test_the_last_comment_is_kept_even_after_a_better_answer(mine: Path) -> None:
    answered(mine, "seat-area", 2.0, "Right.")
    answered(mine, "seat-area", 0.0, "Too small.")
    found = read_progress(mine / FILE, DAY).of(UNIT, "seat-area")
    assert found is not None
    assert (found.best, found.said) == ("right", "Too small.")


def test_progress_of_before_comments_were_kept_is_read(mine: Path) -> None:
    answered(mine, "seat-area", 2.0, "Right.")
    kept = json.loads((mine / FILE).read_text())
    del kept["units"][UNIT]["seat-area"]["said"]
    (mine / FILE).write_text(json.dumps(kept))
    found = read_progress(mine / FILE, DAY)
    assert not found.aside
    assert places([EXERCISES], found)[0].said == ""


def test_the_first_prediction_stays_beside_the_last(mine: Path) -> None:
    assert predictions(mine) == []
    predicted(mine, "b")
    assert [(one.then, one.now) for one in predictions(mine)] == [("B", "B")]
    predicted(mine, "c")
    assert [(one.name, one.then, one.now) for one in predictions(mine)] == [("more air", "B", "C")]
    predicted(mine, "c", now="a")
    assert [(one.then, one.now) for one in predictions(mine)] == [("B", "A")]
    assert "<td>A (changed)</td>" in home_page(mine)


def test_the_course_is_laid_out_where_nothing_of_linux_is(mine: Path, tmp_path: Path) -> None:
    words = ["study", "--course", str(tmp_path / "course"), "--into", str(mine), "--no-lab"]
    code = f"from tests.small_unit import shelve\nshelve()\n{WITHOUT_LINUX}"
    done = subprocess.run(
        [sys.executable, "-c", code, *words], capture_output=True, text=True, check=False, cwd=TOP
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert "Your course lies in" in done.stdout


def test_root_is_somebody_only_where_a_system_has_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    assert is_root()
    monkeypatch.delattr(os, "geteuid")
    assert not is_root()


def test_root_is_warned_and_let_in(
    mine: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    begun = []

    class Ended:
        def wait(self) -> int:
            return 0

    def start(one: Lab, folder: Path) -> Ended:
        begun.append((one.command, folder))
        return Ended()

    monkeypatch.setattr("fuelmarks.study.lab.is_root", lambda: True)
    monkeypatch.setattr("fuelmarks.commands.study.is_root", lambda: True)
    monkeypatch.setattr("fuelmarks.study.lab.served", start)
    words = ["--course", str(tmp_path / "course"), "--into", str(mine), "--no-browser"]
    assert main(["study", *words]) == 0
    said = capsys.readouterr().out
    assert "You are root" in said
    assert f"/lab/tree/{UNIT}/{UNIT}.ipynb?token=" in said
    assert "--allow-root" in begun[0][0]


@pytest.fixture
def opened(mine: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Lab]:
    """JupyterLab on the learner's folder, with nobody else's settings."""
    for name, value in own_jupyter(tmp_path / "jupyter").items():
        monkeypatch.setenv(name, value)
    one = lab(mine, UNIT, own_ports())
    server = served(one, mine)
    yield one
    server.terminate()
    server.wait(60)


def test_the_server_shows_the_map_the_unit_and_no_menus_of_nbgrader(opened: Lab) -> None:
    assert "Your course" in _read(opened.home)
    assert "Last said" not in _read(opened.home)
    page = _read(opened.unit)
    assert '"disabledExtensions": ["@jupyter/nbgrader"]' in page
    assert "Jupyter" in opened.log.read_text()
    with pytest.raises(urllib.error.HTTPError, match="403"):
        _read(opened.alive.partition("?")[0])


def _read(address: str) -> str:
    with urllib.request.urlopen(address, timeout=60) as answer:
        return str(answer.read().decode("utf-8"))


def test_a_port_in_use_is_passed_over(mine: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        assert f":{port}/" not in lab(mine, UNIT, port).home


def test_of_two_starts_at_once_each_has_a_server_of_its_own(
    mine: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    port = own_ports()

    def raced(folder: Path, unit: str, first: int) -> Lab:
        one, other = (stubbed(lab(folder, unit, first)) for _ in range(2))
        if first == port:  # another start's server comes up between the look and ours
            others.append(served(other, mine))
        return one

    others: list[subprocess.Popen[bytes]] = []
    monkeypatch.setattr(study_lab, "lab", raced)
    one, server = begun(mine, "", port)
    try:
        assert one.port == port + 1
        assert _read(one.alive) == "here"
        assert [each.poll() for each in (*others, server)] == [None, None]
    finally:
        for each in (*others, server):
            each.kill()
            each.wait()


def stubbed(one: Lab) -> Lab:
    """Return the same with a small server that takes its port or ends, and knows its token."""
    return one._replace(command=[sys.executable, "-c", ANSWERING, str(one.port), one.alive])


def test_a_server_that_does_not_start_says_where_its_log_is(mine: Path) -> None:
    broken = lab(mine, "", own_ports())._replace(
        command=[sys.executable, "-c", "print('no'); exit(1)"]
    )
    with pytest.raises(ValueError, match=r"see .*server\.log"):
        served(broken, mine)
    assert broken.log.read_text() == "no\n"


def test_a_course_of_ones_own_has_no_next_unit_once_all_is_done(mine: Path) -> None:
    for exercise in EXERCISES:
        answered(mine, exercise.id, exercise.points, "Right.")
    assert "Nothing is left to do." in home_page(mine)
