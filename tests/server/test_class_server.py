"""What a class server is told, what its accounts are called, and what it gives to systemd."""

import grp
import json
import re
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest
import yaml
from fuelmarks.classroom import own_exchange
from fuelmarks.course.class_list import Trainee
from fuelmarks.course.course import CourseError
from fuelmarks.course.window import read_windows
from fuelmarks.server import running, systemd
from fuelmarks.server.accounts import account_of, names_of, ours
from fuelmarks.server.class_server import ClassServer, ServerError, read_server, write_server
from fuelmarks.server.environments import furnish_staff
from fuelmarks.server.systemd import unit_of
from traitlets.config.loader import PyFileConfigLoader

from tests.places import TOP

LTI = {
    "issuer": "https://platform.example.invalid",
    "authorize_url": "https://platform.example.invalid/auth",
    "jwks_endpoint": "https://platform.example.invalid/keys",
    "client_id": "the-tool",
    "account": "custom_id",
}


def test_what_is_told_is_kept(tmp_path: Path) -> None:
    server = ClassServer(
        tmp_path, instructors=("ada", "bram"), port=9000, behind=True, login="lti", lti=LTI
    )
    write_server(server)
    assert read_server(tmp_path) == server
    assert (tmp_path / "server.toml").stat().st_mode & 0o777 == 0o600


REFUSED = {
    'address = "0.0.0.0"': "or passwords go in clear, got '0.0.0.0'",
    'certificate = "/etc/ssl/a.pem"': "certificate and certificate_key must go together",
    "port = 70000": "port must be between 1 and 65532, got 70000",
    'port = "8000"': "port must be like 8000, got '8000'",
    'login = "none"': "login must be one of pam, lti, got 'none'",
    'login = "lti"': "lti must say issuer, authorize_url, jwks_endpoint, client_id, account",
    "prot = 8000": "name must be one of course, instructors, address",
    "port = ": "must be TOML",
}


@pytest.mark.parametrize(("line", "why"), REFUSED.items(), ids=REFUSED)
def test_what_cannot_be_is_refused_with_its_rule(tmp_path: Path, line: str, why: str) -> None:
    (tmp_path / "server.toml").write_text(line + "\n")
    with pytest.raises(ServerError, match=re.escape(why)):
        read_server(tmp_path)


def test_a_folder_without_a_server_says_what_makes_one(tmp_path: Path) -> None:
    with pytest.raises(ServerError, match="`fuelmarks server setup` makes one"):
        read_server(tmp_path)


@pytest.mark.parametrize(
    ("trainee", "account"),
    [("T001", "t001"), ("ada_f", "ada_f"), ("12345", "t12345"), ("4b", "t4b")],
)
def test_an_account_is_named_after_the_id(trainee: str, account: str) -> None:
    assert account_of(Trainee(trainee)) == account


def test_ids_that_make_no_account_or_the_same_one_are_refused() -> None:
    with pytest.raises(ServerError, match="32 characters or fewer"):
        account_of(Trainee("a" * 33))
    with pytest.raises(ServerError, match="got 't12' for two"):
        names_of([Trainee("12"), Trainee("t12")])


def test_an_account_of_the_computers_own_is_not_ours(monkeypatch: pytest.MonkeyPatch) -> None:
    found = grp.struct_group(("any", "x", 900, ["t001"]))
    monkeypatch.setattr(grp, "getgrnam", lambda _: found)
    assert ours("t001")
    assert not ours("root")


def test_systemd_finds_no_fault_with_the_unit(tmp_path: Path) -> None:
    programs = tmp_path / "staff" / "bin"
    package = tmp_path / "staff/lib/python3.11/site-packages/fuelmarks/server"
    for folder in (programs, package, tmp_path / "hub"):
        folder.mkdir(parents=True)
    (package / "jupyterhub_config.py").touch()
    (programs / "python").symlink_to("/bin/true")
    text = unit_of(ClassServer(tmp_path))
    assert faults(tmp_path / "sound.service", text) == []
    assert faults(tmp_path / "spoiled.service", text.replace("ExecStart=", "ExecStat="))


def test_a_server_that_runs_is_started_anew_only_if_it_was_told_something_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    done: list[str] = []
    monkeypatch.setattr(running, "only_root", lambda: None)
    monkeypatch.setattr(running, "runs", lambda _: "stop" not in done[-1:])
    monkeypatch.setattr(running, "_template_answers", lambda _: True)
    monkeypatch.setattr(running, "stop", lambda _: done.append("stop"))
    monkeypatch.setattr(running, "_start_alone", lambda _: done.append("start"))
    monkeypatch.setattr(systemd, "here", lambda: False)
    server = ClassServer(tmp_path)
    (tmp_path / "hub").mkdir()
    running.start(server)  # begun by an earlier version, which noted nothing
    running.note_start(server)
    running.start(server)
    assert done == []
    running.start(replace(server, port=9000))
    assert done == ["stop", "start"]
    (tmp_path / "staff").mkdir()
    (tmp_path / "staff" / "ready.json").write_text('{"digest": "newer"}')
    running.start(server)
    assert done == ["stop", "start"] * 2


def test_a_certificate_that_is_not_there_is_named_before_anything_is_stopped(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(running, "only_root", lambda: None)
    (tmp_path / "own.key").touch()
    own = (str(tmp_path / "own.pem"), str(tmp_path / "own.key"))
    server = ClassServer(tmp_path, certificate=own[0], certificate_key=own[1])
    with pytest.raises(ServerError, match=r"got no file .*own\.pem"):
        running.start(server)


def faults(unit: Path, text: str) -> list[str]:
    """Return what systemd has to say against a unit."""
    unit.write_text(text)
    asked = ["systemd-analyze", "verify", "--man=no", str(unit)]
    done = subprocess.run(asked, capture_output=True, text=True, check=False)
    return [line for line in done.stderr.splitlines() if unit.name in line]


def test_the_container_copies_what_is_here_and_names_classes_that_are() -> None:
    folder = TOP / "grader" / "container"
    copied = re.findall(r"^COPY (\S+)", (folder / "Dockerfile").read_text(), re.M)
    assert copied
    assert all((TOP / name).exists() for name in copied)
    named = re.findall(r'"own_exchange\.(\w+)"', (folder / "nbgrader_config.py").read_text())
    assert {"FetchAssignment", "FetchFeedback", "Submit", "List"} == set(named)
    assert all(hasattr(own_exchange, name) for name in named)
    values = yaml.safe_load((folder / "hub-values.yaml").read_text())
    assert values["singleuser"]["extraEnv"].keys() == {own_exchange.ADDRESS}


EXAMS = {
    "a date without a time": ({"opens": "2026-12-04"}, "opens must be like"),
    "a name that means nothing": ({"open": 1}, "must say opens, closes, longer, got 'open'"),
    "minutes that are none": ({"longer": {"t001": -5}}, "longer must be minutes from 0"),
    "no table": ("today", "exam must be a table for each unit"),
}


@pytest.mark.parametrize(("said", "why"), EXAMS.values(), ids=EXAMS)
def test_an_examination_that_cannot_be_is_refused(said: object, why: str) -> None:
    held = said if isinstance(said, str) else {"05-off-idle": said}
    with pytest.raises(CourseError, match=re.escape(why)):
        read_windows(Path("term.toml"), held)


def test_formgrader_finds_the_course_from_wherever_it_runs(tmp_path: Path) -> None:
    course, server = TOP / "course", ClassServer(tmp_path, course=str(TOP / "course"))
    furnish_staff(server)
    found = PyFileConfigLoader("nbgrader_config.py", path=str(tmp_path / "staff/etc/jupyter"))
    config = found.load_config()
    assert config.CourseDirectory.root == str(course)
    assert config.ExchangeFactory.collect == "fuelmarks.classroom.exchange.Collect"
    furnish_staff(ClassServer(tmp_path, course=str(tmp_path / "another's")))
    assert not found.load_config()


def test_an_instructors_terminal_finds_the_commands_and_nobody_is_asked_for_news(
    tmp_path: Path,
) -> None:
    """Debian's /etc/profile, which a login shell reads, sets PATH anew; no network is asked."""
    program = tmp_path / "staff" / "bin" / "fuelmarks"
    program.parent.mkdir(parents=True)
    program.touch(mode=0o755)
    furnish_staff(ClassServer(tmp_path))
    etc = tmp_path / "staff" / "etc" / "jupyter"
    server = json.loads((etc / "jupyter_server_config.json").read_text())["ServerApp"]
    words = [*server["terminado_settings"]["shell_command"], "-c", "command -v fuelmarks"]
    around = {"PATH": f"{program.parent}:/usr/bin:/bin", "HOME": str(tmp_path)}
    told = subprocess.run(words, env=around, capture_output=True, text=True, check=True)
    assert told.stdout.strip() == str(program)
    off = json.loads((etc / "labconfig" / "page_config.json").read_text())["disabledExtensions"]
    assert off["@jupyterlab/apputils-extension:announcements"]
