"""The package as pages take it: alone with Python's own library it answers every bench."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from fuelcircuits.benches.live.package import archive, modules, package

from tests.benches.opening import STEMS
from tests.places import RIGS, TOP

ALONE = """
import sys
sys.path.insert(0, sys.argv[1])
from fuelcircuits.benches import BENCHES
from fuelcircuits.benches.live.desk import desk_in
desk = desk_in(sys.argv[1])
for stem in BENCHES:
    print(stem, '"whole":true' in desk.ask(
        f'{{"ask": "bench", "stem": "{stem}", "rig": "plover", "system": "SI"}}'))
"""


@pytest.fixture(scope="module")
def packed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the archive with no card but one."""
    card = (TOP / "course" / "rigs" / "plover.toml").read_text("utf-8")
    path = tmp_path_factory.mktemp("package") / "package.zip"
    path.write_bytes(package({"plover": card}))
    return path


def test_it_answers_every_bench_with_no_library_but_python_s(packed: Path) -> None:
    words = [sys.executable, "-I", "-S", "-c", ALONE, str(packed)]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    assert done.stderr == ""
    assert done.stdout.split("\n")[:-1] == [f"{stem} True" for stem in STEMS]


def test_every_module_in_it_can_be_imported(packed: Path) -> None:
    code = f"import sys; sys.path.insert(0, {str(packed)!r})\n"
    code += "\n".join(f"import {name}" for name in modules())
    words = [sys.executable, "-I", "-S", "-c", code]
    assert subprocess.run(words, capture_output=True, text=True, check=False).stderr == ""


def test_what_needs_more_than_python_stays_out() -> None:
    names = set(modules())
    assert {"fuelcircuits.cards", "fuelcircuits.faults", "fuelcircuits.benches.live.desk"} <= names
    for out in (
        "benches.frame.widget",
        "benches.frame.table",
        "quantities.units",
        "own_car.form",
    ):
        assert f"fuelcircuits.{out}" not in names


def test_the_same_files_make_the_same_archive(packed: Path) -> None:
    with zipfile.ZipFile(packed) as opened:
        parts = {name: opened.read(name) for name in reversed(opened.namelist())}
    assert archive(parts) == packed.read_bytes()


def test_own_cars_are_scaled_from_the_rigs_of_the_course(packed: Path) -> None:
    with zipfile.ZipFile(packed) as opened:
        for card in RIGS.glob("*.toml"):
            assert opened.read(f"fuelcircuits/own_car/rigs/{card.name}") == card.read_bytes()
