"""The start of a lesson: simulated trainees through the hub's own interfaces, in a box.

``python -m tests.benchmarks.lesson 30`` as root. Everybody logs in, has a server started, fetches,
opens the unit, runs every cell, saves and hands in. Printed are the times of each step, the memory
of each at the end (shared pages shared out: PSS), and what the lesson cost in processor time.
``--keep`` leaves the environments in build/lesson for the next run, ``--by-command`` starts servers
and kernels by their commands instead of forking them. ``--both`` has one class come to forked
servers and another of the same size to the other kind, and tells how many times as long each step
took then.
"""

import argparse
import asyncio
import json
import os
import shutil
import subprocess
import sys
import time
import uuid
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from fuelmarks.course.class_list import COLUMNS
from fuelmarks.demo.invented_class import class_list
from fuelmarks.server.box import HOMES, INSIDE, boxed
from fuelmarks.server.class_server import ClassServer, read_server, write_server
from fuelmarks.server.demo import TEACHER, UNIT, free_ports, staff_command
from fuelmarks.server.running import start, stop
from fuelmarks.server.setup import set_up
from fuelmarks.server.visitor import Visitor
from tornado.httpclient import HTTPRequest
from tornado.websocket import WebSocketClientConnection, websocket_connect

from tests.benchmarks._lesson_table import Times, compare, memory, show, worked
from tests.places import TOP


async def lesson(server: ClassServer, passwords: dict[str, str]) -> tuple[Times, list[str]]:
    """Have everybody come at once; return the seconds of each step, and what went wrong."""
    times: Times = defaultdict(list)
    wrong: list[str] = []

    async def one(name: str) -> None:
        try:
            await attend(server, name, passwords[name], times)
        except Exception as error:
            wrong.append(f"{name}: {type(error).__name__}: {error}")

    await asyncio.gather(*(one(name) for name in passwords))
    return times, wrong


async def attend(server: ClassServer, name: str, password: str, times: Times) -> None:
    """Do what one trainee does at the start of a lesson."""
    visitor = Visitor(server.front, name)
    began = last = time.monotonic()

    def note(step: str) -> None:
        nonlocal last
        times[step].append(time.monotonic() - last)
        last = time.monotonic()

    await asyncio.to_thread(visitor.log_in, password)
    note("log in")
    await asyncio.to_thread(visitor.start, 300.0)
    note("server")
    await asyncio.to_thread(visitor.press, "fetch", UNIT)
    path = f"{UNIT}/{UNIT}.ipynb"
    notebook = await asyncio.to_thread(visitor.work, path)
    note("fetch and open")
    told = {"path": path, "type": "notebook", "name": "x", "kernel": {"name": "python3"}}
    status, text = await asyncio.to_thread(lambda: visitor.own("POST", "api/sessions", told=told))
    assert status == 201, text
    line = await channel(server, visitor, json.loads(text)["kernel"]["id"])
    await run(line, "1")
    note("kernel")
    first = True
    cells = [cell["source"] for cell in notebook["cells"] if cell["cell_type"] == "code"]
    entered = time.monotonic()
    for source in cells:
        if await run(line, source) and first:
            times["first bench, from log in"].append(time.monotonic() - began)
            first = False
    times["all cells"].append(time.monotonic() - entered)
    last = time.monotonic()
    line.close()
    await asyncio.to_thread(visitor.save, path, notebook)
    handed, said = await asyncio.to_thread(visitor.press, "submit", UNIT)
    assert handed, said[-300:]
    note("save and hand in")
    times["all of it"].append(time.monotonic() - began)


async def channel(server: ClassServer, visitor: Visitor, kernel: str) -> WebSocketClientConnection:
    """Return the line to a kernel, as JupyterLab opens it."""
    own = [one for one in visitor.cookies if f"/user/{visitor.name}/".startswith(one.path)]
    cookies = "; ".join(f"{one.name}={one.value}" for one in own)
    where = f"/user/{visitor.name}/api/kernels/{kernel}/channels?session_id={uuid.uuid4().hex}"
    address = server.front.replace("http", "ws", 1) + where
    asked = HTTPRequest(address, headers={"Cookie": cookies}, request_timeout=120)
    return await websocket_connect(asked, max_message_size=1 << 27)


async def run(line: WebSocketClientConnection, source: str) -> bool:
    """Run one cell; return whether it opened a bench."""
    number = uuid.uuid4().hex
    head = {"msg_id": number, "username": "", "session": number, "version": "5.3"}
    content = {"code": source, "silent": False, "store_history": True, "allow_stdin": False}
    whole = {"header": {**head, "msg_type": "execute_request"}, "parent_header": {}}
    await line.write_message(
        json.dumps({**whole, "metadata": {}, "content": content, "channel": "shell", "buffers": []})
    )
    bench = False
    while True:
        raw = await asyncio.wait_for(line.read_message(), 300)
        if not isinstance(raw, str):
            assert raw is not None, "the line to the kernel was cut"
            continue
        told = json.loads(raw)
        bench = bench or told["msg_type"] == "comm_open"
        mine = told.get("parent_header", {}).get("msg_id") == number
        idle = told["msg_type"] == "status" and told["content"]["execution_state"] == "idle"
        if mine and idle:
            return bench


def inside(number: int, kinds: Sequence[bool]) -> None:
    """Set up and hold a lesson of each kind, forked or not; this runs in the box."""
    server, passwords = prepared(number * len(kinds))
    teacher = passwords.pop(TEACHER)
    classes = dict(zip(kinds, batched(sorted(passwords), number), strict=True))
    found: dict[bool, Times] = {}
    try:
        for forks, names in classes.items():
            server = replace(server, forks=forks)
            write_server(server)
            start(server)
            release(server, teacher)
            print(f"\n{'forked' if forks else 'by command'}:")
            found[forks] = held(server, {name: passwords[name] for name in names})
    finally:
        stop(server)
    if len(found) == 2:
        compare(found[True], found[False])


def prepared(number: int) -> tuple[ClassServer, dict[str, str]]:
    """Return a server that is set up for so many trainees, and everybody's password."""
    for name in ("server.toml", "passwords.csv", "people.json"):
        (INSIDE / name).unlink(missing_ok=True)
    for folder in (INSIDE / "hub", INSIDE / "exchange", HOMES):
        shutil.rmtree(folder, ignore_errors=True)
    HOMES.mkdir()
    listed = INSIDE.parent / "class.csv"
    rows = [(one.id, one.first_name, one.last_name, one.email) for one in class_list(number)]
    listed.write_text("\n".join(map(",".join, [COLUMNS, *rows])) + "\n")
    set_up(
        ClassServer(INSIDE, instructors=(TEACHER,), port=free_ports()),
        *(TOP, listed, print),
        homes=HOMES,
    )
    told = (INSIDE / "passwords.csv").read_text().splitlines()[1:]
    passwords = {name: word for name, _, word in (line.split(",") for line in told)}
    return read_server(INSIDE), passwords


def release(server: ClassServer, password: str) -> None:
    """Have the instructor release the unit."""
    teacher = Visitor(server.front, TEACHER)
    teacher.log_in(password)
    command = staff_command(server, teacher.token())
    command("build", UNIT)
    command("hand-out", UNIT, "--release")


def held(server: ClassServer, passwords: dict[str, str]) -> Times:
    """Hold one lesson, and print its table."""
    busy, before = os.getloadavg()[0], worked(list(passwords))
    began = time.monotonic()
    times, wrong = asyncio.run(lesson(server, passwords))
    whole, after = time.monotonic() - began, worked(list(passwords))
    show(times, wrong, whole, memory(list(passwords)), busy)
    for kind, seconds in after.items():
        print(f"{kind:26} {seconds - before.get(kind, 0):7.1f} s of processor time")
    return times


def batched(names: Sequence[str], size: int) -> Iterator[Sequence[str]]:
    """Yield `names` in groups of `size`."""
    for first in range(0, len(names), size):
        yield names[first : first + size]


def main() -> int:
    """Hold the lesson in a box; return its exit status."""
    asked = argparse.ArgumentParser(prog="lesson")
    asked.add_argument("trainees", type=int)
    asked.add_argument("--into", type=Path, default=TOP / "build" / "lesson", metavar="DIR")
    asked.add_argument("--keep", action="store_true")
    asked.add_argument("--by-command", action="store_true")
    asked.add_argument("--both", action="store_true")
    asked.add_argument("--inside", action="store_true", help=argparse.SUPPRESS)
    told = asked.parse_args()
    if told.inside:
        os.umask(0o022)
        inside(told.trainees, (True, False) if told.both else (not told.by_command,))
        return 0
    told.into.mkdir(parents=True, exist_ok=True)
    again = [sys.executable, "-m", "tests.benchmarks.lesson", *sys.argv[1:], "--inside"]
    try:
        return subprocess.run(boxed(told.into, again), check=False).returncode
    finally:
        if not told.keep:
            shutil.rmtree(told.into)


if __name__ == "__main__":
    sys.exit(main())
