"""The two wheels hold all they need, and the trainees' alone runs what is handed out."""

import json
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from fuelmarks.commands.cli import main

from tests.places import COURSE_FOLDER, RIGS, TOP

UNIT = "02-float-bowl"
CLASS = "id,first name,last name,email\nt001,Ada,Floatwell,ada@example.invalid\n"
UV = (str(Path(sys.executable).with_name("uv")), "--quiet", "--system-certs")

RUN_CELLS = """
import json, sys
from IPython.core.interactiveshell import InteractiveShell
shell = InteractiveShell.instance()
failed = []
for cell in json.load(open(sys.argv[1], encoding="utf-8"))["cells"]:
    if cell["cell_type"] == "code":
        done = shell.run_cell("".join(cell["source"]))
        failed += [] if done.success else [repr(done.error_in_exec or done.error_before_exec)]
print(json.dumps([shell.user_ns["sheet"].mode, *failed]))
"""

SHOW_EVERY_BENCH = """
import sys
from fuelcircuits import read_rig
from fuelcircuits.benches import BENCHES, open_bench
for stem in BENCHES:
    assert "<svg" in open_bench(stem, read_rig(sys.argv[1])).figure().svg, stem
"""


@pytest.fixture(scope="module")
def wheels(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with both wheels, as ``make wheels`` builds them."""
    folder = tmp_path_factory.mktemp("dist")
    build = (*UV, "build", "--wheel", "--all-packages", "--out-dir", str(folder))
    subprocess.run(build, cwd=TOP, check=True)
    return folder


@pytest.fixture(scope="module")
def python(wheels: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The Python of an environment into which the trainees' wheel was installed, alone."""
    folder = tmp_path_factory.mktemp("trainee") / "venv"
    python = folder / Path(sys.executable).parent.name / "python"
    subprocess.run((*UV, "venv", "--python", sys.executable, str(folder)), check=True)
    asked = (*("--python", str(python)), *("-c", str(TOP / ".ci/constraints.txt")))
    (wheel,) = wheels.glob("fuelcircuits-*.whl")
    subprocess.run((*UV, "pip", "install", *asked, str(wheel)), check=True)
    return python


@pytest.fixture
def notebook(tmp_path: Path) -> Path:
    """The notebook of a trainee of a class, as it is handed out."""
    for name in ("units", "release"):
        shutil.copytree(COURSE_FOLDER / name / UNIT, tmp_path / "course" / name / UNIT)
    (tmp_path / "course" / "class.csv").write_text(CLASS)
    (tmp_path / "course" / "term.toml").write_text('key = "a key for tests"\n')
    assert main(["hand-out", UNIT, "--course", str(tmp_path / "course")]) == 0
    return tmp_path / "course" / "handout" / "t001" / UNIT / f"{UNIT}.ipynb"


def run(python: Path, code: str, *words: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    asked = (str(python), "-I", "-c", code, *words)
    return subprocess.run(asked, cwd=cwd, capture_output=True, text=True, check=False)


@pytest.mark.parametrize("package", ["widgets/fuelcircuits", "grader/fuelmarks"])
def test_a_wheel_holds_every_file_of_its_package_and_the_licence(
    wheels: Path, package: str
) -> None:
    folder = TOP / package
    here = {path for path in folder.rglob("*") if path.is_file() and path.suffix != ".pyc"}
    (wheel,) = wheels.glob(f"{folder.name}-*.whl")
    with zipfile.ZipFile(wheel) as opened:
        held = {name for name in opened.namelist() if name.startswith(f"{folder.name}/")}
        (licence,) = (name for name in opened.namelist() if name.endswith("/LICENSE"))
        assert opened.read(licence) == (TOP / "LICENSE").read_bytes()
    assert held == {path.relative_to(folder.parent).as_posix() for path in here}


def test_own_cars_are_scaled_from_the_rigs_of_the_course(wheels: Path) -> None:
    (wheel,) = wheels.glob("fuelcircuits-*.whl")
    with zipfile.ZipFile(wheel) as opened:
        for card in RIGS.glob("*.toml"):
            assert opened.read(f"fuelcircuits/own_car/rigs/{card.name}") == card.read_bytes()


def test_a_handed_out_notebook_runs_where_only_the_trainees_wheel_is(
    python: Path, notebook: Path
) -> None:
    done = run(python, RUN_CELLS, str(notebook), cwd=notebook.parent)
    assert json.loads(done.stdout.splitlines()[-1]) == ["class"]
    handing_over = notebook.read_text("utf-8").count("hand_over(")
    assert done.stdout.count("Nothing handed over yet.") == handing_over >= 8


@pytest.mark.parametrize("package", ["fuelmarks", "nbgrader", "resvg_py"])
def test_what_marks_and_what_draws_pictures_is_missing_there(
    python: Path, tmp_path: Path, package: str
) -> None:
    done = run(python, f"import {package}", cwd=tmp_path)
    assert done.returncode == 1
    assert f"No module named '{package}'" in done.stderr


def test_every_bench_is_drawn_there(python: Path, tmp_path: Path) -> None:
    rig = RIGS / "plover.toml"
    done = run(python, SHOW_EVERY_BENCH, str(rig), cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
