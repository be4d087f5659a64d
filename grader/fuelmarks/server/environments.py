"""The two environments of a class server, owned by root, compiled, outside anybody's home.

The trainees' holds `fuelcircuits`, JupyterLab and nbgrader, and never `fuelmarks`; the staff's
holds all, and only the staff can read it. Each is made again only if something in it is new.
"""

import hashlib
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterable, Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any

from fuelmarks.course.whole_file import put_whole
from fuelmarks.server.accounts import STAFF
from fuelmarks.server.class_server import ClassServer, ServerError

__all__ = ["ensure_environments", "ensure_proxy", "furnish_staff"]

DONE = "ready.json"
LAB = ("jupyterlab", "jupyterhub", "nbgrader")
TRAINEES = ("fuelcircuits",)
ALL = ("fuelcircuits[pictures]", "fuelmarks[cluster,postgres,server]")
CORES = str(os.cpu_count() or 1)
STARTED = (
    *("jupyterhub.singleuser", "jupyterhub.singleuser.extension", "jupyterlab.labapp"),
    *("nbgrader.apps", "nbgrader.server_extensions.assignment_list.handlers"),
    *("ipykernel.kernelapp", "jupyter_server_terminals", "jupyterlab_server", "fuelcircuits"),
)
"""What a server imports: read once by root it is compiled, where not everything is."""
COMMANDED = (
    *("jupyterhub.app", "fuelmarks.server.exchange.service", "fuelmarks.authoring.build"),
    *("fuelmarks.classroom.exchange", "fuelmarks.classroom.hand_out", "fuelmarks.book.pages"),
    *("fuelmarks.classroom.mark_class", "fuelmarks.runner.server"),
)
"""What the staff's commands import beside."""
OWN, FORKS = "own_exchange.py", "own_forks"
PROVISIONER = """\
[jupyter_client.kernel_provisioners]
forked = own_forks.kernels:ForkedProvisioner
"""
NO_NEWS = {"@jupyterlab/apputils-extension:announcements": True}
"""It would ask an outside address for what is new, and everybody whether it may."""
STAFFS_CONFIG = """\
import os

if os.access({course!r}, os.R_OK):
    load_subconfig("nbgrader_config.py", path={course!r})
"""
TERMINAL = {"terminado_settings": {"shell_command": ["/bin/bash"]}}
"""A login shell, which Jupyter would start, forgets the PATH on which `fuelmarks` is."""
NOT_FOR_TRAINEES = ("formgrader", "create-assignment", "course-list", "validate-assignment")


def ensure_environments(server: ClassServer, checkout: Path, *, compiled: bool = True) -> None:
    """Make the environments from the repository in `checkout`, as far as they are not as it is."""
    pins = checkout / ".ci" / "constraints.txt"
    made = {"trainees": (TRAINEES, ("widgets",)), "staff": (ALL, ("widgets", "grader"))}
    digests = {
        name: f"{_digest([pins, *(checkout / one for one in sources)])} {compiled}"
        for name, (_, sources) in made.items()
    }
    old = [name for name in made if _noted(server.root / name) != digests[name]]
    wheels = _wheels(server, checkout) if old else {}
    for name in old:
        own = [f"{one} @ {wheels[one.split('[')[0]].as_uri()}" for one in made[name][0]]
        started = STARTED if name == "trainees" else (*STARTED, *COMMANDED)
        _install(server.root / name, own, pins, () if compiled else started)
    _furnish(server.root / "trainees", server)
    for name in old:
        _note(server.root / name, digests[name])
    shutil.chown(server.root / "staff", group=STAFF)
    (server.root / "staff").chmod(0o750)


def ensure_proxy(server: ClassServer) -> None:
    """Fetch the hub's proxy under its pin, if it is not there."""
    folder, own = server.root / "proxy", files("fuelmarks.server") / "proxy"
    texts = {name: (own / name).read_bytes() for name in ("package.json", "package-lock.json")}
    digest = hashlib.sha256(b"".join(texts.values())).hexdigest()
    if _noted(folder) == digest:
        return
    folder.mkdir(exist_ok=True)
    for name, text in texts.items():
        (folder / name).write_bytes(text)
    npm = shutil.which("npm")
    if not npm or not shutil.which("node"):
        raise ServerError("node and npm must be on this computer for the hub's proxy, got none")
    trusted = Path("/etc/ssl/certs/ca-certificates.crt")
    own_authorities = {"NODE_EXTRA_CA_CERTS": str(trusted)} if trusted.exists() else {}
    quiet = ("--silent", "--ignore-scripts", "--no-audit", "--no-fund")
    _run(npm, "ci", "--prefix", str(folder), *quiet, env={**own_authorities, **os.environ})
    _note(folder, digest)


def _digest(paths: Iterable[Path]) -> str:
    """Return the digest of files and of all that folders hold, but for what Python compiled."""
    facts = hashlib.sha256()
    for top in paths:
        for path in sorted([top, *top.rglob("*")]):
            if path.is_file() and path.suffix != ".pyc":
                facts.update(f"{path.relative_to(top.parent)} {path.stat().st_size}\n".encode())
                facts.update(path.read_bytes())
    return facts.hexdigest()


def _wheels(server: ClassServer, checkout: Path) -> dict[str, Path]:
    """Build the packages of the repository; return the file of each by its name."""
    folder = server.root / "wheels"
    shutil.rmtree(folder, ignore_errors=True)
    asked = ("--system-certs", "--wheel", "--all-packages", "--out-dir", str(folder))
    _run(_uv(), "build", *asked, cwd=checkout)
    return {path.name.split("-")[0]: path for path in folder.glob("*.whl")}


def _install(folder: Path, own: Iterable[str], pins: Path, started: Iterable[str]) -> None:
    """Make one environment anew, with wheels of our `own` in it; all compiled, or `started`."""
    uv = _uv()
    shutil.rmtree(folder, ignore_errors=True)
    _run(uv, "venv", "--quiet", "--python", _python(), str(folder))
    inside = str(folder / "bin" / "python")
    asked = ("--quiet", "--system-certs", "--python", inside)
    _run(uv, "pip", "install", *asked, "-c", str(pins), *LAB, *own)
    if started:
        _run(inside, "-c", f"import {', '.join(started)}")
    else:
        _run(inside, "-m", "compileall", "-q", "-j", CORES, str(folder / "lib"), accept=(0, 1))


def _furnish(folder: Path, server: ClassServer) -> None:
    """Lay down the trainees' side of the exchange, and take the instructors' buttons away."""
    (site,) = (folder / "lib").glob("python*/site-packages")
    own = (files("fuelmarks.classroom") / OWN).read_bytes()
    put_whole(site / OWN, own)
    _furnish_forks(folder, site)
    etc = folder / "etc" / "jupyter"
    (etc / "labconfig").mkdir(parents=True, exist_ok=True)
    off = {f"@jupyter/nbgrader:{name}": True for name in NOT_FOR_TRAINEES} | NO_NEWS
    _write(etc / "labconfig" / "page_config.json", {"disabledExtensions": off})
    extension = {"nbgrader.server_extensions.assignment_list": True}
    held = {"ServerApp": {"jpserver_extensions": extension}}
    _write(etc / "jupyter_server_config.d" / "nbgrader.json", held)
    classes = ("FetchAssignment", "FetchFeedback", "Submit", "List")
    names = ("fetch_assignment", "fetch_feedback", "submit", "list")
    factory = {name: f"own_exchange.{one}" for name, one in zip(names, classes, strict=True)}
    lines = ["c = get_config()", 'c.CourseDirectory.course_id = "fuelcircuits"']
    lines += [f"c.ExchangeFactory.{name} = {one!r}" for name, one in factory.items()]
    put_whole(etc / "nbgrader_config.py", "\n".join([*lines, ""]).encode())
    _write(etc / "jupyter_server_config.json", _culled(server))


def furnish_staff(server: ClassServer) -> None:
    """Have formgrader find the course, and a terminal our commands, wherever the server runs."""
    text = STAFFS_CONFIG.format(course=server.course)
    etc = server.root / "staff" / "etc" / "jupyter"
    etc.mkdir(parents=True, exist_ok=True)
    put_whole(etc / "nbgrader_config.py", text.encode())
    _write(etc / "jupyter_server_config.json", {"ServerApp": TERMINAL})
    (etc / "labconfig").mkdir(exist_ok=True)
    _write(etc / "labconfig" / "page_config.json", {"disabledExtensions": NO_NEWS})


def _furnish_forks(folder: Path, site: Path) -> None:
    """Lay down what forks servers and kernels, and have Jupyter find it by its name."""
    (site / FORKS).mkdir(exist_ok=True)
    for one in (files("fuelmarks.server") / FORKS).iterdir():
        if one.name.endswith(".py"):
            put_whole(site / FORKS / one.name, one.read_bytes())
    about = site / f"{FORKS}-1.dist-info"
    about.mkdir(exist_ok=True)
    put_whole(about / "METADATA", f"Metadata-Version: 2.1\nName: {FORKS}\nVersion: 1\n".encode())
    put_whole(about / "entry_points.txt", PROVISIONER.encode())
    spec = folder / "share" / "jupyter" / "kernels" / "python3" / "kernel.json"
    own = {"kernel_provisioner": {"provisioner_name": "forked"}}
    held = json.loads(spec.read_text())
    _write(spec, {**held, "metadata": {**held.get("metadata", {}), **own}})


def _write(path: Path, held: object) -> None:
    """Write settings in the place of a file that may be shared with an installer's store."""
    put_whole(path, json.dumps(held, indent=1).encode())


def _culled(server: ClassServer) -> dict[str, Any]:
    """Return the settings by which a server that nobody uses ends itself."""
    seconds = server.idle_minutes * 60
    kernels = {"cull_idle_timeout": seconds, "cull_interval": 60}
    return {
        "ServerApp": {"shutdown_no_activity_timeout": seconds, **TERMINAL},
        "MappingKernelManager": kernels,
        # It would run npm at each start, to look for language servers that are not there.
        "LanguageServerManager": {"autodetect": False},
        "LabApp": {"extension_manager": "readonly"},
        # By files in the owner's home: thirty that begin at once took one another's ports.
        "KernelManager": {"transport": "ipc"},
    }


def _noted(folder: Path) -> str:
    try:
        return str(json.loads((folder / DONE).read_text())["digest"])
    except (OSError, ValueError, KeyError):
        return ""


def _note(folder: Path, digest: str) -> None:
    (folder / DONE).write_text(json.dumps({"digest": digest}))


def _uv() -> str:
    """Return the installer that this environment came with."""
    beside = Path(sys.executable).with_name("uv")
    found = str(beside) if beside.exists() else shutil.which("uv")
    if not found:
        raise ServerError(
            "uv must be beside this Python or on PATH, got none; `make server` has it"
        )
    return found


def _python() -> str:
    """Return a Python that everybody on this computer may run."""
    for path in (Path(getattr(sys, "_base_executable", sys.executable)), Path("/usr/bin/python3")):
        if path.exists() and all(one.stat().st_mode & 0o001 for one in path.resolve().parents):
            return str(path)
    raise ServerError("python3 must be one that everybody may run, got none; install python3")


def _run(
    *words: str,
    cwd: Path | None = None,
    env: Mapping[str, str] | None = None,
    accept: tuple[int, ...] = (0,),
) -> None:
    """Run a program; raise `ServerError` with the end of what it said if it fails."""
    around = {**(os.environ if env is None else env)}
    around.pop("PYTHONDONTWRITEBYTECODE", None)
    done = subprocess.run(words, cwd=cwd, env=around, capture_output=True, text=True, check=False)
    if done.returncode not in accept:
        said = "\n".join((done.stderr or done.stdout).strip().splitlines()[-8:])
        raise ServerError(f"{Path(words[0]).name} {words[1]} must do its work, got:\n{said}")
