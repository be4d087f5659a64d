"""The browser's part of live pages: pure functions run by node, and the modules put together."""

import re
import shutil
import subprocess
from pathlib import Path

from fuelcircuits.benches.drive.scripts import DRIVE, DRIVE_STATIC
from fuelcircuits.benches.frame.scripts import SCRIPTS, bundle
from fuelcircuits.benches.live.engine import LIVE, STATIC

SCRIPTED = Path(__file__).parent / "scripts"


def run(*words: str) -> "subprocess.CompletedProcess[str]":
    """Run node with these words."""
    node = shutil.which("node")
    assert node, "node must be on this machine (Debian: apt-get install nodejs)"
    return subprocess.run([node, *words], capture_output=True, text=True, check=False)


def test_links_and_the_order_of_answers() -> None:
    done = run("--test", *sorted(map(str, SCRIPTED.glob("*.test.mjs"))))
    assert done.returncode == 0, done.stdout


def test_modules_together_are_one_without_joints(tmp_path: Path) -> None:
    text = "\n".join([bundle(SCRIPTS), bundle(DRIVE, DRIVE_STATIC), bundle(LIVE, STATIC)])
    assert re.findall(r"^import\b", text, re.M) == []
    (tmp_path / "all.mjs").write_text(text, encoding="utf-8")
    assert run("--check", str(tmp_path / "all.mjs")).stderr == ""


def test_every_module_imports_from_those_before_it_alone() -> None:
    for at, name in enumerate(LIVE):
        source = (STATIC / name).read_text("utf-8")
        joined = re.findall(r'^import .* from "(.*)";$', source, re.M)
        known = [f"./{each}" for each in LIVE[:at]]
        known += [f"../../frame/static/{each}" for each in SCRIPTS]
        known += [f"../../drive/static/{each}" for each in DRIVE]
        assert set(joined) <= set(known)
        assert len(joined) == len(re.findall(r"^import\b", source, re.M))
