"""Forked servers and kernels: the account's own rights, and nothing of root, the hub or another."""

import asyncio
import json
import os
import pwd
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from fuelmarks.server.class_server import ClassServer
from fuelmarks.server.hub import configure
from fuelmarks.server.own_forks.kernels import TEMPLATE, ForkedProvisioner
from fuelmarks.server.spawner import ForkingSpawner
from jupyter_client.provisioning.local_provisioner import LocalProvisioner
from jupyterhub.spawner import LocalProcessSpawner
from traitlets.config import Config

from tests.places import TOP

HOME = "/a-home-that-was-there-at-the-import"
HARMLESS = {
    "distutils.command.install.USER_BASE",
    "distutils.command.install.USER_SITE",
    "site.USER_BASE",  # an environment of its own looks into nobody's
    "site.USER_SITE",
}
PUT_RIGHT = {
    "jupyterlab.labapp.LabApp.user_settings_dir",
    "jupyterlab.labapp.LabApp.workspaces_dir",
    "send2trash.plat_other.HOMETRASH",
    "send2trash.plat_other.HOMETRASH_B",
    "send2trash.plat_other.XDG_DATA_HOME",
}
OF_THE_TESTS = {"dask.config.PATH"}  # not in the trainees' environment


@pytest.fixture(scope="module")
def found() -> Iterator[dict[str, Any]]:
    """What `forking` found, in a folder that others may enter; pytest's own lets nobody in."""
    with tempfile.TemporaryDirectory() as folder:
        Path(folder).chmod(0o711)
        yield look(folder)


def look(folder: str) -> dict[str, Any]:
    done = subprocess.run(
        [sys.executable, "-m", "tests.server.forking", folder],
        cwd=TOP,
        env={"PATH": os.environ["PATH"], "HOME": HOME, "LANG": "C.UTF-8"},
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-3000:]
    told: dict[str, Any] = json.loads(done.stdout.splitlines()[-1])
    return told


@pytest.mark.parametrize("kind", ["server", "kernel"])
def test_what_is_forked_has_the_accounts_rights_and_no_way_back(
    found: dict[str, Any], kind: str
) -> None:
    account = pwd.getpwnam("nobody")
    held = found[f"{kind} one"]
    assert held["users"] == [account.pw_uid] * 3
    assert held["groups"] == os.getgrouplist("nobody", account.pw_gid)
    assert not held["root again"]
    assert not held["reads the shadow file"]


def test_the_environment_is_what_was_asked_for_alone(found: dict[str, Any]) -> None:
    server, kernel = found["server two"], found["kernel two"]
    own = {"JUPYTER_RUNTIME_DIR", "OWN", "PATH", "JPY_PARENT_PID", "FUELCIRCUITS_TEMPLATE"}
    assert server["environment"].keys() == own
    assert server["environment"]["OWN"] == "two"
    assert server["folder"] == "/"
    assert kernel["environment"].keys() == {"KERNEL", "JPY_PARENT_PID"}
    assert kernel["folder"] == "/tmp"


def test_no_file_of_the_template_stays_open(found: dict[str, Any]) -> None:
    for kind in ("server", "kernel"):
        for name in ("one", "two"):
            assert found[f"{kind} {name}"]["files"] == []


def test_each_draws_numbers_of_its_own(found: dict[str, Any]) -> None:
    drawn = {found[f"{kind} {name}"]["drawn"] for kind in ("server", "kernel") for name in TWO}
    assert len(drawn) == 4


TWO = ("one", "two")


def test_what_one_was_asked_is_not_in_the_memory_of_the_next(found: dict[str, Any]) -> None:
    assert found["remembers"] == {"first": True, "second": False}


def test_root_and_strangers_get_no_server(found: dict[str, Any]) -> None:
    assert all(found["refused"])


def test_the_end_of_a_process_is_told_and_ends_what_belongs_to_it(found: dict[str, Any]) -> None:
    for name in TWO:
        assert found[f"asked {name}"]["status"] == 7
        assert found[f"asked {name}"]["running"]
        assert found[f"ended {name}"] == 0
        assert not found[f"left {name}"]


def test_only_its_owner_reaches_a_template(found: dict[str, Any]) -> None:
    assert found["mode"] == 0o600


def test_a_home_that_was_noted_at_the_import_is_put_right(found: dict[str, Any]) -> None:
    assert set(found["homes"]) - HARMLESS - OF_THE_TESTS == PUT_RIGHT


def test_the_hub_starts_the_template_with_nothing_of_its_own(tmp_path: Path) -> None:
    c = Config()
    configure(c, ClassServer(tmp_path))
    (template,) = [one for one in c.JupyterHub.services if one["name"] == "template"]
    command = template["command"]
    assert command[:2] == ["env", "-i"]
    names = {word.split("=")[0] for word in command[2 : command.index("-I") - 1]}
    assert names == {"PATH", "LANG", "HOME", "OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"}
    configure(c, ClassServer(tmp_path, forks=False))
    assert "template" not in [one["name"] for one in c.JupyterHub.services]


def test_a_template_that_does_not_answer_is_done_without(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    async def by_command(*_: object, **how: object) -> tuple[str, int]:
        return "by command", 1

    monkeypatch.setattr(LocalProcessSpawner, "start", by_command)
    monkeypatch.setattr(LocalProcessSpawner, "get_env", lambda _: {})
    monkeypatch.setattr(LocalProcessSpawner, "get_args", lambda _: [])
    monkeypatch.setattr(LocalProvisioner, "launch_kernel", by_command)
    monkeypatch.setenv(TEMPLATE, str(tmp_path / "nobody.sock"))
    spawner = ForkingSpawner(template=str(tmp_path / "nobody.sock"), user=Named("nobody"))
    command = ["python", "-m", "ipykernel_launcher", "-f", "kernel.json"]
    with ThreadPoolExecutor(1) as apart:  # browser tests leave a loop running in this one
        started = apart.submit(asyncio.run, spawner.start()).result()
        launching: Any = ForkedProvisioner().launch_kernel(command, env={})
        launched = apart.submit(asyncio.run, launching).result()
    assert started == ("by command", 1)
    assert launched == ("by command", 1)
    assert caplog.text.count("the template must answer") == 2


class Named:
    """As much of the hub's user as a spawner looks at."""

    url = settings = None

    def __init__(self, name: str) -> None:
        self.name = name
