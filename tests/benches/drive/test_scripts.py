"""The browser's part of the drive: pure functions run by node, and its modules put together."""

import re
from pathlib import Path

import pytest
from fuelcircuits.benches.drive.bench import DriveBench
from fuelcircuits.benches.drive.scripts import BEHIND, DRIVE, DRIVE_STATIC, NOTEBOOK

from tests.benches.live.test_scripts import run

SCRIPTED = sorted((Path(__file__).parent / "scripts").glob("*.test.mjs"))


@pytest.mark.parametrize("script", SCRIPTED, ids=lambda path: path.name.partition(".")[0])
def test_what_is_pure(script: Path) -> None:
    done = run("--test", str(script))
    assert done.returncode == 0, done.stdout


def test_the_notebook_s_script_is_one_without_joints(tmp_path: Path) -> None:
    text = DriveBench.script()
    assert re.findall(r"^import\b", text, re.M) == []
    assert re.findall(r"^export\b.*", text, re.M) == ["export default { render };"]
    (tmp_path / "all.mjs").write_text(text, encoding="utf-8")
    assert run("--check", str(tmp_path / "all.mjs")).stderr == ""


def test_every_module_imports_from_those_before_it_alone() -> None:
    names = (*DRIVE, NOTEBOOK)
    for at, name in enumerate(names):
        source = (DRIVE_STATIC / name).read_text("utf-8")
        joined = re.findall(r'^import .* from "(.*)";$', source, re.M)
        known = {f"./{each}" for each in names[:at]}
        known |= {f"../../frame/static/{each}" for each in BEHIND}
        assert set(joined) <= known
