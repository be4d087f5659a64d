"""The class server's demonstration: set up in a box, one round of one unit, and nothing left.

The trainees are invented. They log in, fetch, hand in and read their comments by what the hub
offers to a browser; the instructor's commands run under the instructor's own account.
"""

import json
import os
import pwd
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from fuelmarks.course.class_list import COLUMNS
from fuelmarks.course.course import Course
from fuelmarks.demo.invented_class import class_list, hand_in
from fuelmarks.server.box import HOMES, INSIDE, boxed, check_box
from fuelmarks.server.class_server import ClassServer, ServerError, read_server
from fuelmarks.server.running import start, stop
from fuelmarks.server.setup import set_up
from fuelmarks.server.sudden_end import kill_hub
from fuelmarks.server.visitor import Visitor

__all__ = ["free_ports", "run_server_demo"]

UNIT = "02-float-bowl"
NOTE = "made-by-fuelmarks-server-demo.txt"
TEACHER = "teacher"
MOST = 40


def run_server_demo(course: Path, into: Path, trainees: int, *, compiled: bool = True) -> int:
    """Run the demonstration in a box in `into`, and remove `into` afterwards."""
    if not 1 <= trainees <= MOST:
        raise ServerError(f"trainees must be between 1 and {MOST}, got {trainees}")
    check_box()
    if into.exists() and any(into.iterdir()) and not (into / NOTE).exists():
        raise ServerError(f"into must be a new folder or an earlier demonstration, got {into}")
    into.mkdir(parents=True, exist_ok=True)
    (into / NOTE).write_text("Made by a demonstration; removed by the next one.\n")
    words = (str(course.resolve()), str(trainees), str(int(compiled)))
    inside = [sys.executable, "-m", "fuelmarks.server.demo", *words]
    try:
        done = subprocess.run(boxed(into, inside), check=False).returncode
    finally:
        shutil.rmtree(into)
    return done


def free_ports(lowest: int = 18_000) -> int:
    """Return the first of four ports in a row, from `lowest` on, that nobody listens on."""
    for first in range(lowest, 32_000, 4):
        if all(_free(first + more) for more in range(4)):
            return first
    raise ServerError(f"four ports in a row must be free between {lowest} and 32000, got none")


def _free(port: int) -> bool:
    with socket.socket() as tried:
        try:
            tried.bind(("127.0.0.1", port))
        except OSError:
            return False
    return True


def _inside(course: Path, number: int, compiled: bool) -> None:
    """Set up, start, run the round, and stop; this runs in the box."""
    began = time.monotonic()
    listed = INSIDE.parent / "class.csv"
    lines = [(one.id, one.first_name, one.last_name, one.email) for one in class_list(number)]
    listed.write_text("\n".join(map(",".join, [COLUMNS, *lines])) + "\n")
    server = ClassServer(INSIDE, instructors=(TEACHER,), port=free_ports())
    set_up(server, course.parent, listed, print, homes=HOMES, compiled=compiled)
    server = read_server(INSIDE)
    start(server)
    print(f"The class server runs: {server.front}, after {time.monotonic() - began:.0f} s.")
    set_up(server, course.parent, None, print, homes=HOMES, compiled=compiled)
    try:
        _round(server)
    finally:
        stop(server)
    print("The class server is stopped, and all it made is removed.")


def _round(server: ClassServer) -> None:
    """Run one round of `UNIT`."""
    told = (server.root / "passwords.csv").read_text().splitlines()[1:]
    passwords = {name: word for name, _, word in (line.split(",") for line in told)}
    with _in(server, TEACHER, passwords) as teacher:
        command = staff_command(server, teacher.token())
        for words in (("build", UNIT), ("hand-out", UNIT, "--release")):
            command(*words)
        _trainees_work(server, passwords)
        _lose_the_hub(server, passwords)
        for words in (("collect", UNIT), ("mark", UNIT), ("report", UNIT, "--release")):
            command(*words)
        for name in sorted(passwords.keys() - {TEACHER}):
            with _in(server, name, passwords) as trainee:
                trainee.press("fetch_feedback", UNIT)
                tries = trainee.listed()[-1]["submissions"]
                print(f"{name}: {sum(one['has_local_feedback'] for one in tries)} page of comments")
        print(f"closed to trainees: {', '.join(closed_to_trainees(server, trainee))}")


def _trainees_work(server: ClassServer, passwords: dict[str, str]) -> None:
    """Have everybody fetch, answer as invented trainees do, and hand in."""
    course = Course.at(Path(server.course))
    worked = INSIDE.parent / "worked"
    habits = dict(hand_in(course, UNIT, worked))
    accounts = json.loads((server.root / "people.json").read_bytes())["trainees"]
    for account, trainee in accounts.items():
        with _in(server, account, passwords) as visitor:
            fetched = visitor.press("fetch", UNIT)[0]
            answered = json.loads((worked / f"{trainee}.ipynb").read_text())
            visitor.save(f"{UNIT}/{UNIT}.ipynb", answered)
            handed = visitor.press("submit", UNIT)[0]
            print(f"{account} ({habits[trainee]}): fetched {fetched}, handed in {handed}")


def _lose_the_hub(server: ClassServer, passwords: dict[str, str]) -> None:
    """Kill the hub while somebody hands in, start it again, and say what is left."""
    name = min(passwords.keys() - {TEACHER})
    with _in(server, name, passwords) as visitor:
        found = kill_hub(server, visitor, UNIT)
    print(
        f"the hub was killed while {name} handed in: {len(found.answered)} answered, "
        f"{found.kept} kept; {'the same' if found.same_server else 'another'} server went on"
    )


def closed_to_trainees(server: ClassServer, trainee: Visitor) -> list[str]:
    """Return what of the staff's and of others a trainee cannot come near, as he would try."""
    account = pwd.getpwnam(trainee.name)
    root, homes = server.root, HOMES
    tried = {
        "passwords": f"cat {root}/passwords.csv",
        "hub": f"ls {root}/hub",
        "exchange": f"ls {root}/exchange",
        "staff's environment": f"ls {root}/staff/",
        "gradebook": f"cat {server.course}/gradebook.db",
        "another's home": f"ls {homes}/{TEACHER}",
        "fuelmarks": f"{root}/trainees/bin/python -c 'import fuelmarks'",
    }
    pages = {
        "another's server": f"/user/{TEACHER}/lab",
        "status page": "/services/exchange/",
        "formgrader": f"/user/{trainee.name}/formgrader",
    }
    closed = [
        what
        for what, words in tried.items()
        if subprocess.run(
            ["sh", "-c", words],
            user=account.pw_uid,
            group=account.pw_gid,
            extra_groups=os.getgrouplist(trainee.name, account.pw_gid),
            cwd="/",
            capture_output=True,
            check=False,
        ).returncode
    ]
    closed += [what for what, path in pages.items() if trainee.ask("GET", path)[0] in (403, 404)]
    return sorted(closed)


@contextmanager
def _in(server: ClassServer, name: str, passwords: dict[str, str]) -> Iterator[Visitor]:
    """Yield somebody who has logged in and has a server."""
    visitor = Visitor(server.front, name)
    visitor.log_in(passwords[name])
    visitor.start()
    yield visitor


class staff_command:  # noqa: N801
    """The instructor's commands, with the instructor's account and token."""

    def __init__(self, server: ClassServer, token: str) -> None:
        self.server, self.token = server, token

    def __call__(self, *words: str, accept: Sequence[int] = (0, 1)) -> str:
        """Run ``fuelmarks`` with `words`; return what it said."""
        path = f"{self.server.root / 'staff' / 'bin'}:/usr/local/bin:/usr/bin:/bin"
        own = {"FUELCIRCUITS_EXCHANGE": self.server.exchange, "JUPYTERHUB_API_TOKEN": self.token}
        teacher = pwd.getpwnam(TEACHER)
        done = subprocess.run(
            [self.server.program("staff", "fuelmarks"), *words, "--course", self.server.course],
            user=teacher.pw_uid,
            group=teacher.pw_gid,
            extra_groups=os.getgrouplist(TEACHER, teacher.pw_gid),
            env={"PATH": path, "HOME": str(HOMES / TEACHER), "LANG": "C.UTF-8", **own},
            cwd=self.server.course,
            capture_output=True,
            text=True,
            check=False,
        )
        print(f"{TEACHER}$ fuelmarks {' '.join(words)}\n{done.stdout}{done.stderr}")
        if done.returncode not in accept:
            raise ServerError(f"fuelmarks {words[0]} must do its work, got {done.returncode}")
        return done.stdout


if __name__ == "__main__":
    sys.stdout.reconfigure(line_buffering=True)  # type: ignore[union-attr]
    os.umask(0o022)
    _inside(Path(sys.argv[1]), int(sys.argv[2]), bool(int(sys.argv[3])))
