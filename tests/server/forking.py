"""A template at work, seen from inside its processes: what `test_forks` asks about.

Run as root with a folder to write in. Servers and kernels are replaced by functions that write down
what they find; the account is one that every system has.
"""

import grp
import hashlib
import importlib
import json
import os
import random
import re
import secrets
import socket
import sys
import time
from pathlib import Path
from typing import Any

from fuelmarks.server.own_forks import template
from fuelmarks.server.own_forks.asking import Forked
from traitlets import TraitType

ACCOUNT, STRANGER = "nobody", "daemon"
TOKEN = re.compile(rb"token-[0-9a-f]{32}")


def note(folder: Path, name: str, facts: object) -> None:
    """Write facts down, where whoever has lost root's rights still may."""
    (folder / "open" / f"{name}.json").write_text(json.dumps(facts))


def rights() -> dict[str, Any]:
    """Return what this process may do and holds."""
    found: dict[str, Any] = {"users": os.getresuid(), "groups": os.getgroups()}
    found["environment"], found["folder"] = dict(os.environ), str(Path.cwd())
    found["files"] = sorted(_kinds())
    try:
        os.setuid(0)
        found["root again"] = True
    except PermissionError:
        found["root again"] = False
    found["reads the shadow file"] = os.access("/etc/shadow", os.R_OK)
    found["drawn"] = random.random()
    return found


def _kinds() -> list[str]:
    """Return what the open files are that a process has beside its three."""
    kinds = []
    for number in map(int, os.listdir("/proc/self/fd")):
        if number > 2:
            try:
                kinds.append(os.readlink(f"/proc/self/fd/{number}").split(":")[0])
            except OSError:  # the list's own
                continue
    return kinds


def remembers(digest: str) -> bool:
    """Return whether the token of that digest stands anywhere in this process's memory."""
    with Path("/proc/self/mem").open("rb", buffering=0) as memory:
        for line in Path("/proc/self/maps").read_text().splitlines():
            place, modes = line.split()[:2]
            first, last = (int(one, 16) for one in place.split("-"))
            if modes.startswith("rw"):
                try:
                    memory.seek(first)
                    tokens = TOKEN.findall(memory.read(last - first))
                    if digest in [hashlib.sha256(one).hexdigest() for one in tokens]:
                        return True
                except (OSError, OverflowError, ValueError):  # not to be read: the kernel's own
                    continue
    return False


def asked(folder: Path, name: str, account: str = ACCOUNT) -> dict[str, Any]:
    """Return a question as the hub asks it."""
    around = {"JUPYTER_RUNTIME_DIR": str(folder / "open" / name), "OWN": name, "PATH": "/usr/bin"}
    return {"account": account, "arguments": [name], "environment": around, "folder": "/"}


def until(path: Path) -> Any:
    """Return what is written at `path`, once it is."""
    for _ in range(1200):
        if path.exists() and path.read_text():
            return json.loads(path.read_text())
        time.sleep(0.05)
    raise TimeoutError(path)


def main(folder: Path) -> None:
    """Have two templates asked, one by one, and print what was found."""
    (folder / "open").mkdir()
    (folder / "open").chmod(0o777)
    template.GROUP = "nogroup"
    members = grp.struct_group(("nogroup", "x", 65534, [ACCOUNT, "root"]))
    grp.getgrnam = lambda name: members

    def server(arguments: list[str]) -> None:
        """Be a server: note what there is, ask for a kernel, and stay until told to end."""
        note(folder, f"server {arguments[0]}", rights())
        told = {"arguments": [arguments[0]], "environment": {"KERNEL": "1"}, "folder": "/tmp"}
        kernel = Forked(Path(os.environ["FUELCIRCUITS_TEMPLATE"]), told)
        brief = Forked(Path(os.environ["FUELCIRCUITS_TEMPLATE"]), {**told, "arguments": ["7"]})
        held = {"kernel": kernel.pid, "status": brief.wait(), "running": kernel.poll() is None}
        note(folder, f"asked {arguments[0]}", held)
        time.sleep(600)

    def kernel(arguments: list[str]) -> None:
        """Be a kernel: end at once with a status, or note what there is and stay."""
        if arguments[0] == "7":
            sys.exit(7)
        note(folder, f"kernel {arguments[0]}", rights())
        time.sleep(600)

    template.run_server, template.run_kernel = server, kernel
    os.environ["HUBS_OWN"] = "secret"
    where = folder / "template.sock"
    parent = os.getpid()
    if not os.fork():
        told = template.Template(where).serve(until=parent)
        if told and told.get("remember"):
            note(folder, told["remember"], remembers(told["digest"]))
        elif told:
            template.own(told)
        os._exit(0)
    while not where.exists():
        time.sleep(0.02)
    print(json.dumps(ask(folder, where)))


def ask(folder: Path, where: Path) -> dict[str, Any]:
    """Ask the template as the hub does; return what was found."""
    found: dict[str, Any] = {"mode": where.stat().st_mode & 0o777}
    token = f"token-{secrets.token_hex(16)}"
    digest = hashlib.sha256(token.encode()).hexdigest()
    Forked(where, {"remember": "first", "digest": digest, "token": token}).wait()
    Forked(where, {"remember": "second", "digest": digest}).wait()
    found["remembers"] = {one: until(folder / f"open/{one}.json") for one in ("first", "second")}
    found["refused"] = [
        Forked(where, asked(folder, "none", account)).wait() for account in ("root", STRANGER)
    ]
    with socket.socket(socket.AF_UNIX) as line:
        line.connect(str(where))  # and asks nothing
    processes = {name: Forked(where, asked(folder, name)) for name in ("one", "two")}
    for name, process in processes.items():
        for kind in ("server", "kernel", "asked"):
            found[f"{kind} {name}"] = until(folder / f"open/{kind} {name}.json")
        process.terminate()
        found[f"ended {name}"] = process.wait()
        found[f"left {name}"] = Path(f"/proc/{found[f'asked {name}']['kernel']}").exists()
    found["homes"] = noted_homes()
    return found


def noted_homes() -> list[str]:
    """Return what keeps the home that was there at the import, of all that a template imports."""
    names = {
        "own_exchange": "classroom.own_exchange",
        "own_forks.kernels": "server.own_forks.kernels",
    }
    for name, own in names.items():
        sys.modules[name] = importlib.import_module(f"fuelmarks.{own}")
    template.load()
    home, found = os.environ["HOME"], set()
    for module, held in [(name, vars(one)) for name, one in sys.modules.items() if one]:
        for name, value in list(held.items()):
            if isinstance(value, str | bytes | os.PathLike) and home in str(value):
                found.add(f"{module}.{name}")
            elif isinstance(value, type) and value.__module__ == module:
                found |= {f"{module}.{name}.{trait}" for trait in _at_home(value, home)}
    return sorted(found)


def _at_home(kind: type, home: str) -> list[str]:
    """Return the attributes of a class that keep a home."""
    held = {
        name: getattr(one, "default_value", None) if isinstance(one, TraitType) else one
        for name, one in list(vars(kind).items())
    }
    return [name for name, one in held.items() if isinstance(one, str) and home in one]


if __name__ == "__main__":
    importlib.import_module("fuelcircuits")
    main(Path(sys.argv[1]))
